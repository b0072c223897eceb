/**
 * Overflows and overdraws that are still open: whether one is a mistake shows only later.
 *
 * Invariant: every turn step that took the result further from 0 turns ends as exactly one of: expected, restored, or
 * a mistake.
 */
import type { Facts } from './findings.js';

interface Open {
  /** The row of the tape that the step has. */
  readonly row: number;
  /** Wraps before the step. */
  readonly before: number;
  readonly facts: Extract<Facts, { code: 'result-overflow' | 'result-overdraw' }>;
  readonly report: (facts: Facts) => void;
}

export class OpenWraps {
  private open: Open[] = [];

  get any(): boolean {
    return this.open.length > 0;
  }

  /** A turn step took the result further from 0 than `before`. */
  add(open: Open): void {
    this.open.push(open);
  }

  /** A turn step ended with these wraps: what is back where it was, or nearer to 0, is restored. */
  settle(wraps: number): void {
    // Each began further from 0 than those before it, so that the latest are settled first.
    for (let last = this.open.at(-1); last && Math.abs(wraps) <= Math.abs(last.before); last = this.open.at(-1)) {
      const { facts, report } = last;
      report({ ...facts, code: facts.code === 'result-overflow' ? 'overflow-restored' : 'overdraw-restored' });
      this.open.pop();
    }
  }

  /** The step right after the one in this row expects it: then it is no finding. */
  expected(kind: 'overflow' | 'overdraw' | 'bell', row: number): void {
    const last = this.open.at(-1);
    if (last?.row === row && (kind === 'bell' || last.facts.code === `result-${kind}`)) this.open.pop();
  }

  /** The result is read, cleared or transferred, or the sequence ends: what is open now stays wrong. */
  close(): void {
    for (const { facts, report } of this.open) report(facts);
    this.open = [];
  }
}
