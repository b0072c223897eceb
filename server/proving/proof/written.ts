/** Lines of a script as they are written, each look with what the sound machine shows. */
import type { Looked } from '../../sequence/looks.js';
import type { Line } from './rehearsal.js';
import type { Shown } from './replay.js';

export function writtenLines(lines: readonly Line[], shown: Shown): string[] {
  let look = 0;
  return lines.map((line) => ('step' in line ? line.step : expectText(line.looks, shown[look++])));
}

/** An `expect`; the label stands behind its first item. */
export function expectText(looks: readonly Looked[], shown: Shown[number], label?: string): string {
  const items = looks.map((what, i) => (shown[i] === true ? what : `${what} ${String(shown[i])}`));
  const [first, ...others] = items;
  return ['expect', first, ...(label === undefined ? [] : ['as', label]), ...others].join(' ');
}
