/** The fewest further steps in which a fault shows, found by leaving out of a recipe whatever is not needed. */
import type { Gradual } from '../../grammar/gradual.js';
import type { Step } from '../../grammar/tree.js';
import { type Fault, has, type Profile, REFUSED, type State, TURNS } from '../machine/index.js';
import { rankOf } from '../sequence/findings.js';
import { type Point, Resumed } from '../sequence/resumed.js';
import type { RunOrder } from '../sequence/run.js';
import { stepOf } from './hand.js';
import { meantReading, whatDiffers } from './reading-steps.js';
import { type Recipe, recipesFor } from './recipes.js';

/** Of more steps than this nothing is left out. */
const MOST_STEPS = 12;

/**
 * Steps and what reads them, to be carried out where the sound machine and the faulty one stand as told. On the sound one
 * nothing is then found that would have to be mended; a warning is taken where there is no other way.
 */
export function* furtherSteps(
  order: RunOrder,
  fault: Fault,
  soundAt: Point,
  faultyAt: Point,
): Gradual<string[] | undefined> {
  const pair = new TwoMachines(order, fault, soundAt, faultyAt);
  for (const worst of ['information', 'warning'] as const) {
    let best: string[] | undefined;
    for (const recipe of recipesFor(fault, order.profile)) {
      const found = pair.fewest(recipe, best?.length ?? Number.POSITIVE_INFINITY, rankOf(worst));
      best = found ?? best;
      yield;
    }
    if (best) return best;
  }
  return undefined;
}

/** The sound machine and the faulty one, both from the same steps on. */
class TwoMachines {
  private readonly sound: Resumed;
  private readonly faulty: Resumed;
  private readonly profile: Profile;
  private readonly isFixed: boolean;

  constructor(
    order: RunOrder,
    fault: Fault,
    private readonly soundStart: Point,
    private readonly faultyStart: Point,
  ) {
    this.profile = order.profile;
    this.sound = new Resumed(order);
    this.faulty = new Resumed({ ...order, fault });
    this.isFixed = order.section.cases.length === 0;
  }

  /** The fewest lines of a recipe, with their reading, if they are fewer than so many. */
  fewest(recipe: Recipe, most: number, worst: number): string[] | undefined {
    const lines = this.needed(recipe);
    const steps = lines.map(stepOf);
    const whole = (1 << steps.length) - 1;
    const tried = (kept: number) => this.tried(lines, steps, kept, worst);
    const best = tried(whole);
    if (!best || steps.length > MOST_STEPS) return best && best.length < most ? best : undefined;
    for (let size = 1; size < steps.length && size + 1 < Math.min(most, best.length); size++) {
      for (let kept = 1; kept < whole; kept++) {
        if (bitsIn(kept) !== size) continue;
        const found = tried(kept);
        if (found) return found;
      }
    }
    return best.length < most ? best : undefined;
  }

  /** Without steps that put things where they stand. */
  private needed(recipe: Recipe): string[] {
    this.sound.take(this.soundStart);
    this.faulty.take(this.faultyStart);
    return recipe.filter((line) => {
      const before = [this.sound.state.slice(), this.faulty.state.slice()];
      const step = stepOf(line);
      this.sound.carryOutStep(step);
      this.faulty.carryOutStep(step);
      return line.startsWith('turn') || !(isSame(before[0], this.sound.state) && isSame(before[1], this.faulty.state));
    });
  }

  /** The lines of a recipe that are kept, with a reading that differs; nothing where there is none. */
  private tried(lines: readonly string[], steps: readonly Step[], kept: number, worst: number): string[] | undefined {
    const { sound, faulty } = this;
    sound.take(this.soundStart);
    faulty.take(this.faultyStart);
    for (const [i, step] of steps.entries()) {
      if ((kept & (1 << i)) === 0) continue;
      sound.carryOutStep(step);
      if (has(sound.state, REFUSED) || sound.worst < worst) return undefined;
      faulty.carryOutStep(step);
    }
    const what = whatDiffers(sound, faulty, this.profile, this.isFixed);
    if (!what) return undefined;
    const reading = meantReading(what, sound, this.profile, this.isFixed);
    sound.carryOutStep(stepOf(reading));
    sound.wraps.close();
    return sound.worst < worst ? undefined : [...lines.filter((_, i) => (kept & (1 << i)) !== 0), reading];
  }
}

function bitsIn(bits: number): number {
  let count = 0;
  for (let left = bits; left !== 0; left &= left - 1) count++;
  return count;
}

const isSame = (one: State, other: State): boolean => one.every((number, i) => i >= TURNS || number === other[i]);
