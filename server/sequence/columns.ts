/** A trace in aligned columns: the registers step by step. Who shows it brings the words, and colours if there are any. */
import type { Step } from '../../grammar/tree.js';
import {
  figuresIn,
  hasSignedWheels,
  newState,
  POSITION,
  type Profile,
  pointOf,
  type Register,
  type State,
  textOf,
} from '../machine/index.js';
import { pairs } from './beside.js';
import type { CaseRun } from './check.js';
import type { Library } from './library.js';
import type { Run } from './run.js';
import { writtenAt } from './trace.js';

/** How a trace is shown: in which language, and how on the medium. */
export interface TraceStyle {
  readonly words: {
    readonly line: string;
    readonly step: string;
    readonly carriage: string;
    readonly registers: Readonly<Record<Register, string>>;
    /** The carriage out of gear. */
    readonly out: string;
  };
  /** Levers and buttons that do not stand as at the start, and the bell if it rang. */
  levers(state: State, profile: Profile): readonly string[];
  /** What has changed, and what only frames the figures; neither may change the width. */
  strong(text: string): string;
  faint(text: string): string;
  /** Text from a file, fit to be shown. */
  safe(text: string): string;
  /** Columns that a text takes. */
  widthOf(text: string): number;
}

interface Cell {
  readonly text: string;
  /** As it is shown; takes as many columns as `text`. */
  readonly shown?: string;
  readonly left?: boolean;
}

interface Row {
  readonly cells: readonly Cell[];
  /** Prose moves nothing: it runs over the columns of the registers. */
  readonly prose?: string;
}

/** A row for every step as it was carried out, at most so many, below a row of headings. */
export function traceTable(
  library: Library,
  file: string,
  run: CaseRun,
  style: TraceStyle,
  most = Number.POSITIVE_INFINITY,
): string[] {
  const rows = [headings(run.order.profile, style)];
  const last = Math.min(run.tape.length, most);
  let before = newState();
  for (let row = 0; row < last; row++) {
    rows.push(rowOf(library, file, run, row, before, style));
    before = stateAfter(run, row, before);
  }
  return table(rows, style);
}

/** What is said where two machines are shown one below the other. */
export interface BesideWords {
  /** Stands in the column of the steps, before what the second machine shows instead. */
  readonly instead: string;
  readonly notCarriedOut: string;
  readonly onlyThere: string;
}

/**
 * The same with a second run, of the same sequence on a machine that has a fault: below each step what that one shows
 * instead, `≠` before it, and nothing where it shows the same.
 */
export function tableBeside(
  library: Library,
  file: string,
  run: CaseRun,
  faulty: Run,
  words: BesideWords,
  style: TraceStyle,
): string[] {
  const rows = [headings(run.order.profile, style)];
  let before = newState();
  let other = newState();
  for (const pair of pairs(run, faulty)) {
    if (pair.sound !== undefined) {
      rows.push(rowOf(library, file, run, pair.sound, before, style));
      before = stateAfter(run, pair.sound, before);
    } else if (pair.faulty !== undefined) {
      rows.push({ ...stepOf(library, file, faulty, pair.faulty, style), prose: words.onlyThere });
    }
    if (pair.faulty !== undefined) {
      other = stateAfter(faulty, pair.faulty, other);
      if (!isProse(faulty.tape.stepAt(pair.faulty))) {
        rows.push(...differenceRow(before, other, run.order.profile, words, style));
      }
    } else rows.push({ cells: [{ text: '' }, said(words.instead)], prose: words.notCarriedOut });
  }
  return table(rows, style);
}

const said = (text: string): Cell => ({ text: `  ${text}`, left: true });

function differenceRow(sound: State, faulty: State, profile: Profile, words: BesideWords, style: TraceStyle): Row[] {
  const place = faulty[POSITION] === 0 ? style.words.out : String(faulty[POSITION]);
  const levers = [sound, faulty].map((state) => style.levers(state, profile).join(', '));
  const cells: Cell[] = [
    { text: faulty[POSITION] === sound[POSITION] ? '' : `≠ ${place}` },
    ...shownRegisters(profile).map((register) => {
      const cell = registerCell(register, sound, faulty, profile, style, '≠ ');
      return cell.text.startsWith('≠') ? cell : { text: '' };
    }),
    { text: levers[0] === levers[1] ? '' : `≠ ${levers[1] || '–'}`, left: true },
  ];
  return cells.every(({ text }) => text === '') ? [] : [{ cells: [{ text: '' }, said(words.instead), ...cells] }];
}

