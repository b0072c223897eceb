/**
 * Gives a machine, a sequence, a parameter or a label another name, everywhere.
 *
 * Invariant: after a rename every name means what it meant before. Where that can't be, nothing is renamed, and the
 * reader is told why.
 */
import type { CustomPatternMatcherFunc } from 'chevrotain';
import { LSPErrorCodes, type Position, type Range, ResponseError, type WorkspaceEdit } from 'vscode-languageserver';
import { Name, wordOf } from '../../grammar/tokens.js';
import type { ParsedDocument } from './document.js';
import { type NamedSpot, nameAt, namesOnLine, occurrencesOf } from './names.js';
import { spotAt, tokenAt } from './spots.js';
import { positionIn } from './text.js';
import type { Words } from './wording/index.js';

/** What would be renamed at a position; undefined where no word stands. Throws what the reader is to be told. */
export function prepareRename(
  document: ParsedDocument,
  position: Position,
  words: Words,
): { range: Range; placeholder: string } | undefined {
  const spot = nameAt(document, position);
  if (spot) {
    refuseUnknown(spot, words);
    return { range: spot.range, placeholder: spot.name };
  }
  const { line, character } = positionIn(document.lines, position);
  const text = spotAt(document, line)?.syntax.text ?? '';
  const token = tokenAt(text, character);
  if (token?.kind !== 'word') return undefined;
  throw refusal(wordOf(token.text) ? words.names.isWord(token.text) : words.names.notRead);
}

/** The edits in all files. Throws what the reader is to be told where the new name can't be one. */
export function rename(
  document: ParsedDocument,
  position: Position,
  newName: string,
  words: Words,
): WorkspaceEdit | undefined {
  const spot = nameAt(document, position);
  if (!spot) return undefined;
  refuseUnknown(spot, words);
  if (!isName(newName)) throw refusal(wordOf(newName) ? words.names.isWord(newName) : words.names.invalid(newName));
  const name = newName.normalize('NFC');
  if (name !== spot.name && isTaken(document, spot, name)) throw refusal(words.names.taken[spot.kind](name));
  const changes: NonNullable<WorkspaceEdit['changes']> = {};
  for (const { uri, range } of name === spot.name ? [] : occurrencesOf(document, spot)) {
    changes[uri] ??= [];
    changes[uri].push({ range, newText: name });
  }
  return { changes };
}

/** Whether a text can be a name: as the lexer cuts names, and no word of the notation. */
export function isName(text: string): boolean {
  const match = (Name.PATTERN as CustomPatternMatcherFunc)(text, 0, [], {});
  return match?.[0] === text && wordOf(text.normalize('NFC')) === undefined;
}

function refuseUnknown(spot: NamedSpot, words: Words): asserts spot is NamedSpot & { kind: Renamed } {
  if (spot.kind === 'file') throw refusal(words.names.pathStays);
  if (!spot.section) throw refusal(words.names.unknown(spot.name));
}

type Renamed = Exclude<NamedSpot['kind'], 'file'>;

const refusal = (message: string) => new ResponseError(LSPErrorCodes.RequestFailed, message);

function isTaken(document: ParsedDocument, { kind, section }: NamedSpot, name: string): boolean {
  const { library } = document;
  if (kind === 'parameter' || kind === 'label') {
    // A name that is used and not declared would come to mean this one.
    return (section?.lines ?? []).some((line) =>
      namesOnLine(line).some((written) => written.kind === kind && written.name === name),
    );
  }
  const home = section && library.fileOf(section);
  return library.fileNames().some((file) => {
    if (home === undefined || !library.reachable(file).includes(home)) return false;
    const scope = library.scope(file);
    return (kind === 'machine' ? scope.machine(name) : scope.sequence(name)) !== undefined;
  });
}
