/** What a single figure of a number counts for: its place, its lever, the wheel that this drives. */
import type { LineItem, NumberSyntax } from '../../../grammar/tree.js';
import { POSITION, type Profile, pointOf, type Register, type State } from '../../machine/index.js';
import { rowsOf, stateBefore } from '../../sequence/rows.js';
import type { AnalysedDocument, Reader } from '../document.js';
import { sequenceReport, shownRun } from '../readings.js';
import type { itemAt, Spot } from '../spots.js';

/** A number of a step, where its units go, and what it is for. */
interface Placed {
  readonly number: NumberSyntax;
  readonly register: Register;
  /** The place of the units of a digit string, from 1; a value goes by the marker. */
  readonly at: number;
  readonly isMultiplier?: true;
}

/** Sentences on the figure at a column, if it stands in a number that goes to wheels or is read from them. */
export function placeText(
  document: AnalysedDocument,
  spot: Spot,
  item: ReturnType<typeof itemAt>,
  character: number,
  reader: Reader,
): string[] {
  const { section } = spot.placed;
  if (section.kind !== 'sequence' || !item || item === spot.syntax.header) return [];
  const placed = numbersOf(item as LineItem).find(({ number }) => number.from <= character && character <= number.to);
  const report = sequenceReport(document, section);
  const run = report && shownRun(report, document, reader);
  const rows = run && rowsOf(run).of({ line: spot.line, from: item.from });
  if (!placed || !run || !rows) return [];
  return sentences(placed, character, stateBefore(run, rows.first), run.order.profile, reader);
}

function numbersOf(item: LineItem): Placed[] {
  const whole = (number: NumberSyntax) => (number.isValue || number.figures.length > 3 ? 0 : Number(number.figures));
  switch (item.kind) {
    case 'set':
    case 'dial': {
      const register = item.kind === 'set' ? 'setting' : 'result';
      const parts = item.kind === 'set' ? item.parts : [item.part];
      return parts.flatMap(({ figures, at }) => {
        if (figures.kind !== 'number' || at?.kind === 'name') return [];
        return [{ number: figures, register, at: at ? whole(at) : 1 }];
      });
    }
    case 'expect':
      return item.items.flatMap((wanted): Placed[] =>
        wanted.kind === 'register' && wanted.figures.kind === 'number' && !wanted.negative
          ? [{ number: wanted.figures, register: wanted.register, at: 1 }]
          : [],
      );
    case 'multiply':
      return item.by.kind === 'number' ? [{ number: item.by, register: 'counter', at: 1, isMultiplier: true }] : [];
    default:
      return [];
  }
}

function sentences(placed: Placed, character: number, state: State, profile: Profile, { words }: Reader): string[] {
  const { number, register, at, isMultiplier } = placed;
  const { hover } = words;
  const column = Math.min(character, number.to - 1) - number.from;
  const figure = figureAt(number.text, column);
  if (!figure || at < 1) return [];
  const marker = pointOf(state, register);
  const place = (number.isValue ? marker - number.decimals + 1 : at) + figure.fromRight;
  if (place < 1 || place > 20) return [];
  const what = hover.placeName(place - 1 - marker, figure.value);
  const position = state[POSITION];
  if (isMultiplier) return position > 0 ? [hover.turnsIn(what, figure.value, position + place - 1)] : [];
  if (place > profile[register]) return [];
  if (register !== 'setting') return [hover.placeOf(what, place, register)];
  const driven = position + place - 1;
  const drives =
    position === 0
      ? hover.drivesNothing
      : driven > profile.result
        ? hover.drivesNone(position)
        : hover.drives(position, driven);
  return [`${hover.lever(what, place)} ${drives}`];
}

/** The figure in a column of a number, or next to it where that has a point or a grouping mark. */
function figureAt(text: string, column: number): { value: number; fromRight: number } | undefined {
  const at = /\d/.test(text[column] ?? '') ? column : column + 1;
  const sign = text[at] ?? '';
  if (!/\d/.test(sign)) return undefined;
  return { value: Number(sign), fromRight: text.slice(at + 1).replace(/\D/g, '').length };
}
