/** The known word that somebody most likely meant. */
import { distance } from 'fastest-levenshtein';

/** The candidate that needs the fewest changes, if those are at most half of its letters; the first among equals. */
export function nearest(text: string, candidates: Iterable<string>): string | undefined {
  if (text.length > 60) return undefined;
  let best: string | undefined;
  let fewest = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const limit = Math.floor(Math.min(candidate.length, text.length) / 2);
    const changes = distance(text.toLowerCase(), candidate.toLowerCase());
    if (changes <= limit && changes < fewest) {
      best = candidate;
      fewest = changes;
    }
  }
  return best;
}
