/** How long a plan takes: random expressions of up to six operations, some with many roots, on twenty places. */
import { isRefused, plan } from '../../server/planning/index.js';
import { expressionOf, profileOf } from '../planning/planned.js';
import { numbers } from './texts.js';

const MACHINE = `machine wide
  setting 12
  counter 10
  result 20 dials
  subtract lever
  count lever
  transfer result
  transfer counter
`;
const EXPRESSIONS = 300;
const MOST_OPERATIONS = 6;

/** A number of up to five figures, with up to three decimals. */
function numberText(next: (below: number) => number): string {
  const figures = String(1 + next(10 ** (1 + next(5))));
  const decimals = next(4);
  if (decimals === 0) return figures;
  const padded = figures.padStart(decimals + 1, '0');
  return `${padded.slice(0, -decimals)}.${padded.slice(-decimals)}`;
}

/** Of ten operations so many are roots. */
function expressionText(next: (below: number) => number, operations: number, roots: number): string {
  if (operations === 0) return numberText(next);
  const kind = next(10);
  if (kind < roots) return `sqrt(${expressionText(next, operations - 1, roots)})`;
  if (kind === roots) return `(${expressionText(next, operations - 1, roots)}) ^ 2`;
  const left = next(operations);
  const sign = '+-**/'[next(5)];
  return `(${expressionText(next, left, roots)} ${sign} ${expressionText(next, operations - 1 - left, roots)})`;
}

export const planning = (): string[] => [...planningOf(1), ...planningOf(4)];

function planningOf(roots: number): string[] {
  const profile = profileOf(MACHINE);
  const next = numbers(11);
  const texts = Array.from({ length: EXPRESSIONS }, () => expressionText(next, 1 + next(MOST_OPERATIONS), roots));
  const expressions = texts.map(expressionOf);
  const times: { ms: number; text: string }[] = [];
  let refused = 0;
  // Once without being timed: what is measured is planning, not the program's first steps.
  for (const isTimed of [false, true]) {
    for (const [i, expression] of expressions.entries()) {
      const from = performance.now();
      const planned = plan({ expression, profile, values: [] });
      if (isTimed) times.push({ ms: performance.now() - from, text: texts[i] });
      if (isTimed && isRefused(planned)) refused++;
    }
  }
  times.sort((a, b) => a.ms - b.ms);
  const at = (share: number) => times[Math.min(times.length - 1, Math.floor(share * times.length))];
  const ms = ({ ms: time }: { ms: number }) => `${time.toFixed(1)} ms`;
  return [
    `${EXPRESSIONS} expressions, ${roots} in 10 operations a root, ${refused} of them refused: median ${ms(at(0.5))}, p95 ${ms(at(0.95))}, worst ${ms(at(1))}`,
    `the worst: ${at(1).text}`,
  ];
}
