/** What stands in a proving sequence, and what is said of it, in English. */
import type { MechanismPart } from '../../machine/index.js';
import type { Effort } from '../../sequence/effort.js';

export const proofTitle: string = 'Proves every part that moves';
export const proofTitleOf = (parts: readonly string[]): string => `Proves ${parts.join(', ')}`;

/** What goes before everything else. */
export const proofCautions: readonly string[] = [
  'Never force the crank. If it grows heavy or stops, go no further and look for the cause.',
  'Finish every turn before anything else is moved.',
  'Do not shift the carriage in mid-turn.',
];

/** Over each part of the sequence: what is done, and what has to be seen. */
export const proofNote: Readonly<Record<MechanismPart, string>> = {
  levers: 'Levers. Each stands once at each of its nine figures. What else moves on the way is proved with it.',
  'tens-carry': 'Tens carry of the result. No carry may be missing on its way, and none may come again by itself.',
  counter: 'Counter. Each place takes its count and hands on its carry.',
  clearing: 'Clearing. What is cleared stands at 0 in every place.',
  transfer: 'Back transfer. Each lever takes the figure of its place.',
  bell: 'Bell. It rings when the result goes past its end.',
};

const count = (n: number, thing: string): string => `${n} ${thing}${n === 1 ? '' : 's'}`;

/** How many faults the sequence catches. */
export const caughtText = (caught: number, uncaught: number, beyond: number): string =>
  [
    uncaught === 0
      ? `Catches all ${count(caught, 'fault')} that can act on this machine.`
      : `Catches ${caught} of ${count(caught + uncaught, 'fault')} that can act on this machine; the others would take more than a thousand turns each.`,
    ...(beyond > 0
      ? [`${count(beyond, 'more')} can never act: no sequence reaches the place.`.replace('mores', 'more')]
      : []),
  ].join(' ');

const work = ({ turns, shifts, levers }: Effort): string =>
  [count(turns, 'turn'), count(shifts, 'shift'), levers > 0 ? `${count(levers, 'lever')} moved` : '']
    .filter(Boolean)
    .join(', ');

export const proofEffortText = (effort: Effort, least: Effort, readings: number): string =>
  `Effort ${effort.cost} (${work(effort)}), with ${count(readings, 'reading')} to write down. No sequence does it with less than ${least.cost}.`;

/** Why there is no less than that. */
export const leastText: string =
  'The bound: a lever stands at one figure in a turn, and each place of the counter counts in a turn of its own; the carriage has to come to the furthest place that is proved, and for a tens carry of the counter back, or there are ten turns more; and what is switched has to be switched back.';

/** The machine can't be proved without a remark of check. */
export const remarkedText: string =
  'On this machine some faults show only where check has something to remark, such as a counter that goes below zero.';
