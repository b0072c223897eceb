/** The trace for a person at a terminal: the registers step by step, in aligned columns. */
import { print } from '../../../grammar/printer.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  hasSignedWheels,
  newState,
  POSITION,
  type Profile,
  pointOf,
  RANG,
  type Register,
  type State,
  SUBTRACTING,
  textOf,
} from '../../machine/index.js';
import type { CaseRun } from '../../sequence/check.js';
import type { Library } from '../../sequence/library.js';
import { writtenAt } from '../../sequence/trace.js';
import { shortNumber } from '../../sequence/wording/en.js';
import { harmless, type Terminal, widthOf } from '../terminal.js';

interface Cell {
  readonly text: string;
  /** As it is shown, with colours; takes as many columns as `text`. */
  readonly shown?: string;
  readonly left?: boolean;
}

interface Row {
  readonly cells: readonly Cell[];
  /** Prose moves nothing: it runs over the columns of the registers. */
  readonly prose?: string;
}

/** The trace of one run, ready to print. */
export function figureText(library: Library, file: string, run: CaseRun, terminal: Pick<Terminal, 'colors'>): string {
  const { colors } = terminal;
  const { section, profile, case: runCase } = run.order;
  const header = section.header;
  const title = header?.title ? `  ${colors.dim(harmless(header.title.value))}` : '';
  const inCase = runCase > 0 ? `, case ${runCase}` : '';
  const values = [...run.order.values].map(([name, { text }]) => `${name} = ${text}`).join(', ');
  const lines = [
    `${colors.bold(`${header?.name.name ?? ''}${inCase}`)}${values && ` (${values})`} on ${profile.name}${title}`,
    ...table(rowsOf(library, file, run, terminal)),
    ...goalLines(run, terminal),
    effortLine(run),
  ];
  return `${lines.join('\n')}\n`;
}

const shownRegisters = (profile: Profile): readonly Register[] =>
  profile.counter > 0 ? ['setting', 'counter', 'result'] : ['setting', 'result'];

function rowsOf(library: Library, file: string, run: CaseRun, terminal: Pick<Terminal, 'colors'>): Row[] {
  const { profile } = run.order;
  const registers = shownRegisters(profile);
  const dim = (text: string): Cell => ({ text, shown: terminal.colors.dim(text) });
  const heads = [dim('line'), { ...dim('step'), left: true }, dim('carriage'), ...registers.map(dim)];
  const rows: Row[] = [{ cells: [...heads, { ...dim(''), left: true }] }];
  let before = newState();
  for (let row = 0; row < run.tape.length; row++) {
    const state = run.tape.stateAt(row);
    const { line, file: other, step } = writtenAt(library, file, run, row);
    const { depth } = run.tape.frameAt(row);
    const lineCell = dim(other === undefined ? String(line) : harmless(`${other.split('/').at(-1)}:${line}`));
    const indented = '  '.repeat(depth) + harmless(step);
    const { kind } = run.tape.stepAt(row).syntax;
    if (kind === 'note' || kind === 'caution') {
      rows.push({ cells: [lineCell], prose: indented });
      continue;
    }
    const place = state[POSITION] === 0 ? 'out' : String(state[POSITION]);
    const cells = [
      lineCell,
      { text: indented, left: true },
      { text: state[POSITION] === before[POSITION] ? place : `> ${place}` },
      ...registers.map((register) => registerCell(register, before, state, profile, terminal)),
      { ...dim(leversText(state, profile)), left: true },
    ];
    rows.push({ cells });
    before = state;
  }
  return rows;
}

/** A register with its marker; `>` stands before one that has changed, and on a terminal what changed stands out. */
function registerCell(
  register: Register,
  before: State,
  state: State,
  profile: Profile,
  { colors }: Pick<Terminal, 'colors'>,
): Cell {
  const marker = pointOf(state, register);
  const now = figuresOf(textOf(state, profile, register));
  const then = figuresOf(textOf(before, profile, register));
  const isChanged = now.some((figure, i) => figure !== then[i]) || marker !== pointOf(before, register);
  const isSigned = hasSignedWheels(profile, register);
  const firstFigure = now.findIndex((figure) => figure !== '0');
  const significant = Math.min(firstFigure < 0 ? now.length : firstFigure, now.length - 1 - marker);
  let text = isChanged ? '> ' : '';
  let shown = isChanged ? colors.bold('> ') : '';
  for (const [i, figure] of now.entries()) {
    const point = i === now.length - marker && marker > 0 ? '.' : '';
    const cell = isSigned ? figure.padStart(2) : figure;
    text += point + cell;
    const paint = figure !== then[i] ? colors.bold : i < significant ? colors.dim : String;
    shown += point + paint(cell);
  }
  return { text, shown };
}

/** Single figures, a negative one with its sign. */
const figuresOf = (text: string): string[] => text.match(/-?\d/g) ?? [];

/** Levers and buttons that are not where they stand at the start. */
function leversText(state: State, profile: Profile): string {
  return [
    has(state, SUBTRACTING) && (profile.subtract === 'lift' ? 'lifted' : 'subtract'),
    has(state, COUNT_MINUS) && 'minus',
    has(state, AUTO_CLEAR) && 'auto-clear',
    has(state, AUTO_DIVIDE) && 'auto-divide',
    has(state, RANG) && 'bell',
  ]
    .filter(Boolean)
    .join(', ');
}

function table(rows: readonly Row[]): string[] {
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

function goalLines(run: CaseRun, { colors }: Pick<Terminal, 'colors'>): string[] {
  const { section } = run.order;
  // A goal that can't be worked out has no result.
  const isEach = section.goals.length === run.goals.length;
  return run.goals.map(({ register, goal, reading, met }, i) => {
    const wanted = isEach ? print(section.goals[i].syntax) : `goal ${register}`;
    const verdict = met ? colors.green(met) : colors.red('missed');
    return `  ${harmless(wanted)}: ${shortNumber(goal)}, reads ${reading}, ${verdict}`;
  });
}

function effortLine({ effort, brokeOff }: CaseRun): string {
  const count = (n: number, thing: string) => `${n} ${thing}${n === 1 ? '' : 's'}`;
  const { turns, shifts, levers, cost } = effort;
  const broke = brokeOff ? ' (the run broke off)' : '';
  return `  effort ${cost}: ${count(turns, 'turn')}, ${count(shifts, 'shift')}, ${count(levers, 'lever')} moved${broke}`;
}
