/** What hovers say, in English. */
import type { Profile } from '../../machine/index.js';

const count = (n: number, thing: string): string => `${n} ${thing}${n === 1 ? '' : 's'}`;

/** What a run moves; what it leaves alone is not mentioned. */
export const moves = (turns: number, shifts: number, levers = 0): string[] => {
  const of = (n: number, thing: string) => (n > 0 ? [count(n, thing)] : []);
  return [...of(turns, 'turn'), ...of(shifts, 'shift'), ...of(levers, 'lever')];
};

/** The same behind a colon, or nothing. */
export const moved = (turns: number, shifts: number, levers: number): string => {
  const parts = moves(turns, shifts, levers);
  return parts.length > 0 ? `: ${parts.join(', ')}` : '';
};

export const hover = {
  /** A machine's properties, a short sentence each. */
  profile: (p: Profile): string[] => [
    `${count(p.setting, 'setting lever')}, ${p.counter > 0 ? `${count(p.counter, 'place')} in the counter` : 'no counter'}, ${count(p.result, 'place')} in the result, ${count(p.carriage, 'carriage position')}.`,
    ...(p.counter > 0
      ? [
          {
            carry: 'The counter has a tens carry through all its places.',
            plain: 'The counter has no tens carry: each wheel counts by itself.',
            signed: 'The counter has no tens carry; its wheels show −9 to 9, negative figures marked.',
          }[p.counterCarry],
          {
            follow: 'An adding turn counts one up, a subtracting turn one down.',
            lever: 'An adding turn counts one up, a subtracting turn one down; the count lever turns this round.',
            first:
              'The first turn after the counter is cleared counts one up; turns the same way count up, the others down.',
          }[p.count],
        ]
      : []),
    p.reach === undefined
      ? 'The tens carry of the result goes through all its places.'
      : `The tens carry of the result ends ${p.reach} places from where the carriage stands.`,
    {
      reverse: 'The crank turns both ways; turning back subtracts.',
      lever: 'The crank turns one way; a lever puts the drive to subtract.',
      'half-step': 'The crank turns one way; half a place further right the carriage is driven in reverse.',
      lift: 'The crank turns one way; lifting it puts the drive to subtract.',
      none: 'The machine only adds.',
    }[p.subtract],
    ...(p.dials ? ['The result wheels can be set by hand.'] : []),
    ...(p.park ? ['One step left of position 1 the carriage is out of gear.'] : []),
    ...(p.bell ? ['A bell rings when the result runs over or is overdrawn.'] : []),
    ...(p.autoClear ? ['A button returns the levers to zero after every turn.'] : []),
    ...(p.autoDivide ? ['It divides by itself.'] : []),
    ...(p.transferResult === 'anywhere' ? ['The result can be passed back to the levers.'] : []),
    ...(p.transferResult === 'at 1' ? ['In position 1 the result can be passed back to the levers.'] : []),
    ...(p.transferCounter ? ['The counter can be passed back to the levers.'] : []),
    `Effort: ${p.effort.turn} a turn, ${p.effort.shift} a position shifted, ${p.effort.lever} a lever moved.`,
  ],
  cannotBeBuilt: 'The lines of this machine contradict one another: nothing is cranked on it.',
  /** The lines that another machine has been given by `like`. */
  like: (name: string) => `Like ${name}, but for the lines written here.`,
  onMachine: (name: string) => `On ${name}.`,
  notRun: 'It is not run: there is no machine for it.',
  effort: (cost: number, turns: number, shifts: number, levers: number) =>
    `Effort ${cost}${moved(turns, shifts, levers)}${levers > 0 ? ' moved' : ''}.`,
  brokeOff: 'The run breaks off.',
  cases: (n: number) => (n === 0 ? 'No cases beside the defaults.' : `${count(n, 'case')} beside the defaults.`),
  parameterOf: (name: string, sequence: string) => `${name} is a parameter of ${sequence}.`,
  /** A number in the run with the defaults, or in a case. */
  inDefaults: (value: string) => `By default ${value}`,
  inCase: (n: number, value: string) => `Case ${n}: ${value}`,
  shownCase: (n: number, values: string) => `Case ${n}: ${values}.`,
  more: (n: number) => `and ${n} more`,
  machines: (list: string) => `Machines: ${list}`,
  sequences: (list: string) => `Sequences: ${list}`,
  declaresNothing: 'It declares nothing.',
  unknown: (name: string) => `Nothing called ${name} is known here.`,
  /** A reading by its name. */
  label: (name: string, sequence: string) => `${name} is a reading of ${sequence}.`,
  expected: (what: string, expected: string, found: string) => `${what}: expected ${expected}, reads ${found}`,
  happens: (what: string) => `${what}: expected, and so it is`,
  happensNot: (what: string, found: string) => `${what}: expected, but: ${found}`,
  events: { bell: 'bell', overflow: 'overflow', overdraw: 'overdraw', parked: 'out of gear' },
  carriage: 'carriage',
  asCarriedOut: (step: string) => `Carried out as ${step}.`,
  standsFor: (steps: string) => `Stands for ${steps}`,
  turns: (turns: number) => (turns === 1 ? '1 turn in all.' : `${turns} turns in all.`),
  times: (times: number) => `Carried out ${times} times; this is the last.`,
  notReached: 'The run does not come to this step.',
  goal: (wanted: string, reading: string) => `Goal ${wanted}, reads ${reading}`,
  met: { exact: 'met exactly', 'cut off': 'met, cut off', rounded: 'met, rounded' },
  missed: 'missed',
  caution: 'Caution',
  form: 'Written',
  /** What a figure counts for, by the power of ten. */
  placeName: (exponent: number, figure: number): string => {
    const names = ['unit', 'ten', 'hundred', 'thousand', 'ten thousand', 'hundred thousand', 'million'];
    const parts = ['', 'tenth', 'hundredth', 'thousandth', 'ten-thousandth', 'hundred-thousandth', 'millionth'];
    const name = exponent < 0 ? parts[-exponent] : names[exponent];
    if (name === undefined) return `${figure} · 10^${exponent}`;
    return `${figure} ${name}${figure === 1 ? '' : 's'}`;
  },
  lever: (what: string, lever: number) => `${what}: lever ${lever}.`,
  drives: (position: number, place: number) => `In position ${position} it drives place ${place} of the result.`,
  drivesNone: (position: number) => `In position ${position} it stands over no wheel of the result.`,
  drivesNothing: 'The carriage is out of gear: it drives nothing.',
  placeOf: (what: string, place: number, register: 'setting' | 'counter' | 'result') =>
    `${what}: place ${place} of the ${register}.`,
  turnsIn: (what: string, turns: number, position: number) =>
    `${what}: ${turns === 0 ? 'no turn' : count(turns, 'turn')} in position ${position}.`,
  separator: ', ',
};
