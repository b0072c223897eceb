/** How the steps of a sheet are numbered. */

/** Figures and letters in turn: 1, 2 …, 1a, 1b …, 1a1. */
export class StepNumbers {
  private count = 0;

  constructor(
    private readonly prefix: string,
    private readonly depth: number,
  ) {}

  next(): string {
    this.count++;
    return this.prefix + (this.depth % 2 === 0 ? String(this.count) : letters(this.count));
  }

  /** For the parts of the step that has this number. */
  below(number: string): StepNumbers {
    return new StepNumbers(number, this.depth + 1);
  }
}

/** a … z, aa, ab … */
function letters(count: number): string {
  let text = '';
  for (let rest = count; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    text = String.fromCharCode(97 + ((rest - 1) % 26)) + text;
  }
  return text;
}
