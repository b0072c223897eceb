/** Machines and texts for the tests of sequences. */

const MACHINES = {
  /** The crank turns both ways. */
  reverse: ['setting 4', 'counter 4', 'result 8'],
  /** Everything that a machine can have beside a crank that turns both ways. */
  full: [
    'setting 4',
    'counter 4',
    'result 8 dials',
    'subtract lever',
    'count lever',
    'park left',
    'bell',
    'auto-clear',
    'auto-divide',
    'transfer result',
    'transfer counter',
  ],
  halfStep: ['setting 4', 'counter 4', 'result 8', 'subtract half-step', 'auto-divide'],
  /** It only adds, and counts nothing. */
  adder: ['setting 4', 'result 8'],
  plain: ['setting 4', 'counter 4 plain', 'result 8'],
  signed: ['setting 4', 'counter 4 signed', 'result 8'],
  /** The tens carry ends three places from the carriage's position. */
  shortReach: ['setting 2', 'counter 4', 'result 8 reach 3'],
} as const satisfies Record<string, readonly string[]>;

export type MachineName = keyof typeof MACHINES;

/** The text of a machine called `stores`, with further lines. */
export const machine = (name: MachineName, ...more: string[]): string =>
  ['machine stores', ...[...MACHINES[name], ...more].map((line) => `  ${line}`), ''].join('\n');

/** A machine and the sequence `trial` on it that begins cleared. The steps keep their marks. */
export const cranked = (name: MachineName, steps: string): string => raw(name, `  clear all\n${steps}`);

/** The same without clearing first. */
export const raw = (name: MachineName, steps: string): string => `${machine(name)}sequence trial on stores\n${steps}\n`;

/** The sequence `trial` on a machine written out by `machine`, cleared first. */
export const onMachine = (machineText: string, steps: string): string =>
  `${machineText}sequence trial on stores\n  clear all\n${steps}\n`;

/** Two texts with marks: one that has the finding and one, as near to it as may be, that has not. */
export interface Pair {
  readonly found: string;
  readonly not: string;
  /** Other files that both use. */
  readonly others?: Readonly<Record<string, string>>;
  /** They are Markdown pages. */
  readonly isPage?: boolean;
}
