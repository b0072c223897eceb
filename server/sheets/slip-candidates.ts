/**
 * Slips that may be made in a row of single steps, the most likely first: each as the steps that are then carried out.
 */
import type { NumberSyntax, Part, Step, StepSyntax } from '../../grammar/tree.js';
import { newState, pointOf, REGISTERS, type Register, type State } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { alignedDigits, wholeOf } from '../sequence/readings.js';
import type { FlatStep, SlipReason } from './slips.js';

export interface Candidate {
  /** Slips alike have the same; 0 is the most likely. */
  readonly rank: number;
  readonly reason: SlipReason;
  /** All steps, with the slip in them. */
  readonly steps: readonly Step[];
}

/** What becomes of one step: others in its place, or none. */
interface Change {
  readonly reason: Bare<SlipReason>;
  readonly instead: readonly StepSyntax[];
}
/** Without the row, which is that of the changed step. */
type Bare<R> = R extends unknown ? Omit<R, 'row'> : never;

/** Looks at the step at `i` and says what may go wrong there. */
type Ways = (work: Work, i: number) => readonly Change[];

export function* candidatesOf(done: CaseRun, flat: readonly FlatStep[]): Generator<Candidate> {
  const work = new Work(done, flat);
  const all = flat.map(({ step }) => step);
  for (const [rank, ways] of WAYS.entries()) {
    for (const way of ways) {
      for (const [i, { row, step }] of flat.entries()) {
        for (const { reason, instead } of way(work, i)) {
          // A step that stays as it is stays the same object: whether it was refused before is known by it.
          const steps = instead.map((syntax) => (syntax === step.syntax ? step : { line: step.line, syntax }));
          yield { rank, reason: { ...reason, row }, steps: [...all.slice(0, i), ...steps, ...all.slice(i + 1)] };
        }
      }
    }
  }
}

class Work {
  private readonly cleared: Record<Register, number> = { setting: 0, counter: 0, result: 0 };

  constructor(
    private readonly done: CaseRun,
    private readonly flat: readonly FlatStep[],
  ) {
    for (const { step } of flat) for (const register of this.clearedBy(step.syntax)) this.cleared[register]++;
  }

  at(i: number): StepSyntax {
    return this.flat[i].step.syntax;
  }

  /** The machine as it stands before the step. */
  before(i: number): State {
    const { row } = this.flat[i];
    return row > 0 ? this.done.tape.stateAt(row - 1) : newState();
  }

  /** Registers that the machine has and a step clears. */
  clearedBy(syntax: StepSyntax): readonly Register[] {
    if (syntax.kind !== 'clear') return [];
    const registers = syntax.all ? REGISTERS : REGISTERS.filter((register) => syntax.registers.includes(register));
    return registers.filter((register) => this.done.order.profile[register] > 0);
  }

  isClearedInSeveralSteps(register: Register): boolean {
    return this.cleared[register] > 1;
  }

  /** The first turn since the carriage was moved, or since the start. */
  isFirstTurnHere(i: number): boolean {
    if (this.at(i).kind !== 'turn') return false;
    for (let j = i - 1; j >= 0; j--) {
      const { kind } = this.at(j);
      if (kind === 'turn') return false;
      if (kind === 'shift') return true;
    }
    return true;
  }
}

const NOWHERE = { from: 0, to: 0 } as const;

const notCleared: Ways = (work, i) => {
  const cleared = work.clearedBy(work.at(i));
  return cleared.map((register): Change => {
    const others = cleared.filter((other) => other !== register);
    const instead: StepSyntax[] =
      others.length > 0 ? [{ kind: 'clear', registers: others, all: false, ...NOWHERE }] : [];
    return { reason: { is: 'not-cleared', register, isOneOfSeveral: work.isClearedInSeveralSteps(register) }, instead };
  });
};

const shiftForgotten: Ways = (work, i) =>
  work.at(i).kind === 'shift' ? [{ reason: { is: 'shift-forgotten' }, instead: [] }] : [];

const carriageOff: Ways = (work, i) => {
  if (!work.isFirstTurnHere(i)) return [];
  // To go back by the one place just gone is to have forgotten that.
  const last = i > 0 ? work.at(i - 1) : undefined;
  const isOnePlace = last?.kind === 'shift' && !last.half && countOf(last.count) === 1;
  const forgotten = isOnePlace
    ? last.way === 'right'
      ? 'left'
      : last.way === 'left'
        ? 'right'
        : undefined
    : undefined;
  const ways = (['right', 'left'] as const).filter((way) => way !== forgotten);
  return ways.map((way): Change => {
    return {
      reason: { is: 'carriage-off', way },
      instead: [{ kind: 'shift', way, half: false, ...NOWHERE }, work.at(i)],
    };
  });
};

