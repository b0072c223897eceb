/**
 * Work with pauses. Whoever has time runs it through at once; whoever has others waiting lets them in at each pause,
 * and drops the work if nobody wants it any more.
 */
export type Gradual<T> = Generator<void, T>;

/** Runs through to the end without a pause. */
export function finish<T>(work: Gradual<T>): T {
  let next = work.next();
  while (!next.done) next = work.next();
  return next.value;
}
