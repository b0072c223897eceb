/** What plans of all kinds have in common when they are printed: a name, and what makes a whole file of a sequence. */
import { fstatSync, statSync } from 'node:fs';
import { Parser } from '../../grammar/sections.js';
import { CannotRun } from './files.js';
import { bringIn, type Machines, type UsableMachine } from './machines.js';
import { harmless, type Terminal } from './terminal.js';

/** Prints comments and a sequence as a whole file, so that it may be sent to one. */
export function printWhole(
  comments: readonly string[],
  sequence: readonly string[],
  machine: UsableMachine,
  machines: Machines,
  { out, colors, isTerminal }: Terminal,
): void {
  const { before, after } = surroundings(machine, machines);
  // On a terminal nothing may move the cursor; a file gets the text to the letter.
  const safe = (line: string): string => (isTerminal ? harmless(line) : line);
  const faint = (line: string): string => (line === '' ? line : colors.dim(safe(line)));
  const shown = [...[...before, ...comments].map(faint), ...sequence.map(safe), ...after.map(faint)];
  out(`${shown.join('\n')}\n`);
}

/**
 * What makes a whole file of the sequence: a `use` line above it, or the machine itself below it. Where the text is
 * added to the very file that describes the machine, a blank line is all.
 */
function surroundings(machine: UsableMachine, machines: Machines) {
  return isOutput(machine.file) ? { before: [''], after: [] } : around(machine, machines);
}

function around(machine: UsableMachine, machines: Machines, into?: string) {
  const bringing = bringIn(machines, machine, into);
  return 'use' in bringing ? { before: [bringing.use, ''], after: [] } : { before: [], after: ['', ...bringing.lines] };
}

/** The same as the lines of a file of its own. */
export function wholeFile(
  comments: readonly string[],
  sequence: readonly string[],
  machine: UsableMachine,
  machines: Machines,
  into: string,
): string[] {
  const { before, after } = around(machine, machines, into);
  return [...before, ...comments, ...sequence, ...after];
}

/** Whether what is printed goes into this file, as it does behind `>>`. */
function isOutput(file: string): boolean {
  try {
    const [to, there] = [fstatSync(1), statSync(file)];
    return to.dev === there.dev && to.ino === there.ino;
  } catch {
    return false;
  }
}

/** What a sequence is called: as was asked, or by its kind, with a number if that is taken. */
export function sequenceName(wanted: string | undefined, kind: string, { library }: Machines): string {
  if (wanted !== undefined) {
    const [{ section }] = new Parser().parseLines([`sequence ${wanted}`]).sections;
    const isName = section.kind === 'sequence' && section.header?.name.name === wanted.normalize('NFC');
    if (isName && section.errors.length === 0) return wanted;
    throw new CannotRun(
      `${wanted} can't be a name: a name is a letter, then letters, digits and hyphens, and no word of the notation.`,
    );
  }
  const taken = new Set(library.fileNames().flatMap((file) => [...library.declarations(file).sequences.keys()]));
  let name = kind;
  for (let number = 2; taken.has(name); number++) name = `${kind}-${number}`;
  return name;
}
