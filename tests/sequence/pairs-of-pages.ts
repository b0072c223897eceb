/** Findings of Markdown pages: a page that has them, and one that has not. */
import { machine, type Pair } from './machines.js';

const page = (below: string): string =>
  `\`\`\`crank\n${machine('reverse')}sequence trial on stores\n  clear all\n  set 12\n  turn 3\n\`\`\`\n\n${below}\n`;

export const PAIRS_OF_PAGES = {
  'stale-inset': {
    found: page('<!-- #! stale-inset -->\n<!-- crank: readings -->'),
    not: page('    <!-- crank: readings -->\n\n```markdown\n<!-- crank: readings -->\n```\n\n<!-- crank readings -->'),
    isPage: true,
  },
  'bad-inset': {
    found: page('<!-- #! bad-inset -->\n<!-- crank: reading -->'),
    not: page('<!-- #! stale-inset -->\n<!-- crank: readings of trial case 0 in de-AT -->'),
    isPage: true,
  },
} as const satisfies Record<string, Pair>;
