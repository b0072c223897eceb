/** How often a mark has to be come to before it stops. */

export interface HitCount {
  /** Whether it stops the so-manieth time, from 1. */
  isAt(times: number): boolean;
}

const FORM = /^(?:(>=|>|<=|<|==|=|%)\s*)?(\d{1,9})$/;

/** Reads `3` (the third time), `>= 3`, `% 2` (every second time); undefined where it is none of these. */
export function readHitCount(text: string): HitCount | undefined {
  const [, sign = '=', digits] = FORM.exec(text.trim()) ?? [];
  if (digits === undefined) return undefined;
  const number = Number(digits);
  if (sign === '%') return number > 0 ? { isAt: (times) => times % number === 0 } : undefined;
  const compares: Readonly<Record<string, (times: number) => boolean>> = {
    '=': (times) => times === number,
    '==': (times) => times === number,
    '>': (times) => times > number,
    '>=': (times) => times >= number,
    '<': (times) => times < number,
    '<=': (times) => times <= number,
  };
  return { isAt: compares[sign] };
}
