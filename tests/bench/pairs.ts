/** Times two pieces of work in turn, so that a machine that grows slower or faster does so for both. */

export interface Ratio {
  readonly name: string;
  /** Medians, in milliseconds. */
  readonly ours: number;
  readonly theirs: number;
  /** The median of ours / theirs, pair by pair. */
  readonly ratio: number;
  readonly lowest: number;
  readonly highest: number;
}

type Work = () => unknown;

/** Runs `a` and `b` alternately, after some rounds that are not counted. */
export async function pair(name: string, ours: Work, theirs: Work, { rounds = 21, warm = 6 } = {}): Promise<Ratio> {
  const times: [number, number][] = [];
  for (let round = 0; round < warm + rounds; round++) {
    const a = await time(ours);
    const b = await time(theirs);
    if (round >= warm) times.push([a, b]);
  }
  const ratios = times.map(([a, b]) => a / b).sort(ascending);
  return {
    name,
    ours: median(times.map(([a]) => a)),
    theirs: median(times.map(([, b]) => b)),
    ratio: median(ratios),
    lowest: ratios[0],
    highest: ratios[ratios.length - 1],
  };
}

async function time(work: Work): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

const ascending = (a: number, b: number): number => a - b;
const median = (numbers: readonly number[]): number => [...numbers].sort(ascending)[numbers.length >> 1];
