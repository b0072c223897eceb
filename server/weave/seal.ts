/**
 * The seal of an inset: by it the program knows its own work again.
 *
 * Letters, figures and what else is read count for it; blanks and the signs of Markdown do not, so that a program that
 * aligns the columns of tables or chooses other signs for a list breaks no seal.
 */

/** Signs that programs which tidy up Markdown put in, take out or exchange. The minus of a reading is none of them. */
const LAYOUT = /[\s|*_\\`:>#+-]/g;

/** What is to be read of some lines of Markdown. */
export const readOf = (lines: readonly string[]): string =>
  lines.join('\n').replace(LAYOUT, '').replaceAll('\u2060', '');

/** FNV-1a, 32 bits, as seven signs at the most; enough for an accident, and nobody forges a seal of their own page. */
export function sealOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  }
  return (hash >>> 0).toString(36);
}
