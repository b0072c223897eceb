/** Writes the pictures of the first steps to where the extension has them. */
import { writeFileSync } from 'node:fs';
import { firstSteps } from './first-steps.js';

for (const [name, svg] of firstSteps()) writeFileSync(`client/walkthrough/${name}`, svg);
