/**
 * A record that grows at its end. Those who take over from one another share what stands in it already, so that taking
 * over costs nothing, however long it is.
 */
export class History<T> {
  private constructor(
    private readonly last: T | undefined,
    private readonly before: History<T> | undefined,
    readonly length: number,
  ) {}

  static readonly EMPTY = new History<never>(undefined, undefined, 0);

  /** The same with one more at its end. */
  with(entry: T): History<T> {
    return new History<T>(entry, this, this.length + 1);
  }

  /** The newest entry, if there is any. */
  get newest(): T | undefined {
    return this.last;
  }

  /** All entries, the first one first. */
  toArray(): T[] {
    const all = new Array<T>(this.length);
    for (let at: History<T> | undefined = this; at && at.length > 0; at = at.before) all[at.length - 1] = at.last as T;
    return all;
  }
}
