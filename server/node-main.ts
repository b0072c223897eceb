/**
 * What VS Code starts as a process of its own, and the command line for `serve` and `step`: a bundle apart, so that a check
 * does not have to load it.
 */
import { serve } from './node.js';
import { step } from './node-step.js';

/** Put in when the program is bundled. */
declare const CRANKNOTE_VERSION: string;

if (process.argv[2] === 'step') step(CRANKNOTE_VERSION);
else serve(CRANKNOTE_VERSION);
