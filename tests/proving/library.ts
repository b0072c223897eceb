/** The machines of the library. */
import { readFileSync } from 'node:fs';
import type { Profile } from '../../server/machine/index.js';
import { checkText } from '../marked.js';

export const LIBRARY = readFileSync(new URL('../../samples/machines.crank', import.meta.url), 'utf8');

const { library } = checkText(LIBRARY);
export const PROFILES = [...library.declarations('test.crank').machines.values()].map(
  (section) => library.machine(section).profile as Profile,
);
