/** Acts for single levers: for what the pass over all of them leaves, on a machine on which it can't be done. */
import type { Profile } from '../../../machine/index.js';
import type { Act } from '../rehearsal.js';
import { upTo } from './shared.js';

const leverAt =
  (position: number, figure: number, lever: number): Act =>
  (at) => {
    at.clear('result');
    at.moveTo(position);
    at.set(String(figure), lever);
    at.add();
    at.look('result');
  };

export function* leverActs(profile: Profile): Generator<Act> {
  for (const lever of upTo(profile.setting)) {
    for (const figure of upTo(9)) yield leverAt(1, figure, lever);
  }
}
