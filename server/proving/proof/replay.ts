/** Going through the lines of a script once more, to see whether it still does without some of them. */
import { type Fault, has, type Profile } from '../../machine/index.js';
import type { Looked } from '../../sequence/looks.js';
import { Hand, stepsIn } from '../hand.js';
import { type Line, REMARKED } from './rehearsal.js';

/** What the sound machine shows at each look, in the order in which the lines name it. */
export type Shown = readonly (readonly ReturnType<Hand['shows']>[])[];

export interface Replay {
  readonly shown: Shown;
  readonly hand: Hand;
}

const EVENTS: ReadonlySet<Looked> = new Set(['bell', 'overflow', 'overdraw']);

/**
 * The sound machine's run; undefined where a check would remark something beyond what is borne, or something would be
 * expected that does not happen, or happen without being read at once.
 */
export function replaySound(profile: Profile, lines: readonly Line[], borne: number): Replay | undefined {
  const hand = new Hand(profile);
  const shown: ReturnType<Hand['shows']>[][] = [];
  for (const [i, line] of lines.entries()) {
    if ('looks' in line) {
      const seen = line.looks.map((what) => hand.shows(what));
      if (line.looks.some((what, k) => EVENTS.has(what) && seen[k] !== true)) return undefined;
      shown.push(seen);
      continue;
    }
    const end = hand.doLine(line.step);
    if (end === 'unseen' || hand.reported.length > 0 || (hand.noticed & REMARKED & ~borne) !== 0) return undefined;
    if (end === undefined) continue;
    const next = lines[i + 1];
    const isRead = next && 'looks' in next && next.looks.some((what) => EVENTS.has(what));
    if (!isRead) return undefined;
  }
  return { shown, hand };
}

/** Whether a faulty machine shows anything else. */
export function isCaughtBy(profile: Profile, lines: readonly Line[], fault: Fault, shown: Shown): boolean {
  const hand = new Hand(profile, fault);
  let look = 0;
  for (const line of lines) {
    if ('step' in line) for (const step of stepsIn(line.step)) hand.do(step);
    else {
      const seen = shown[look++];
      if (line.looks.some((what, k) => hand.shows(what) !== seen[k])) return true;
    }
  }
  return false;
}

/** Every single reading at which a faulty machine shows something else, as `look item`. */
export function partingReadings(profile: Profile, lines: readonly Line[], fault: Fault, shown: Shown): string[] {
  const hand = new Hand(profile, fault);
  const found: string[] = [];
  let look = 0;
  for (const line of lines) {
    if ('step' in line) {
      for (const step of stepsIn(line.step)) hand.do(step);
      continue;
    }
    for (const [k, what] of line.looks.entries()) if (hand.shows(what) !== shown[look][k]) found.push(`${look} ${k}`);
    look++;
  }
  return found;
}

/** The last step left nothing switched. */
export const isAtRest = ({ hand }: Replay, bits: number): boolean => !has(hand.state, bits);
