/** A whole check of a text that nobody has seen before. It is bundled twice: as it is, and without cheaper steps. */
import { Library } from '../../server/sequence/library.js';

/** What is found in a text, counted. */
export function check(text: string): number {
  const library = new Library();
  library.set('bench.crank', text);
  return library.check('bench.crank').findings.length;
}
