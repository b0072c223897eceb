/** How the parts of a machine are gathered for the Tab key. */

/** Parts that are one stop of the Tab key; within it the arrows up and down lead from place to place. */
export const GROUPS = ['setting', 'result', 'counter', 'rest'] as const;
export type Group = (typeof GROUPS)[number];

export function groupOf(part: string): Group {
  const [register, place] = part.split('-');
  const isWheel = place !== undefined && /^\d+$/.test(place);
  return GROUPS.find((group) => isWheel && group === register) ?? 'rest';
}
