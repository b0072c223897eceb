/** What stands on and beside the register figure, in English. */
import type { Register } from '../../machine/index.js';

const places = (list: readonly number[]): string => (list.length === 1 ? `place ${list[0]}` : `places ${joined(list)}`);

/** `1`, `1 and 2`, `1, 2 and 5 to 9`: three or more in a row are a range. */
function joined(list: readonly number[]): string {
  const parts = rangesOf(list).flatMap(([from, to]) =>
    to - from > 1 ? [`${from} to ${to}`] : from === to ? [`${from}`] : [`${from}`, `${to}`],
  );
  return parts.length > 1 ? `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}` : (parts[0] ?? '');
}

/** Rising whole numbers as ranges, both ends included. */
export function rangesOf(list: readonly number[]): [number, number][] {
  const ranges: [number, number][] = [];
  for (const number of list) {
    const last = ranges.at(-1);
    if (last && number === last[1] + 1) last[1] = number;
    else ranges.push([number, number]);
  }
  return ranges;
}

const NAMES = { setting: 'Setting', counter: 'Counter', result: 'Result' } as const;

export const figure = {
  /** Beside the wheels; a long name is broken into lines. */
  registers: { setting: ['setting'], counter: ['counter'], result: ['result'] } as Readonly<
    Record<Register, readonly string[]>
  >,
  outOfGear: 'out of gear',
  position: (position: number): string => (position === 0 ? 'out of gear' : `position ${position}`),
  moved: (from: number, to: number): string =>
    from === 0 ? `out of gear → position ${to}` : `position ${from} → ${to === 0 ? 'out of gear' : to}`,

  /** What the machine has besides, where it stands when off and when on, and how a move is written. */
  devices: {
    drive: { name: 'drive', off: 'add', on: 'subtract' },
    crank: { name: 'crank', off: 'lowered (adds)', on: 'lifted (subtracts)' },
    count: { name: 'count lever', off: 'plus', on: 'minus' },
    autoClear: { name: 'clearing of levers', off: 'off', on: 'on' },
    autoDivide: { name: 'automatic division', off: 'off', on: 'on' },
  },
  /** The line above the wheels that the tens carry comes to. */
  carry: 'tens carry',
  carryTo: (from: number, to: number): string => (from === to ? `place ${to}` : `places ${from} to ${to}`),
  carryNowhere: 'none',
  bell: 'the bell rang',
  /** Below the first drawing of a sheet that shows a change. */
  legend: 'Heavy and with a bar below it: what has changed.',

  /** For a screen reader, which sees none of it: sentences. */
  spoken: {
    title: (machine: string): string => `Register figure of the machine ${machine}`,
    carriage: (position: number): string =>
      position === 0
        ? 'The carriage stands out of gear: no lever drives a wheel.'
        : `The carriage stands in position ${position}.`,
    carriageBefore: (position: number): string =>
      position === 0 ? 'Before, it stood out of gear.' : `Before, it stood in position ${position}.`,
    /** Levers that have a wheel, and the places of the result that they drive. */
    levers: (last: number, from: number, to: number): string =>
      last === 1
        ? `Lever 1 drives place ${from} of the result.`
        : `Levers 1 to ${last} drive places ${from} to ${to} of the result.`,
    leversBeyond: (from: number, to: number): string =>
      from === to ? `Lever ${from} has no wheel below it.` : `Levers ${from} to ${to} have no wheels below them.`,
    halfRight: 'The carriage stands half a place further right: its wheels are driven in reverse.',
    reading: (register: Register, reading: string): string => `${NAMES[register]} ${reading}`,
    standsFor: (reading: string): string => `complement of ${reading}`,
    wheels: (figures: string): string => `wheels ${figures}`,
    before: (reading: string): string => `before ${reading}`,
    markerMoved: (decimals: number): string =>
      `decimal marker moved, now ${decimals === 1 ? '1 decimal' : `${decimals} decimals`}`,
    changed: (list: readonly number[]): string => `changed in ${places(list)}`,
    device: (name: string, now: string, before: string | undefined): string =>
      `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${now}${before === undefined ? '' : `, before ${before}`}.`,
    carry: (to: number | undefined): string =>
      to === undefined ? 'The tens carry comes to no further wheel.' : `The tens carry ends at place ${to}.`,
    bell: 'The bell rang.',
  },
};
