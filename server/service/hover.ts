/** What stands under the pointer: a step with the machine before and after it, a word, a name, a figure. */
import type { Hover, MarkupKind, Position, Range } from 'vscode-languageserver';
import { finish, type Gradual } from '../../grammar/gradual.js';
import { wordOf } from '../../grammar/tokens.js';
import type { LineItem, StepSyntax } from '../../grammar/tree.js';
import type { AnalysedDocument, Reader } from './document.js';
import { benchParts } from './hover/bench.js';
import { nameText } from './hover/name.js';
import { placeText } from './hover/place.js';
import { goalParts, stepParts } from './hover/step.js';
import { block } from './markdown.js';
import { nameAt } from './names.js';
import { itemAt, rangeOn, type Spot, spotAt, type Token, tokenAt } from './spots.js';
import { positionIn } from './text.js';

/** The hover of a position, undefined where there is nothing to say. */
export const hover = (...asked: Parameters<typeof hoverGradually>): Hover | undefined =>
  finish(hoverGradually(...asked));

/** The same with pauses: over a bench record every fault is tried. */
export function* hoverGradually(
  document: AnalysedDocument,
  position: Position,
  reader: Reader,
): Gradual<Hover | undefined> {
  const { line, character } = positionIn(document.lines, position);
  const spot = spotAt(document, line);
  if (!spot) return undefined;
  const token = tokenAt(spot.syntax.text, character);
  if (!token || token.kind === 'comment') return undefined;
  const item = itemAt(spot, character);
  const name = nameAt(document, { line, character });
  const word = !name && token.kind === 'word' ? wordParts(token, spot, item, document, reader) : undefined;
  const parts = [
    ...(name ? nameText(document, name, reader) : []),
    ...(word?.meaning ?? []),
    ...(!name && token.kind === 'number' ? placeText(document, spot, item, character, reader) : []),
    ...itemParts(document, spot, item, reader),
    ...(item && spot.placed.section.kind === 'bench' ? yield* benchParts(document, spot.placed.section, reader) : []),
    // Last: who knows how it is written looks for the readings.
    ...(word?.forms ?? []),
  ];
  if (parts.length === 0) return undefined;
  const isSmall = token.kind === 'word' || token.kind === 'number';
  const range: Range = name?.range ?? rangeOn(line, isSmall ? token : (item ?? token));
  return { contents: { kind: 'markdown' satisfies MarkupKind, value: parts.join('\n\n') }, range };
}

/** Of a step and a goal: what the run made of it. */
function itemParts(document: AnalysedDocument, spot: Spot, item: ReturnType<typeof itemAt>, reader: Reader): string[] {
  const { section } = spot.placed;
  if (section.kind !== 'sequence' || !item || !isBodyItem(spot, item)) return [];
  if (item.kind === 'goal') return goalParts(document, section, item, reader);
  return item.kind === 'case' || item.kind === 'close'
    ? []
    : stepParts(document, section, { line: spot.line, syntax: item as StepSyntax }, reader);
}

const isBodyItem = ({ syntax }: Spot, item: object): item is LineItem => syntax.items.some((other) => other === item);

/** What a word of the notation means, and how what begins with it is written. */
function wordParts(
  { text, from }: Token,
  { placed, syntax }: Spot,
  item: ReturnType<typeof itemAt>,
  document: AnalysedDocument,
  reader: Reader,
): { readonly meaning: readonly string[]; readonly forms: readonly string[] } | undefined {
  const word = wordOf(text);
  if (!word) return undefined;
  const { header } = syntax;
  const isFirst = !item || item.from === from;
  const kind = header === item && item ? 'section' : placed.section.kind === 'machine' ? 'machine' : 'step';
  const forms = isFirst ? (word.forms?.[kind] ?? word.forms?.section) : undefined;
  const meaning = [`**${text}** – ${reader.words.meanings[text] ?? word.meaning}`];
  // The word that opens a section speaks for the whole of it.
  if (header && header === item && isFirst) {
    const line = document.library.lineOf(placed.section);
    const span = header.kind === 'use' ? header.path : header.kind === 'bench' ? header.of : header.name;
    const name = nameAt(document, { line, character: span.from + 1 });
    if (name) meaning.push(...nameText(document, name, reader));
  }
  return { meaning, forms: forms ? [block(forms, 'crank')] : [] };
}
