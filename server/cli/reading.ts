/** What is said of a file that can't be read. */
import { STANDARD_INPUT } from '../disk.js';
import type { FileProblem } from '../sequence/findings.js';
import { harmless } from './terminal.js';

const PROBLEM: Readonly<Record<FileProblem, string>> = {
  missing: 'is not there',
  outside: 'lies outside the folder',
  'not-relative': 'is not a path',
  folder: 'is a folder, not a file',
  unreadable: "can't be read",
  'too-large': 'is larger than 16 MB and is not read',
  'not-text': 'is not text in UTF-8',
};

export const problemText = (file: string, problem: FileProblem): string =>
  `${file === STANDARD_INPUT ? 'Standard input' : harmless(file)} ${PROBLEM[problem]}.`;
