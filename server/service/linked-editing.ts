/** Places that change together while somebody types: a parameter or label of one sequence, seen from nowhere else. */
import type { LinkedEditingRanges, Position } from 'vscode-languageserver';
import type { ParsedDocument } from './document.js';
import { nameAt, occurrencesOf } from './names.js';

/**
 * Names as clients see them, which read a pattern with or without its flag for Unicode: whatever is no blank and no
 * mark of the notation, and does not begin with a digit.
 */
const NAME_PATTERN = '[^\\s\\d"#;{}(),=+*/^.\\\\_\'-][^\\s"#;{}(),=+*/^.\\\\_\']*';

/** The declared name and its uses; undefined where it has none, is not declared, or is seen from another file. */
export function linkedEditing(document: ParsedDocument, position: Position): LinkedEditingRanges | undefined {
  const spot = nameAt(document, position);
  if (spot?.kind !== 'parameter' && spot?.kind !== 'label') return undefined;
  const places = occurrencesOf(document, spot);
  if (places.length < 2 || !places.some(({ isDeclaration }) => isDeclaration)) return undefined;
  if (places.some(({ uri }) => uri !== document.uri)) return undefined;
  // A client writes the same letters everywhere: they have to be the same before, and not only in composed form.
  const lettersOf = ({ home, line, from, to }: (typeof places)[number]) => home.lines[line].text.slice(from, to);
  const letters = lettersOf(places[0]);
  if (places.some((place) => lettersOf(place) !== letters)) return undefined;
  return { ranges: places.map(({ range }) => range), wordPattern: NAME_PATTERN };
}
