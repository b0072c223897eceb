/** Where a name comes from: the header that declares it, the reading that has the label, the file that a path names. */
import type { Location, LocationLink, Position, Range } from 'vscode-languageserver';
import type { ParsedDocument } from './document.js';
import { rangeOfSection } from './extent.js';
import { type NamedSpot, nameAt, occurrencesOf } from './names.js';
import { locationOn, rangeOn } from './spots.js';

/** The declarations of the name at a position, with the name that led there; none where it means nothing known. */
export function definitionLinks(document: ParsedDocument, position: Position): LocationLink[] {
  const spot = nameAt(document, position);
  if (!spot) return [];
  return targetsOf(document, spot).map(({ uri, whole, range }) => ({
    originSelectionRange: spot.range,
    targetUri: uri,
    targetRange: whole,
    targetSelectionRange: range,
  }));
}

/** The same for clients that take no links. */
export const definition = (document: ParsedDocument, position: Position): Location[] =>
  definitionLinks(document, position).map(({ targetUri: uri, targetSelectionRange: range }) => ({ uri, range }));

interface Target {
  readonly uri: string;
  /** What is to be seen, and the name in it. */
  readonly whole: Range;
  readonly range: Range;
}

function targetsOf(document: ParsedDocument, spot: NamedSpot): Target[] {
  const { library } = document;
  if (spot.kind === 'file') {
    if (spot.file === undefined || library.problemOf(spot.file)) return [];
    const uri = spot.file === document.file ? document.uri : document.uriOf(spot.file);
    return [{ uri, whole: TOP, range: TOP }];
  }
  if (spot.kind === 'machine' || spot.kind === 'sequence') {
    const { section } = spot;
    if (!section?.header) return [];
    const { uri, range } = locationOn(document, section, 0, section.header.name);
    return [{ uri, whole: rangeOfSection({ section, line: library.lineOf(section) }), range }];
  }
  return occurrencesOf(document, spot)
    .filter(({ isDeclaration }) => isDeclaration)
    .map(({ uri, range, home, line }) => {
      const { text } = home.lines[line];
      const whole = { from: text.length - text.trimStart().length, to: text.trimEnd().length };
      return { uri, whole: rangeOn(range.start.line, whole), range };
    });
}

const TOP: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