/** Prose leaves what happened in the step before it as it was. */
const stateAfter = ({ tape }: Run, row: number, before: State): State =>
  isProse(tape.stepAt(row)) ? before : tape.stateAt(row);

const isProse = ({ syntax: { kind } }: Step): boolean => kind === 'note' || kind === 'caution';

const shownRegisters = (profile: Profile): readonly Register[] =>
  profile.counter > 0 ? ['setting', 'counter', 'result'] : ['setting', 'result'];

function headings(profile: Profile, { words, faint }: TraceStyle): Row {
  const head = (text: string): Cell => ({ text, shown: faint(text) });
  const named = shownRegisters(profile).map((register) => head(words.registers[register]));
  const heads = [head(words.line), { ...head(words.step), left: true }, head(words.carriage), ...named];
  return { cells: [...heads, { ...head(''), left: true }] };
}

/** Where a step is written, and what it is. */
function stepOf(library: Library, file: string, run: Run, row: number, { safe, faint }: TraceStyle): Row {
  const { line, file: other, step } = writtenAt(library, file, run, row);
  const where = other === undefined ? String(line) : safe(`${other.split('/').at(-1)}:${line}`);
  const indented = '  '.repeat(run.tape.frameAt(row).depth) + safe(step);
  const cells = [{ text: where, shown: faint(where) }];
  return isProse(run.tape.stepAt(row))
    ? { cells, prose: indented }
    : { cells: [...cells, { text: indented, left: true }] };
}

function rowOf(library: Library, file: string, run: Run, row: number, before: State, style: TraceStyle): Row {
  const { profile } = run.order;
  const { words, faint } = style;
  const written = stepOf(library, file, run, row, style);
  if (written.prose !== undefined) return written;
  const state = run.tape.stateAt(row);
  const place = state[POSITION] === 0 ? words.out : String(state[POSITION]);
  const levers = style.levers(state, profile).join(', ');
  const cells = [
    ...written.cells,
    { text: state[POSITION] === before[POSITION] ? place : `> ${place}` },
    ...shownRegisters(profile).map((register) => registerCell(register, before, state, profile, style)),
    { text: levers, shown: faint(levers), left: true },
  ];
  return { cells };
}

/** A register with its marker; `>` stands before one that has changed, and its changed figures stand out. */
function registerCell(
  register: Register,
  before: State,
  state: State,
  profile: Profile,
  style: TraceStyle,
  mark = '> ',
): Cell {
  const marker = pointOf(state, register);
  const now = figuresIn(textOf(state, profile, register));
  const then = figuresIn(textOf(before, profile, register));
  const isChanged = now.some((figure, i) => figure !== then[i]) || marker !== pointOf(before, register);
  const isSigned = hasSignedWheels(profile, register);
  const firstFigure = now.findIndex((figure) => figure !== '0');
  const significant = Math.min(firstFigure < 0 ? now.length : firstFigure, now.length - 1 - marker);
  let text = isChanged ? mark : '';
  let shown = isChanged ? style.strong(mark) : '';
  for (const [i, figure] of now.entries()) {
    const point = i === now.length - marker && marker > 0 ? '.' : '';
    const cell = isSigned ? figure.padStart(2) : figure;
    text += point + cell;
    shown += point + (figure !== then[i] ? style.strong(cell) : i < significant ? style.faint(cell) : cell);
  }
  return { text, shown };
}

function table(rows: readonly Row[], { widthOf }: TraceStyle): string[] {
  const columns = rows[0].cells.length;
  const widths = Array.from({ length: columns }, (_, c) =>
    rows.reduce((widest, { cells }) => Math.max(widest, widthOf(cells[c]?.text ?? '')), 0),
  );
  return rows.map(({ cells, prose }) => {
    const padded = cells.map(({ text, shown, left }, c) => {
      const blank = ' '.repeat(widths[c] - widthOf(text));
      return left ? (shown ?? text) + (c === columns - 1 ? '' : blank) : blank + (shown ?? text);
    });
    return `  ${[...padded, ...(prose === undefined ? [] : [prose])].join('  ')}`.trimEnd();
  });
}
