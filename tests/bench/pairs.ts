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

export interface PairOptions {
  readonly rounds?: number;
  /** Rounds before, that are not counted. */
  readonly warm?: number;
  /** Called before each round, and not timed. */
  readonly before?: (round: number) => void;
}

/** Runs `ours` and `theirs` in turn, now the one first and now the other, after some rounds that are not counted. */
export async function pair(name: string, ours: Work, theirs: Work, options: PairOptions = {}): Promise<Ratio> {
  const { rounds = 21, warm = 6, before } = options;
  const times: [number, number][] = [];
  for (let round = 0; round < warm + rounds; round++) {
    before?.(round);
    const isFirst = round % 2 === 0;
    const early = await time(isFirst ? ours : theirs);
    const late = await time(isFirst ? theirs : ours);
    const [a, b] = isFirst ? [early, late] : [late, early];
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