const turns: Ways = (work, i) => {
  const step = work.at(i);
  if (step.kind !== 'turn' || step.until === 'stop') return [];
  const more: Change = { reason: { is: 'turns', more: true }, instead: [step, turn(step.back, 1)] };
  if (step.until) return [more];
  const count = countOf(step.count);
  if (count === undefined || count === 0) return [];
  return [more, { reason: { is: 'turns', more: false }, instead: count === 1 ? [] : [turn(step.back, count - 1)] }];
};

const levers: Ways = (work, i) => {
  const step = work.at(i);
  switch (step.kind) {
    case 'mode':
      return [{ reason: { is: 'drive-left', at: step.drive === 'add' ? 'subtract' : 'add' }, instead: [] }];
    case 'count':
      return [{ reason: { is: 'count-left', at: step.sense === 'plus' ? 'minus' : 'plus' }, instead: [] }];
    case 'auto-clear':
    case 'auto-divide':
      return [{ reason: { is: 'switch-left', what: step.kind, on: !step.on }, instead: [] }];
    case 'turn':
      if (!step.back || step.until) return [];
      return [{ reason: { is: 'wrong-way', forwards: true }, instead: [{ ...step, back: false }] }];
    default:
      return [];
  }
};

const placesOff: Ways = (work, i) => {
  const step = work.at(i);
  if (step.kind !== 'set' && step.kind !== 'dial') return [];
  const register = step.kind === 'set' ? 'setting' : 'result';
  const marker = pointOf(work.before(i), register);
  const parts = step.kind === 'set' ? step.parts : [step.part];
  return ([1, -1] as const).flatMap((by): Change[] => {
    const moved: Part[] = [];
    for (const part of parts) {
      const one = movedPart(part, marker, by);
      if (!one) return [];
      moved.push(one);
    }
    const reason = { is: 'places-off', register, way: by > 0 ? 'left' : 'right' } as const;
    return [{ reason, instead: [step.kind === 'set' ? { ...step, parts: moved } : { ...step, part: moved[0] }] }];
  });
};

const markerOff: Ways = (work, i) => {
  const step = work.at(i);
  if (step.kind !== 'points') return [];
  return step.items.flatMap(({ register, decimals }, k) =>
    [1, -1].flatMap((by): Change[] => {
      const count = countOf(decimals);
      if (count === undefined || count + by < 0) return [];
      const items = step.items.map((item, j) => (j === k ? { ...item, decimals: number(String(count + by)) } : item));
      return [{ reason: { is: 'marker-off', register, more: by > 0 }, instead: [{ ...step, items }] }];
    }),
  );
};

/** In the order in which they are likely; what stands together is alike. */
const WAYS: readonly (readonly Ways[])[] = [
  [notCleared],
  [shiftForgotten, carriageOff],
  [turns],
  [levers],
  [placesOff],
  [markerOff],
];

/** The same figures one place further left or right; undefined where they would lose a figure at the right end. */
function movedPart({ figures, at }: Part, marker: number, by: 1 | -1): Part | undefined {
  if (figures.kind === 'name') return undefined;
  const digits = alignedDigits(figures, marker);
  const place = at ? countOf(at) : 1;
  if (digits === undefined || place === undefined || !/[1-9]/.test(digits)) return undefined;
  if (place + by >= 1) return { figures: number(digits), at: number(String(place + by)) };
  return digits.endsWith('0') ? { figures: number(digits.slice(0, -1)), at: number('1') } : undefined;
}

/** How often, where that is a number that can be counted. */
function countOf(argument: Part['figures'] | undefined): number | undefined {
  if (argument === undefined) return 1;
  return argument.kind === 'number' ? wholeOf(argument) : undefined;
}

const turn = (back: boolean, count: number): StepSyntax => ({
  kind: 'turn',
  back,
  count: number(String(count)),
  ...NOWHERE,
});

const number = (figures: string): NumberSyntax => ({
  kind: 'number',
  text: figures,
  figures,
  isValue: false,
  decimals: 0,
  ...NOWHERE,
});
