/** `cranknote adapt`: the sequences of a file, carried over to another machine. */
import { nearest } from '../../grammar/nearest.js';
import type { Placed, Section, SequenceSection } from '../../grammar/tree.js';
import { STANDARD_INPUT } from '../disk.js';
import { adapt as carryOver, closedUp } from '../planning/adapt/index.js';
import { isMarkdown, type Library } from '../sequence/library.js';
import { CannotRun, findEntries, loadAll } from './files.js';
import {
  type Bringing,
  bringIn,
  findMachines,
  machineNamed,
  type UsableMachine,
  usable,
  visibleFrom,
} from './machines.js';
import { type Adapted, adaptedJson, adaptedText, refusalText, writtenText } from './output/adapted.js';
import { rewritten } from './output/rewritten.js';
import { harmless, harmlessLines, type Terminal } from './terminal.js';
import { writeWhole } from './writing.js';

export const ADAPT_FORMATS = ['text', 'json'] as const;

export interface AdaptOptions {
  readonly to: string;
  readonly file?: string;
  readonly sequence?: string;
  readonly write?: boolean;
  readonly format: (typeof ADAPT_FORMATS)[number];
}

/** Returns the exit code: 0 all carried over, 1 something can't be (then nothing is written), 2 can't run. */
export function adapt(named: string, options: AdaptOptions, terminal: Terminal): number {
  const entries = findEntries([named]);
  if (entries.length !== 1) throw new CannotRun(`${named} stands for ${entries.length} files: name a single one.`);
  const [{ file }] = entries;
  if (options.write && file === STANDARD_INPUT) throw new CannotRun('Standard input is no file that could be written.');
  let isUnreadable = false;
  const { library, files } = loadAll(entries, (message) => {
    isUnreadable = true;
    terminal.err(`${message}\n`);
  });
  if (isUnreadable) return 2;
  const sequences = wantedSequences(library, file, options.sequence);
  const { machine, bringing } = targetOf(library, file, options, terminal);
  const adapted = sequences.map((placed) => adaptOne(library, file, placed, machine));
  const areRefused = adapted.some(({ outcome }) => outcome.is === 'refused');
  for (const one of adapted)
    if (options.format === 'text') terminal.err(refusalText(file, machine.name, one, terminal));
  const willWrite = options.write === true && !areRefused && adapted.some(({ outcome }) => outcome.is === 'adapted');
  if (willWrite && !write(file, files.get(file) ?? '', adapted, bringing, terminal)) return 2;
  if (options.format === 'json') terminal.out(adaptedJson(file, machine.name, bringing, adapted, willWrite));
  else if (willWrite) terminal.out(writtenText(file, machine.name, adapted));
  else if (!options.write) print(adaptedText(adapted, machine.name, bringing), terminal);
  else if (areRefused) terminal.err(`${harmless(file)} is left as it was.\n`);
  return areRefused ? 1 : 0;
}

/** A program that takes the text needs it to the letter, a terminal needs it without its control characters. */
const print = (text: string, { out, isTerminal }: Terminal): void => out(isTerminal ? harmlessLines(text) : text);

/** The machine to carry over to, and what makes it visible in the file if it is not. */
function targetOf(library: Library, file: string, { to, file: other }: AdaptOptions, terminal: Terminal) {
  const visible = visibleFrom(library, [file]);
  const here = visible.filter(({ name }) => name === to);
  if (here.length > 0) return { machine: usable(here), bringing: undefined };
  const machines = findMachines(other, terminal);
  const machine = machineNamed({ ...machines, known: [...visible, ...machines.known] }, to);
  return { machine, bringing: bringIn(machines, machine, file === STANDARD_INPUT ? undefined : file) };
}

/** Every sequence of the file, or the one that is named. */
function wantedSequences(library: Library, file: string, name: string | undefined): Placed<SequenceSection>[] {
  const all = (library.tree(file)?.sections ?? []).filter(isSequence);
  if (all.length === 0) throw new CannotRun(`There is no sequence in ${nameOf(file)}.`);
  const wanted = all.filter(({ section }) => name === undefined || section.header?.name.name === name);
  if (wanted.length > 0 || name === undefined) return wanted;
  const near = nearest(
    name,
    all.flatMap(({ section }) => section.header?.name.name ?? []),
  );
  const hint = near === undefined ? '' : ` Did you mean ${near}?`;
  throw new CannotRun(`There is no sequence ${name} in ${nameOf(file)}.${hint}`);
}

const isSequence = (placed: Placed<Section>): placed is Placed<SequenceSection> => placed.section.kind === 'sequence';
const nameOf = (file: string): string => (file === STANDARD_INPUT ? 'standard input' : file);

function adaptOne(library: Library, file: string, placed: Placed<SequenceSection>, to: UsableMachine): Adapted {
  const { section, line } = placed;
  const machine = library.scope(file).machineOf(section);
  const from = machine && library.machine(machine).profile;
  const about = { placed, name: section.header?.name.name ?? '', above: commentAbove(library, file, line) };
  if (!from) return { ...about, outcome: { is: 'refused', obstacles: [] } };
  if (machine === to.section) return { ...about, from: from.name, outcome: { is: 'same' } };
  const adaptation = carryOver({
    section,
    from,
    to: to.profile,
    resolve: (name, home) => library.scope(library.fileOf(home) ?? file).sequence(name),
  });
  const outcome: Adapted['outcome'] =
    'refused' in adaptation
      ? { is: 'refused', obstacles: adaptation.refused }
      : { is: 'adapted', ...adaptation, ...(isMarkdown(file) && { lines: closedUp(adaptation.lines) }) };
  return { ...about, from: from.name, outcome };
}

/** The comment lines right above a sequence, which are about it. */
function commentAbove(library: Library, file: string, line: number): string[] {
  const above = library.tree(file)?.sections.find(({ section, line: start }) => start + section.lines.length === line);
  const lines = above?.section.lines ?? [];
  const isComment = (i: number): boolean => lines[i].comment?.from === 0 && lines[i].items.length === 0;
  let first = lines.length;
  while (first > 0 && isComment(first - 1)) first--;
  return lines.slice(first).map(({ text }) => text);
}

/** Puts the sequences in the place of the old ones. Tells and returns false where the file can't be written. */
function write(
  file: string,
  text: string,
  adapted: readonly Adapted[],
  bringing: Bringing | undefined,
  terminal: Terminal,
): boolean {
  if (isMarkdown(file) && bringing && 'lines' in bringing) {
    throw new CannotRun(
      `${file} can't see that machine, and no path leads from it there. Write the machine into a file and use it.`,
    );
  }
  const changed = rewritten(file, text, adapted, bringing);
  try {
    writeWhole(file, changed);
    return true;
  } catch {
    terminal.err(`${harmless(file)} can't be written and is left as it was.\n`);
    return false;
  }
}
