/**
 * The levers: each at each figure, nine turns in all, for no turn can have a lever at two figures. The carriage goes along
 * through the places of the counter, so that each of them counts once at no more than a shift; a back transfer and the
 * button that clears the levers are tried on the way.
 */
import { Noticed, showsZero } from '../../machine/index.js';
import type { Rehearsal } from './rehearsal.js';

export interface LeverPass {
  /** Positions to come to, 1 … this one. */
  readonly positions: number;
  readonly autoClear: boolean;
  readonly transfer: boolean;
  /** Leave the counter at 1 in the last position alone, for a borrow through all below. */
  readonly leavesOne: boolean;
}

const FIGURES = 9;

/** Turns that the pass needs, and no way of proving levers and counter places does with fewer. */
export function turnsOfPass({ setting, result }: { setting: number; result: number }, positions: number): number {
  const whole = Math.min(positions, result - setting + 1);
  return Math.max(FIGURES, whole) + positions - whole;
}

export function leverPass(at: Rehearsal, { positions, autoClear, transfer, leavesOne }: LeverPass): void {
  const { setting, result } = at.profile;
  /** Positions in which every lever stands over a wheel. */
  const whole = Math.min(positions, result - setting + 1);
  const first = Math.max(FIGURES, whole) - whole;
  const turns = turnsOfPass(at.profile, positions);
  if (autoClear) at.do('auto-clear on');
  for (let i = 0; i < turns; i++) {
    const position = Math.max(1, i - first + 1);
    const levers = Math.min(setting, result - position + 1);
    const figures = Array.from({ length: levers }, (_, lever) => ((i + levers - 1 - lever) % FIGURES) + 1).join('');
    const turn = (to: Rehearsal) => {
      to.moveTo(position);
      to.set(figures);
      to.add();
    };
    if (leavesOne && i === turns - 1 && !showsZero(at.sound.state, 'counter')) {
      at.look('counter');
      at.clear('counter');
    }
    makeRoom(at, turn);
    turn(at);
    if (i > 0) continue;
    if (autoClear) at.look('setting');
    if (transfer) {
      at.clear('setting');
      at.do('transfer result');
      at.look('setting', 'result');
    }
  }
  at.look('result', 'counter');
  if (autoClear) at.do('auto-clear off');
}

/** What stands in the result or the counter is read and cleared where a turn would go past their ends. */
function makeRoom(at: Rehearsal, turn: (to: Rehearsal) => void): void {
  const { wraps, remarked } = at.attempt(turn);
  for (const [register, isFull] of [
    ['result', wraps || (remarked & Noticed.carryShort) !== 0],
    ['counter', (remarked & Noticed.counterOverflow) !== 0],
  ] as const) {
    if (!isFull || showsZero(at.sound.state, register)) continue;
    at.look(register);
    at.clear(register);
  }
}
