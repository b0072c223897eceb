/** Runs long work in slices, so that messages come in between and what nobody wants any more is dropped. */
import type { Gradual } from '../../grammar/gradual.js';

/** What the surroundings can do that a language service can't do by itself. */
export interface Clock {
  /** Milliseconds since some moment. */
  now(): number;
  /** Lets in what is waiting. */
  pause(): Promise<void>;
}

/** Milliseconds of work between two pauses: cancelling takes hardly longer than that. */
const SLICE = 5;

/** The outcome of some work, or nothing if it was dropped on the way. */
export async function patiently<T>(work: Gradual<T>, clock: Clock, isDropped: () => boolean): Promise<T | undefined> {
  let until = clock.now() + SLICE;
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
    if (clock.now() < until) continue;
    await clock.pause();
    if (isDropped()) return undefined;
    until = clock.now() + SLICE;
  }
}

/** Somebody who may lose interest, as the protocol's cancellation token has it. */
export interface Interest {
  readonly isCancellationRequested: boolean;
  onCancellationRequested(listener: () => void): { dispose(): void };
}

/** Whoever asked does not want to know any more. */
export class Cancelled extends Error {}

/**
 * Work that several may wait for. It goes on as long as one of them wants it and the world has not changed; the outcome
 * is undefined where it has.
 */
export class SharedWork<T> {
  private waiting = 0;
  private readonly outcome: Promise<T | undefined>;

  constructor(work: Gradual<T>, clock: Clock, isStale: () => boolean) {
    this.outcome = patiently(work, clock, () => isStale() || this.waiting === 0);
  }

  /** Throws `Cancelled` as soon as this one's interest is lost. */
  async wait(interest: Interest): Promise<T | undefined> {
    if (interest.isCancellationRequested) throw new Cancelled();
    this.waiting++;
    let watch: { dispose(): void } | undefined;
    try {
      const lost = new Promise<never>((_, reject) => {
        watch = interest.onCancellationRequested(() => reject(new Cancelled()));
      });
      return await Promise.race([this.outcome, lost]);
    } finally {
      watch?.dispose();
      this.waiting--;
    }
  }
}
