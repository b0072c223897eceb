/** Pages for tests, and what weaving makes of them. */
import { finish } from '../../grammar/gradual.js';
import { Library } from '../../server/sequence/library.js';
import { insetsIn, withInsets } from '../../server/weave/findings.js';
import type { WovenInset } from '../../server/weave/page.js';
import { insetEdit, pageWith } from '../../server/weave/written.js';

export interface Woven {
  readonly text: string;
  /** As they were before. */
  readonly insets: readonly WovenInset[];
  /** What stands in the way of each that is not filled. */
  readonly faults: readonly string[];
}

export function woven(text: string, file = 'manual/page.md'): Woven {
  const library = new Library();
  library.set(file, text);
  const insets = insetsIn(finish(withInsets(library, library.check(file))));
  const edits = insets.flatMap((one) => (one.state.is === 'stale' ? [insetEdit(one, one.state.content)] : []));
  const faults = insets.flatMap(({ state }) => (state.is === 'bad' ? [state.why.is] : []));
  return { text: pageWith(text, edits), insets, faults };
}

export const MACHINE = `machine desk "Machine on the desk"
  setting 6
  counter 6
  result 10
  subtract reverse
`;

/** A page that begins with a machine and this sequence, and goes on with some lines. */
export const pageOf = (below: string, sequence = BAY): string => `\`\`\`crank\n${MACHINE}${sequence}\`\`\`\n\n${below}`;

export const BAY = `sequence bay "Area of one bay" (width = 17.2) on desk
  case width = 4.5
  clear all
  points setting 1 counter 1 result 2
  set 24.5
  multiply by width
  ask result
`;
