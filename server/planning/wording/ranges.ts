/** Numbers that follow one another, told by the first and the last: 3, 4, 5, 9 are `3 to 5` and `9`. */
export function rangesOf(numbers: readonly number[], to: string): string[] {
  const ranges: { first: number; last: number }[] = [];
  for (const number of numbers) {
    const range = ranges.at(-1);
    if (range && number === range.last + 1) range.last = number;
    else ranges.push({ first: number, last: number });
  }
  const told = ranges.flatMap(({ first, last }) =>
    last - first < 2 ? numbersFrom(first, last) : [`${first}${to}${last}`],
  );
  return told.length <= MOST_RANGES ? told : [...told.slice(0, MOST_RANGES - 1), '…'];
}

const numbersFrom = (first: number, last: number): string[] =>
  first === last ? [`${first}`] : [`${first}`, `${last}`];

/** A note stays a line. */
const MOST_RANGES = 12;
