/** A trace in aligned columns: the registers step by step. Who shows it brings the words, and colours if there are any. */
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
import type { CaseRun } from './check.js';
import type { Library } from './library.js';
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
  return table(rowsOf(library, file, run, style, most), style);
}

const shownRegisters = (profile: Profile): readonly Register[] =>
  profile.counter > 0 ? ['setting', 'counter', 'result'] : ['setting', 'result'];

function rowsOf(library: Library, file: string, run: CaseRun, style: TraceStyle, most: number): Row[] {
  const { profile } = run.order;
  const { words, safe } = style;
  const registers = shownRegisters(profile);
  const faint = (text: string): Cell => ({ text, shown: style.faint(text) });
  const named = registers.map((register) => faint(words.registers[register]));
  const heads = [faint(words.line), { ...faint(words.step), left: true }, faint(words.carriage), ...named];
  const rows: Row[] = [{ cells: [...heads, { ...faint(''), left: true }] }];
  let before = newState();
  for (let row = 0; row < Math.min(run.tape.length, most); row++) {
    const state = run.tape.stateAt(row);
    const { line, file: other, step } = writtenAt(library, file, run, row);
    const { depth } = run.tape.frameAt(row);
    const lineCell = faint(other === undefined ? String(line) : safe(`${other.split('/').at(-1)}:${line}`));
    const indented = '  '.repeat(depth) + safe(step);
    const { kind } = run.tape.stepAt(row).syntax;
    if (kind === 'note' || kind === 'caution') {
      rows.push({ cells: [lineCell], prose: indented });
      continue;
    }
    const place = state[POSITION] === 0 ? words.out : String(state[POSITION]);
    const cells = [
      lineCell,
      { text: indented, left: true },
      { text: state[POSITION] === before[POSITION] ? place : `> ${place}` },
      ...registers.map((register) => registerCell(register, before, state, profile, style)),
      { ...faint(style.levers(state, profile).join(', ')), left: true },
    ];
    rows.push({ cells });
    before = state;
  }
  return rows;
}

/** A register with its marker; `>` stands before one that has changed, and its changed figures stand out. */
function registerCell(register: Register, before: State, state: State, profile: Profile, style: TraceStyle): Cell {
  const marker = pointOf(state, register);
  const now = figuresIn(textOf(state, profile, register));
  const then = figuresIn(textOf(before, profile, register));
  const isChanged = now.some((figure, i) => figure !== then[i]) || marker !== pointOf(before, register);
  const isSigned = hasSignedWheels(profile, register);
  const firstFigure = now.findIndex((figure) => figure !== '0');
  const significant = Math.min(firstFigure < 0 ? now.length : firstFigure, now.length - 1 - marker);
  let text = isChanged ? '> ' : '';
  let shown = isChanged ? style.strong('> ') : '';
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
