/**
 * A machine drawn in plain text: carriage over levers, so that it is seen which lever drives which wheel.
 *
 * Wheels in one column belong together: in position p, lever 1 drives place p of the result, and the counter turns in
 * place p. Where the levers reach further right than the result, the carriage is out of gear.
 */
import {
  figuresIn,
  has,
  hasSignedWheels,
  POSITION,
  type Profile,
  pointOf,
  type Register,
  type State,
  textOf,
} from '../machine/index.js';
import { leversOf, positionText, registersOf } from './readings.js';
import type { Words } from './wording/index.js';

/** What is drawn: a machine before and after something, which may be one and the same state. */
export interface Drawn {
  readonly profile: Profile;
  readonly before: State;
  readonly after: State;
  /** Whether the bell rang in between. */
  readonly rang: boolean;
}

interface Row {
  readonly name: string;
  readonly when: string;
  readonly wheels: string;
}

/** The figure, line by line, without blanks at the ends. What has changed has marks beneath it. */
export function figure({ profile, before, after, rang }: Drawn, words: Words): string[] {
  const frame = new Columns(profile, after[POSITION]);
  const rows = [
    ...positionRows(frame, before, after, words),
    ...registersOf(profile).flatMap((register) => registerRows(frame, register, profile, before, after, words)),
  ];
  const names = Math.max(...rows.map(({ name }) => name.length));
  const whens = Math.max(...rows.map(({ when }) => when.length));
  const lines = rows.map(({ name, when, wheels }) => {
    const label = whens > 0 ? `${name.padEnd(names)}  ${when.padEnd(whens)}` : name.padEnd(names);
    return `${label}  ${wheels}`.trimEnd();
  });
  const levers = leversText(profile, before, after, words);
  if (rang) levers.push(words.readings.bell);
  return levers.length > 0 ? [...lines, levers.join(' · ')] : lines;
}

/** Where wheels and levers stand: columns are numbered as the places of the result, from the right. */
class Columns {
  private readonly lowest: number;
  private readonly highest: number;
  /** A figure with room for its decimal marker at the left, and for a sign where there are signed wheels. */
  private readonly width: number;

  constructor(
    profile: Profile,
    private readonly position: number,
  ) {
    this.lowest = Math.min(1, position);
    this.highest = Math.max(profile.result, profile.counter, position + profile.setting - 1);
    this.width = hasSignedWheels(profile, 'counter') ? 3 : 2;
  }

  /** A row of cells by their columns, lowest first; each cell keeps its right end. */
  row(cells: ReadonlyMap<number, string>): string {
    let text = '';
    for (let column = this.highest; column >= this.lowest; column--) {
      text += (cells.get(column) ?? '').padStart(this.width);
    }
    return text;
  }

  /** The column of a place of a register. */
  of(register: Register, place: number): number {
    return register === 'setting' ? this.position + place - 1 : place;
  }

  /** A figure with the decimal marker before it. */
  withMarker(figure: string): string {
    return `.${figure.padStart(this.width - 1)}`;
  }
}

function positionRows(frame: Columns, before: State, after: State, words: Words): Row[] {
  const row = (state: State, when: string): Row => ({
    name: positionText(state[POSITION], words),
    when,
    wheels: frame.row(new Map([[state[POSITION], 'v']])),
  });
  if (before[POSITION] === after[POSITION]) return [row(after, '')];
  return [row(before, words.readings.before), row(after, words.readings.after)];
}

function registerRows(
  frame: Columns,
  register: Register,
  profile: Profile,
  before: State,
  after: State,
  words: Words,
): Row[] {
  const name = words.readings.registers[register];
  const then = cellsOf(frame, register, profile, before);
  const now = cellsOf(frame, register, profile, after);
  const changed = new Map([...now].flatMap(([column, cell]) => (cell === then.get(column) ? [] : [[column, '^']])));
  if (changed.size === 0) return [{ name, when: '', wheels: frame.row(now) }];
  return [
    { name, when: words.readings.before, wheels: frame.row(then) },
    { name: '', when: words.readings.after, wheels: frame.row(now) },
    { name: '', when: '', wheels: frame.row(changed) },
  ];
}

function cellsOf(frame: Columns, register: Register, profile: Profile, state: State): Map<number, string> {
  const figures = figuresIn(textOf(state, profile, register)).reverse();
  const marker = pointOf(state, register);
  return new Map(
    figures.map((figure, i) => [frame.of(register, i + 1), i + 1 === marker ? frame.withMarker(figure) : figure]),
  );
}

/** How the levers and buttons stand that the machine has; of one that was moved, also where it stood. */
const leversText = (profile: Profile, before: State, after: State, words: Words): string[] =>
  leversOf(profile, words).map(({ bit, on, off }) => {
    const now = has(after, bit) ? on : off;
    return has(before, bit) === has(after, bit) ? now : `${has(before, bit) ? on : off} → ${now}`;
  });
