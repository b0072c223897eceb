/** All that a sequence lacks to catch what it can: readings, and steps that are carried out one after the other. */
import type { Gradual } from '../../grammar/gradual.js';
import type { Fault } from '../machine/index.js';
import { isLooking, type Moment, seesDifference } from '../sequence/looks.js';
import { type Point, Resumed } from '../sequence/resumed.js';
import type { RunOrder } from '../sequence/run.js';
import { type Addition, hasGoal, oneMoreLook, startsOf } from './additions.js';
import type { Coverage, Trial } from './coverage.js';
import { furtherSteps } from './further-steps.js';
import { stepOf } from './hand.js';

export interface Missing {
  /** Readings where the machines differ and nobody looks. */
  readonly looks: readonly Addition[];
  /** Steps behind the last one, or in a sequence by themselves. */
  readonly steps: readonly string[];
  readonly isApart: boolean;
  /** Faults within reach for which nothing was found. */
  readonly left: number;
}

/** A fault that no reading would show, and where the machine that has it has come to. */
interface Open {
  readonly fault: Fault;
  at: Point;
}

/** What the runs of one sequence lack. Steps that show one fault are tried on all that are still open. */
export function* missingFrom({ judged, trials }: Coverage): Gradual<Missing> {
  const looks = new Map<string, Addition>();
  let open: Open[] = [];
  for (const { fault, caught, isWithinReach } of judged) {
    if (caught || !isWithinReach) continue;
    const { look, end } = yield* lookFor(trials, fault);
    if (look && 'step' in look.place) {
      const { line, syntax } = look.place.step;
      looks.set(`${look.place.is} ${line} ${syntax.from} ${look.lines.join()}`, look);
    } else if (end) open.push({ fault, at: end });
  }
  const { course } = trials[trials.length - 1];
  const { order } = course.run;
  let sound = course.end;
  open = open.map(({ fault, at }) => {
    const [soundAt, faultyAt] = startsOf(course, at);
    sound = soundAt;
    return { fault, at: faultyAt };
  });
  const steps: string[] = [];
  let left = 0;
  for (let next = open.shift(); next; next = open.shift()) {
    const found = yield* furtherSteps(order, next.fault, sound, next.at);
    if (!found) {
      left++;
      continue;
    }
    steps.push(...found);
    const way = new Way(order, sound, found);
    open = open.filter((one) => way.leavesOpen(one));
    sound = way.end;
  }
  return { looks: [...looks.values()], steps, isApart: hasGoal(course), left };
}

function* lookFor(trials: readonly Trial[], fault: Fault): Gradual<{ look?: Addition; end?: Point }> {
  let last: Point | undefined;
  for (const trial of trials) {
    const { found, end } = yield* oneMoreLook(trial, fault);
    if (found) return { look: found };
    last = end;
  }
  return last ? { end: last } : {};
}

/** Steps as the sound machine carries them out, to compare faulty ones with. */
class Way {
  private readonly steps;
  private readonly shown: Moment[] = [];
  readonly end: Point;

  constructor(
    private readonly order: RunOrder,
    from: Point,
    lines: readonly string[],
  ) {
    this.steps = lines.map(stepOf);
    const sound = new Resumed(order);
    sound.take(from);
    for (const step of this.steps) {
      sound.carryOutStep(step);
      this.shown.push(sound.point);
    }
    this.end = sound.point;
  }

  /** Takes a faulty machine along; false if its fault shows on the way. */
  leavesOpen(one: Open): boolean {
    const { order, steps, shown } = this;
    const faulty = new Resumed({ ...order, fault: one.fault });
    faulty.take(one.at);
    for (const [i, step] of steps.entries()) {
      if (!faulty.carryOutStep(step)) return false;
      if (isLooking(step) && seesDifference(step, shown[i], faulty, order.profile)) return false;
    }
    one.at = faulty.point;
    return true;
  }
}
