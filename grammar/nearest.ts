/** The known word that somebody most likely meant. */
import { distance } from 'fastest-levenshtein';

/**
 * The candidate that needs the fewest changes, if those are at most half of its letters. The same letters in another
 * order count as one change, and among equals one with the same first letter comes before others.
 */
export function nearest(text: string, candidates: Iterable<string>): string | undefined {
  if (text.length > 60) return undefined;
  const typed = text.toLowerCase();
  let best: string | undefined;
  let fewest = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const known = candidate.toLowerCase();
    const changes = lettersOf(known) === lettersOf(typed) ? 1 : distance(typed, known);
    if (changes > Math.floor(Math.min(known.length, typed.length) / 2)) continue;
    const weight = changes - (known[0] === typed[0] ? 0.5 : 0);
    if (weight < fewest) {
      best = candidate;
      fewest = weight;
    }
  }
  return best;
}

const lettersOf = (word: string): string => [...word].sort().join('');
