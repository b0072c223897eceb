/** `cranknote prove`: a sequence that catches every fault that a machine can have. */
import { finish } from '../../grammar/gradual.js';
import { faultsOf, isWithinReach, MECHANISMS, type MechanismPart, mechanismOf } from '../machine/index.js';
import { type ProvingScript, provingScript } from '../proving/proof/index.js';
import { proofLines } from '../proving/proof/text.js';
import { provingWording } from '../proving/wording/index.js';
import { faultText } from '../sequence/fault-text.js';
import { CannotRun } from './files.js';
import { findMachines, machineNamed } from './machines.js';
import { refuseExisting, writeOut } from './out.js';
import { printWhole, sequenceName, wholeFile } from './planned.js';
import { harmless, paragraph, type Terminal } from './terminal.js';

export interface ProveOptions {
  readonly file?: string;
  readonly mechanism?: MechanismPart;
  readonly out?: string;
}

const wording = provingWording('en');
/** Columns of a comment. */
const COMMENT_WIDTH = 100;

/** Returns the exit code: 0 every fault within reach is caught, 1 some can't be, 2 can't run. */
export function prove(name: string, { file, mechanism, out }: ProveOptions, terminal: Terminal): number {
  const machines = findMachines(file, terminal);
  const machine = machineNamed(machines, name);
  if (out !== undefined) refuseExisting(out);
  const parts = mechanism ? [mechanism] : MECHANISMS;
  const wanted = faultsOf(machine.profile).filter((fault) => parts.includes(mechanismOf(fault)));
  if (wanted.length === 0) {
    throw new CannotRun(`There is nothing to prove: ${name} has no ${wording.part[parts[0]]} that could fail.`);
  }
  const script = finish(provingScript(machine.profile, parts));
  const beyond = wanted.filter((fault) => !isWithinReach(fault, machine.profile)).length;
  const summary = summaryLines(script, beyond);
  const sequence = proofLines(script, sequenceName(undefined, `prove-${name}`, machines), parts, wording);
  const comments = summary.flatMap((line) => paragraph(line, '# ', { columns: COMMENT_WIDTH }).split('\n'));
  if (out === undefined) printWhole(comments, sequence, machine, machines, terminal);
  else writeOut(out, `${wholeFile(comments, sequence, machine, machines, out).join('\n')}\n`);
  for (const line of summary) terminal.err(`${line}\n`);
  for (const fault of script.uncaught) terminal.err(`  ${faultText(fault)}\n`);
  if (out !== undefined) terminal.err(`Written to ${harmless(out)}.\n`);
  return script.uncaught.length === 0 ? 0 : 1;
}

function summaryLines({ caught, uncaught, effort, least, shown, remarked }: ProvingScript, beyond: number): string[] {
  return [
    wording.caughtText(caught.length, uncaught.length, beyond),
    wording.proofEffortText(effort, least, shown.flat().length),
    wording.leastText,
    ...(remarked === 0 ? [] : [wording.remarkedText]),
  ];
}
