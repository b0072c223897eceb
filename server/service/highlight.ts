/** What belongs together with the word at the cursor: a name, the braces of a `repeat`, a register. */
import { type DocumentHighlight, DocumentHighlightKind, type Position } from 'vscode-languageserver';
import { REGISTERS } from '../../grammar/tokens.js';
import type { LineItem, Placed, Step } from '../../grammar/tree.js';
import { allSteps } from '../sequence/names.js';
import type { ParsedDocument } from './document.js';
import { nameAt, occurrencesOf } from './names.js';
import { rangeOn, type Spot, spotAt, tokenAt, tokensOf } from './spots.js';
import { positionIn } from './text.js';

/** The places in this document; none where the cursor stands on nothing of the kind. */
export function highlights(document: ParsedDocument, position: Position): DocumentHighlight[] {
  const spot = nameAt(document, position);
  if (spot) {
    return occurrencesOf(document, spot)
      .filter(({ uri }) => uri === document.uri)
      .map(({ range, isDeclaration, isGiven }) => ({
        range,
        kind: isDeclaration || isGiven ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
      }));
  }
  const { line, character } = positionIn(document.lines, position);
  const on = spotAt(document, line);
  return on ? (bracesAt(on, character) ?? registersAt(on, character)) : [];
}

const REPEAT = 'repeat';

/** A `repeat` and its closing brace. */
function bracesAt({ placed, line, syntax }: Spot, character: number): DocumentHighlight[] | undefined {
  const { section } = placed;
  if (section.kind !== 'sequence' || !syntax.items.some(({ kind }) => kind === REPEAT || kind === 'close')) {
    return undefined;
  }
  const isOn = (at: number, from: number, to: number) => at === line && from <= character && character <= to;
  for (const step of allSteps(section.steps)) {
    if (step.line > line) break;
    const { from } = step.syntax;
    if (!isRepeat(step) || !section.lines[step.line].text.startsWith(REPEAT, from)) continue;
    const { close } = step;
    const isHere = isOn(step.line, from, from + REPEAT.length) || isOn(close.line, close.syntax.from, close.syntax.to);
    if (!isHere) continue;
    return [
      textAt(placed.line + step.line, { from, to: from + REPEAT.length }),
      textAt(placed.line + close.line, close.syntax),
    ];
  }
  return undefined;
}

/** One whose head can't be read is kept as a `repeat` too, whatever it is called. */
const isRepeat = (step: Step): step is Step & { readonly close: NonNullable<Step['close']> } =>
  step.syntax.kind === REPEAT && step.close !== undefined;

const textAt = (line: number, span: { from: number; to: number }): DocumentHighlight => ({
  range: rangeOn(line, span),
  kind: DocumentHighlightKind.Text,
});

/** A register in all steps of its sequence: where it is changed, and where it is read. */
function registersAt({ placed, syntax }: Spot, character: number): DocumentHighlight[] {
  const token = tokenAt(syntax.text, character);
  const register = token?.kind === 'word' ? REGISTERS.find((name) => name === token.text) : undefined;
  return register && placed.section.kind === 'sequence' ? registersIn(placed, register) : [];
}

function registersIn({ section, line: start }: Placed, register: string): DocumentHighlight[] {
  return section.lines.flatMap(({ text, items }, line) => {
    if (!text.includes(register)) return [];
    return tokensOf(text)
      .filter((token) => token.kind === 'word' && token.text === register)
      .map((token) => {
        const item = items.find(({ from, to }) => from <= token.from && token.to <= to);
        const kind = item && CHANGING.has(item.kind) ? DocumentHighlightKind.Write : DocumentHighlightKind.Read;
        return { range: rangeOn(start + line, token), kind };
      });
  });
}

/** Steps that name a register and change it. */
const CHANGING: ReadonlySet<LineItem['kind']> = new Set(['clear', 'dial', 'transfer']);
