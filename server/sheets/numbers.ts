/** Readings and numbers in a language's own form. */

/** How a language writes numbers: its decimal sign, and what stands between groups of three figures. */
export interface NumberForm {
  readonly point: string;
  readonly group: string;
}

/** A thin space that does not break (U+202F) groups figures in print. */
export const THIN_SPACE = '\u202f';

/**
 * A decimal number such as `-1234.50` in a language's form. Figures before the point are grouped by three from five
 * figures on, those behind it are left as they are read off the wheels.
 */
export function formed(number: string, { point, group }: NumberForm): string {
  const [, sign, whole, decimals] = /^(-?)(\d+)(?:\.(\d+))?$/.exec(number) ?? [];
  if (whole === undefined) return number;
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(?:\d{3})+$)/g, group) : whole;
  return (sign ? '−' : '') + grouped + (decimals === undefined ? '' : point + decimals);
}
