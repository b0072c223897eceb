/** Lines and columns as a client counts them; here they count from 0. */
export class Positions {
  constructor(
    private readonly firstLine: 0 | 1,
    private readonly firstColumn: 0 | 1,
  ) {}

  told(line: number, column: number): { readonly line: number; readonly column: number } {
    return { line: line + this.firstLine, column: column + this.firstColumn };
  }

  line(told: number): number {
    return told - this.firstLine;
  }

  column(told: number): number {
    return told - this.firstColumn;
  }
}
