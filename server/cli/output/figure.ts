/** The trace for a person at a terminal: the registers step by step, in aligned columns. */
import { print } from '../../../grammar/printer.js';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  has,
  type Profile,
  RANG,
  type State,
  SUBTRACTING,
} from '../../machine/index.js';
import { provingWording } from '../../proving/wording/index.js';
import type { CaseRun } from '../../sequence/check.js';
import { type BesideWords, type TraceStyle, tableBeside, traceTable } from '../../sequence/columns.js';
import type { Library } from '../../sequence/library.js';
import { lookingsIn, looksAt, partingOf } from '../../sequence/looks.js';
import { writtenAt } from '../../sequence/trace.js';
import { shortNumber } from '../../sequence/wording/en.js';
import { describeFault, type Faulty } from '../fault.js';
import { harmless, type Terminal, widthOf } from '../terminal.js';

const wording = provingWording('en');

/** The trace of one run, ready to print; beside it that of the same run with a fault, or that the machine can't have it. */
export function figureText(
  library: Library,
  file: string,
  run: CaseRun,
  terminal: Pick<Terminal, 'colors'>,
  faulty?: Faulty | 'none',
): string {
  const { colors } = terminal;
  const { section, profile, case: runCase } = run.order;
  const header = section.header;
  const title = header?.title ? `  ${colors.dim(harmless(header.title.value))}` : '';
  const inCase = runCase > 0 ? `, case ${runCase}` : '';
  const values = [...run.order.values].map(([name, { text }]) => `${name} = ${text}`).join(', ');
  const lines = [
    `${colors.bold(`${header?.name.name ?? ''}${inCase}`)}${values && ` (${values})`} on ${profile.name}${title}`,
    ...(faulty === undefined || faulty === 'none'
      ? traceTable(library, file, run, styleOf(terminal))
      : [
          `  with ${describeFault(faulty.fault)}`,
          ...tableBeside(library, file, run, faulty.run, BESIDE, styleOf(terminal)),
        ]),
    ...goalLines(run, terminal),
    effortLine(run),
    ...(faulty === undefined ? [] : [noticedLine(library, file, run, faulty)]),
  ];
  return `${lines.join('\n')}\n`;
}

const BESIDE: BesideWords = {
  instead: 'with the fault',
  notCarriedOut: 'not carried out',
  onlyThere: 'carried out with the fault only',
};

/** Whether anybody would notice, and where. */
function noticedLine(library: Library, file: string, run: CaseRun, faulty: Faulty | 'none'): string {
  if (faulty === 'none') return `  ${run.order.profile.name} can't have the fault`;
  const at = partingOf(run, faulty.run);
  if (at === undefined) return '  uncaught: no expect and no ask reads anything else';
  const last = faulty.run.tape.length - 1;
  const found = lookingsIn(faulty.run)[at];
  if (!found) {
    const where = last < 0 ? '' : ` in line ${writtenAt(library, file, faulty.run, last).line}`;
    return `  caught: the machine with the fault never ends the step${where}`;
  }
  const looking = lookingsIn(run)[at];
  const { line, step } = writtenAt(library, file, run, looking.row);
  const { profile } = run.order;
  const sound = looksAt(looking.step, looking, profile);
  const reads = looksAt(found.step, found, profile).filter(({ shown }, i) => shown !== sound[i].shown);
  return `  caught in line ${line}, ${harmless(step)}: it reads ${reads.map(wording.lookText).join(', ')}`;
}

const styleOf = ({ colors }: Pick<Terminal, 'colors'>): TraceStyle => ({
  words: {
    line: 'line',
    step: 'step',
    carriage: 'carriage',
    registers: { setting: 'setting', counter: 'counter', result: 'result' },
    out: 'out',
  },
  levers: leversText,
  strong: colors.bold,
  faint: colors.dim,
  safe: harmless,
  widthOf,
});

/** Levers and buttons that are not where they stand at the start. */
const leversText = (state: State, profile: Profile): string[] => [
  ...(has(state, SUBTRACTING) ? [profile.subtract === 'lift' ? 'lifted' : 'subtract'] : []),
  ...(has(state, COUNT_MINUS) ? ['minus'] : []),
  ...(has(state, AUTO_CLEAR) ? ['auto-clear'] : []),
  ...(has(state, AUTO_DIVIDE) ? ['auto-divide'] : []),
  ...(has(state, RANG) ? ['bell'] : []),
];

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
