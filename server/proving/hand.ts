/**
 * A machine cranked step by step, without a run: for trying out many short rows of steps on many faulty machines.
 *
 * Invariant: each step does what the run does, by the same hands on the same crank. What stands for other steps
 * (`multiply`, `divide`, `run`) and turns without a fixed number are not for this.
 */
import { parse } from '../../grammar/sections.js';
import type { SequenceSection, Step } from '../../grammar/tree.js';
import {
  beginStep,
  type Crank,
  crankWith,
  type Fault,
  LEVERS,
  Noticed,
  newState,
  type Profile,
} from '../machine/index.js';
import type { Facts } from '../sequence/findings.js';
import * as hands from '../sequence/hands.js';
import { type Look, type Looked, shownOf } from '../sequence/looks.js';
import { wholeOf } from '../sequence/readings.js';

export class Hand implements hands.Workplace {
  readonly crank: Crank;
  state = newState();
  shifts = 0;
  leversMoved = 0;
  turns = 0;
  /** What was noticed in turns, as bits of `Noticed`, and what was reported, since these were last set to nothing. */
  noticed = 0;
  reported: Facts[] = [];
  /** What happened in the last step, as bits of the levers. */
  happened = 0;

  constructor(
    readonly profile: Profile,
    readonly fault?: Fault,
  ) {
    this.crank = crankWith(profile, fault);
  }

  report(facts: Facts): void {
    this.reported.push(facts);
  }

  do({ syntax, body }: Step): void {
    const { state } = this;
    if (syntax.kind === 'repeat') {
      const rounds = hands.countOf(this, syntax.count, 1, 999) ?? 0;
      for (let round = 0; round < rounds; round++) for (const step of body ?? []) this.do(step);
      return;
    }
    beginStep(state);
    switch (syntax.kind) {
      case 'turn': {
        const times = syntax.count?.kind === 'number' ? (wholeOf(syntax.count) ?? 0) : 1;
        for (let i = 0; i < times; i++) this.noticed |= this.crank.turn(state, syntax.back);
        this.turns += times;
        break;
      }
      case 'set':
        hands.set(this, syntax.parts);
        break;
      case 'shift':
        hands.shift(this, syntax);
        break;
      case 'clear':
        hands.clear(this, syntax);
        break;
      case 'transfer':
        hands.transfer(this, syntax);
        break;
      case 'dial':
        hands.dial(this, syntax);
        break;
      case 'mode':
        hands.mode(this, syntax.drive === 'subtract');
        break;
      case 'count':
        hands.countLever(this, syntax.sense === 'minus');
        break;
      case 'auto-clear':
      case 'auto-divide':
        hands.button(this, syntax);
    }
    this.happened = state[LEVERS];
  }

  /**
   * A line of steps, and whether the result went past its ends in it: in its last turn, where somebody can read that, or
   * in a turn before others, where nobody can.
   */
  doLine(line: string): 'seen' | 'unseen' | undefined {
    const before = this.noticed;
    this.noticed = 0;
    for (const step of stepsIn(line)) this.do(step);
    const wraps = this.noticed & (Noticed.overflow | Noticed.overdraw);
    this.noticed |= before;
    if (wraps === 0) return undefined;
    return makesManyTurns(line) ? 'unseen' : 'seen';
  }

  shows(what: Looked): Look['shown'] {
    return shownOf(what, this, this.profile);
  }

  /** Another as it stands now. */
  mark(): Mark {
    const { shifts, leversMoved, turns, noticed, happened } = this;
    return { state: this.state.slice(), shifts, leversMoved, turns, noticed, happened, reported: this.reported.length };
  }

  back(mark: Mark): void {
    this.state.set(mark.state);
    this.shifts = mark.shifts;
    this.leversMoved = mark.leversMoved;
    this.turns = mark.turns;
    this.noticed = mark.noticed;
    this.happened = mark.happened;
    this.reported.length = mark.reported;
  }
}

/** What happens in the earlier turns of such a step can't be read. */
const makesManyTurns = (step: string): boolean => /^repeat|^turn(?: back)? \d/.test(step);

/** How a machine stood, to come back to. */
export interface Mark {
  readonly state: Int32Array;
  readonly shifts: number;
  readonly leversMoved: number;
  readonly turns: number;
  readonly noticed: number;
  readonly happened: number;
  readonly reported: number;
}

const known = new Map<string, readonly Step[]>();
/** Rows of steps that are remembered; there are few different ones on any machine. */
const MOST_KNOWN = 10_000;

/** Steps as they are written, on one line. Throws where they can't be read: the program itself writes them. */
export function stepsIn(text: string): readonly Step[] {
  const before = known.get(text);
  if (before) return before;
  const { steps } = stepsSection([text]);
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(text, steps);
  return steps;
}

/** A single one of them. */
export const stepOf = (text: string): Step => stepsIn(text)[0];

/** Lines of steps as a sequence by itself. Throws where they can't be read: the program itself writes them. */
export function stepsSection(lines: readonly string[]): SequenceSection {
  const text = ['sequence tried on machine-at-hand', ...lines].join('\n');
  const section = parse(text).sections.find(({ section: one }) => one.kind === 'sequence')?.section;
  if (section?.kind !== 'sequence' || section.errors.length > 0) throw new Error(`“${lines.join('; ')}” are no steps`);
  return section;
}
