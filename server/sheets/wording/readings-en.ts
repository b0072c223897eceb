/** A run as a table of readings, in English. */
export const readings = {
  /** Over the table: what is worked out, on which machine, and with which numbers. */
  caption: (title: string, machine: string, numbers: string): string =>
    `${title}, on ${machine}${numbers === '' ? '' : ` (${numbers})`}`,
  step: 'Step',
  registers: { setting: 'Setting', counter: 'Counter', result: 'Result' },
  position: 'Position',
  outOfGear: 'out of gear',
  /** Levers and buttons that were moved, the bell, turns. */
  besides: 'Besides',
  turns: (n: number): string => (n === 1 ? '1 turn' : `${n} turns`),
  leftOut: (n: number): string => `… ${n === 1 ? 'one step is' : `${n} steps are`} left out here …`,
  brokeOff: (n: number): string =>
    `The run breaks off here: ${n === 1 ? 'one step is' : `${n} steps are`} not carried out.`,
};
