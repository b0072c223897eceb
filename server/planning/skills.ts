/** All that the planner can do. */
import { intoResult } from './products.js';
import { quotientIntoCounter } from './quotients.js';
import { extractRoot } from './roots.js';
import type { Skills } from './terms.js';

export const SKILLS: Skills = { sum: intoResult, root: extractRoot, quotient: quotientIntoCounter };
