/** What is asked of an adaptation, and what is told of it: facts, which wording/ puts into sentences. */
import type { SequenceSection } from '../../../grammar/tree.js';
import type { Profile, Register } from '../../machine/index.js';
import type { SequenceReport } from '../../sequence/check.js';
import type { Effort } from '../../sequence/effort.js';
import type { Code, Device } from '../../sequence/findings.js';
import type { RunOrder } from '../../sequence/run.js';

/** A sequence, the machine that it is written for, and the one that it is to be carried over to. */
export interface AdaptOrder {
  readonly section: SequenceSection;
  readonly from: Profile;
  readonly to: Profile;
  /** Finds a sequence as seen from the section that runs it; the same for both machines. */
  readonly resolve: RunOrder['resolve'];
  /** What is known of the sequence on its machine, with the runs of all its cases; it is run afresh if left out. */
  readonly report?: SequenceReport;
  /** The language of notes that are written into the sequence: a tag such as `de-AT`; English if left out. */
  readonly language?: string;
}

/** What an `expect` step reads. */
export type Reading = Register | 'bell' | 'overflow' | 'overdraw' | 'parked' | 'carriage';

/** Why a reading is another one on the new machine. */
export type Reason =
  /** A complement has as many nines as the register has places. */
  | 'complement'
  /** Digit strings are shorter: all markers stand further right. */
  | 'fewer-places'
  /** The counter counts these turns the other way, or without a tens carry. */
  | 'counts-otherwise'
  /** The machine has no such thing: the reading is left out, or another one stands for it. */
  | 'no-bell'
  | 'no-counter'
  | 'no-park'
  /** What was done by adding a complement is subtracted, or the other way round: the register does not pass zero. */
  | 'no-complement'
  | 'by-complement'
  /** What was taken off is built up from zero instead. */
  | 'built-up'
  /** The carriage stands elsewhere, with the same effect. */
  | 'positions';

/** A reading at an `expect` step that had to change. */
export interface Difference {
  /** The line of the old section, from 0 (its header). */
  readonly line: number;
  readonly register: Reading;
  /** As it was written; for what is no register, its word. */
  readonly before: string;
  /** As it is written now; missing where the reading is left out. */
  readonly after?: string;
  readonly reason: Reason;
}

/** Of what the machine has too little. `reach` is the tens carry's. */
export type Limit = 'setting' | 'counter' | 'result' | 'carriage' | 'reach';

/** Something that can't be carried over; `line` counts the old section's lines from 0. */
export type Obstacle =
  /** `needs` is what the sequence needs, `has` what the new machine has. */
  | {
      readonly kind: 'limit';
      readonly line: number;
      readonly limit: Limit;
      readonly has: number;
      readonly needs: number;
    }
  /** To subtract by the complement, levers must reach from the carriage's position to the top of the result. */
  | { readonly kind: 'complement-levers'; readonly line: number; readonly has: number; readonly needs: number }
  /** The machine has no such thing, and nothing that would do instead. */
  | { readonly kind: 'device'; readonly line: number; readonly device: Device }
  /** A counter that counts these turns the other way, and the reading is wanted. */
  | { readonly kind: 'counting'; readonly line: number }
  /** The counter's wheels would have to carry into one another. */
  | { readonly kind: 'no-carry'; readonly line: number }
  /** The counter would go below zero, and does not show that as the old one did. */
  | { readonly kind: 'counter-below-zero'; readonly line: number }
  /** Something would have to be written out that is not the same in every case or round. */
  | { readonly kind: 'varies'; readonly line: number; readonly what: Varying }
  /** A sequence that is run here would itself have to be changed. */
  | { readonly kind: 'run'; readonly line: number; readonly name: string }
  /** The sequence has an error as it stands. */
  | { readonly kind: 'source'; readonly line: number; readonly code: Code }
  /** The sequence takes more steps and turns than are tried out. */
  | { readonly kind: 'too-long'; readonly line: number; readonly limit: number }
  /** The new machine contradicts itself. */
  | { readonly kind: 'bad-machine'; readonly line: number }
  /** What is looked for does not come about: on this result, with so many places in place of `was`, or at all. */
  | {
      readonly kind: 'no-event';
      readonly line: number;
      readonly event: 'bell' | 'overflow' | 'overdraw';
      readonly has: number;
      readonly was: number;
    }
  /** All steps can be made, but something comes out otherwise: a finding that was not there before, or a register. */
  | { readonly kind: 'not-equal'; readonly line: number; readonly code?: Code; readonly register?: Register };

/** Figures that a step would have to be written with. */
export type Varying = 'transfer' | 'dial' | 'complement' | 'quotient' | 'marker' | 'reading' | 'turns';

export type Adaptation =
  | {
      /** The whole section as text, as the formatter writes it. */
      readonly lines: readonly string[];
      readonly differences: readonly Difference[];
      /**
       * Lines of the old section whose words may not hold any more: notes, cautions and comments stay as they were
       * written, and steps beside them have changed. 0 is the header: its title, and comments above it.
       */
      readonly reread: readonly number[];
      /** Of the run with the defaults. */
      readonly effort: { readonly before: Effort; readonly after: Effort };
    }
  | { readonly refused: readonly Obstacle[] };

/** Thrown where a step can't be carried over, and caught where the steps are gone through. */
export class Refusal extends Error {
  constructor(readonly obstacle: Obstacle) {
    super(obstacle.kind);
  }
}

/** Sentences that are written into a sequence. */
export interface Notes {
  readReading(register: 'result' | 'counter'): string;
  buildUp(dividend: string): string;
  rest(rest: string): string;
  sense: string;
}

/** Everything that is said of an adaptation, in one language. */
export interface AdaptWording {
  /** One or two sentences for a reading that had to change. */
  differenceText(difference: Difference): string;
  /** What is to be done about words that stand beside changed steps. */
  readonly reread: string;
  /** One or two sentences for what can't be carried over. */
  obstacleText(obstacle: Obstacle): string;
  /** Notes that are written into the new sequence. */
  readonly notes: Notes;
}
