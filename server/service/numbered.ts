/** Numbers for things that are never changed: who has been told of one need not be told again. */
const numbers = new WeakMap<object, number>();
let last = 0;

/** The same for the same object, and for no other, as long as the server runs. */
export function numberOf(thing: object): number {
  let number = numbers.get(thing);
  if (number === undefined) {
    number = ++last;
    numbers.set(thing, number);
  }
  return number;
}
