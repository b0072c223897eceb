/** What `--fault` names, and the runs with it. */
import type { Fault } from '../machine/index.js';
import { provingWording } from '../proving/wording/index.js';
import type { CaseRun } from '../sequence/check.js';
import { faultOn, faultText, isFaultProblem, parseFault } from '../sequence/fault-text.js';
import { type Run, run } from '../sequence/run.js';
import { CannotRun } from './files.js';
import { harmless } from './terminal.js';

const wording = provingWording('en');

export interface Faulty {
  readonly fault: Fault;
  readonly run: Run;
}

/** The same run with a fault; undefined where the machine can't have it. */
export function withFault({ order }: CaseRun, text: string): Faulty | undefined {
  const fault = faultOn(order.profile, text);
  return isFaultProblem(fault) ? undefined : { fault, run: run({ ...order, fault }) };
}

/** A fault that can't be read, or that none of the machines can have, is a slip worth telling. */
export function checkFault(text: string, runs: readonly CaseRun[]): void {
  const read = parseFault(text);
  if (isFaultProblem(read)) throw new CannotRun(wording.faultProblem(read, ''));
  const problems = runs.map(({ order }) => [faultOn(order.profile, text), order.profile.name] as const);
  const [first] = problems;
  if (!first || problems.some(([fault]) => !isFaultProblem(fault))) return;
  if (isFaultProblem(first[0])) throw new CannotRun(harmless(wording.faultProblem(first[0], first[1])));
}

/** The fault as it is written, and what it does. */
export const describeFault = (fault: Fault): string => `${faultText(fault)}: ${wording.faultSentence(fault)}`;
