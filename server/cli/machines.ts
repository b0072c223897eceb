/** Which machines a command may plan for, and the one that is named. */
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { globSync } from 'tinyglobby';
import { formatLines } from '../../grammar/formatter.js';
import { nearest } from '../../grammar/nearest.js';
import { Parser } from '../../grammar/sections.js';
import type { MachineSection } from '../../grammar/tree.js';
import { STANDARD_INPUT } from '../disk.js';
import type { Profile } from '../machine/index.js';
import type { Library } from '../sequence/library.js';
import { pathFrom, rootOf } from '../sequence/uses.js';
import { CannotRun, type Entry, findEntries, loadAll } from './files.js';
import type { Terminal } from './terminal.js';

/** A machine that can be seen, in the file that describes it. */
export interface KnownMachine {
  readonly name: string;
  readonly section: MachineSection;
  /** As the library knows it; for a machine that comes with the program, where that lies. */
  readonly file: string;
  /** Missing where the machine contradicts itself. */
  readonly profile?: Profile;
}

export interface Machines {
  readonly library: Library;
  /** In the order in which they are found. More than one may have the same name, if they stand in several files. */
  readonly known: readonly KnownMachine[];
  /** Where they come from: the file that was named, the files of the working folder, or what comes with the program. */
  readonly origin: 'file' | 'folder' | 'program';
}

/** The library of machines that comes with the program: it lies beside the folder of the bundle. */
const OWN_MACHINES = fileURLToPath(new URL('../samples/machines.crank', import.meta.url));

/**
 * The machines of a file and of what it uses; where none is named, those of the .crank files of the working folder, and
 * where it has none, those that come with the program. Throws where a named file can't be read.
 */
export function findMachines(file: string | undefined, terminal: Terminal): Machines {
  if (file !== undefined) return { ...machinesOf(findEntries([file]), refuse), origin: 'file' };
  const names = globSync('*.crank', { followSymbolicLinks: true }).sort();
  const here = machinesOf(names.length > 0 ? findEntries(names) : [], (message) => terminal.err(`${message}\n`));
  return here.known.length > 0 ? { ...here, origin: 'folder' } : ownMachines();
}

/** The machines that come with the program. */
export const ownMachines = (): Machines => ({
  ...machinesOf([{ file: OWN_MACHINES.split(path.sep).join('/'), root: path.dirname(OWN_MACHINES) }], refuse),
  origin: 'program',
});

function refuse(message: string): never {
  throw new CannotRun(message);
}

function machinesOf(entries: readonly Entry[], complain: (message: string) => void): Omit<Machines, 'origin'> {
  const { library } = loadAll(entries, complain);
  return {
    library,
    known: visibleFrom(
      library,
      entries.map(({ file }) => file),
    ),
  };
}

/** What can be seen from some files, each machine once. */
export function visibleFrom(library: Library, files: readonly string[]): KnownMachine[] {
  const seen = new Map<MachineSection, KnownMachine>();
  for (const entry of files) {
    const scope = library.scope(entry);
    for (const name of new Set(scope.machineNames())) {
      const section = scope.machine(name);
      if (!section || seen.has(section)) continue;
      const { profile } = library.machine(section);
      seen.set(section, { name, section, file: library.fileOf(section) ?? entry, ...(profile && { profile }) });
    }
  }
  return [...seen.values()];
}

/** A machine that can be planned for. */
export type UsableMachine = KnownMachine & { readonly profile: Profile };

/** The machine of that name, or the only one there is. Throws, with the nearest name or all of them, where there is none. */
export function machineNamed({ known, origin }: Machines, name: string | undefined): UsableMachine {
  const names = [...new Set(known.map((machine) => machine.name))];
  if (names.length === 0) throw new CannotRun('There is no machine in this file, nor in what it uses.');
  if (name === undefined && names.length > 1) {
    throw new CannotRun(`Say with --on for which machine: ${listed(names)}; or all, to compare them.`);
  }
  const wanted = name ?? names[0];
  const found = known.filter((machine) => machine.name === wanted);
  if (found.length === 0) throw new CannotRun(noMachine(wanted, names, origin));
  return usable(found);
}

/** Throws where files disagree about a machine, or where it contradicts itself. */
export function usable(found: readonly KnownMachine[]): UsableMachine {
  const [{ name, file, profile }] = found;
  if (!profile) throw new CannotRun(`${name} contradicts itself: cranknote check ${file} says where.`);
  const differs = found.some((other) => JSON.stringify(other.profile) !== JSON.stringify(profile));
  if (differs) {
    const files = found.map((machine) => machine.file).join(' and ');
    throw new CannotRun(`${name} is described in ${files}: say with --file which one is meant.`);
  }
  return { ...found[0], profile };
}

/** A machine that two files describe is taken from the first; one that contradicts itself is left out. */
export function usableOf({ known }: Machines): UsableMachine[] {
  const names = new Map<string, UsableMachine>();
  for (const machine of known) {
    const { name, profile } = machine;
    if (profile && !names.has(name)) names.set(name, { ...machine, profile });
  }
  return [...names.values()];
}

const WHERE: Readonly<Record<Machines['origin'], string>> = {
  file: 'in this file and what it uses',
  folder: 'in the .crank files of this folder',
  program: 'among those that come with the program',
};

function noMachine(wanted: string, names: readonly string[], origin: Machines['origin']): string {
  const near = nearest(wanted, names);
  const nothing = `There is no machine ${wanted} ${WHERE[origin]}.`;
  return near === undefined ? `${nothing} There ${are(names)}.` : `${nothing} Did you mean ${near}?`;
}

/** Names in a message; a reader finds no name in a longer list. */
const MOST_NAMES = 20;

const are = (names: readonly string[]): string => `${names.length === 1 ? 'is' : 'are'}: ${listed(names)}`;
const listed = (names: readonly string[]): string =>
  names.slice(0, MOST_NAMES).join(', ') + (names.length > MOST_NAMES ? ` and ${names.length - MOST_NAMES} more` : '');

/** What makes a machine visible to a text: a `use` line to stand above it, or the machine's own lines to stand below. */
export type Bringing = { readonly use: string } | { readonly lines: readonly string[] };

/**
 * How a machine is brought into a file; a text that is in no file yet is taken for one in the working folder. Where no
 * relative path leads to the machine, it is brought in whole.
 */
export function bringIn(machines: Pick<Machines, 'library'>, machine: KnownMachine, into = 'text.crank'): Bringing {
  const { file } = machine;
  const isReachable = file !== STANDARD_INPUT && rootOf(file) === rootOf(into) && !/^[A-Za-z]:/.test(file);
  return isReachable ? { use: `use "${pathFrom(into, file)}"` } : { lines: machineText(machines, machine) };
}

/** A machine's own lines, and those of the machines that it is like: a text that needs no other file. */
function machineText({ library }: Pick<Machines, 'library'>, { section, file }: KnownMachine): string[] {
  const chain: MachineSection[] = [];
  const scope = library.scope(file);
  for (let next: MachineSection | undefined = section; next && !chain.includes(next); ) {
    chain.push(next);
    const like: string | undefined = next.header?.like?.name;
    next = like === undefined ? undefined : scope.machine(like);
  }
  return formatLines(
    new Parser().parseLines(
      chain
        .reverse()
        .flatMap((one) => ['', ...ownLines(one)])
        .slice(1),
    ),
  );
}

/** What stands between the last line of a machine and the next section is about that one. */
function ownLines({ lines }: MachineSection): string[] {
  const last = lines.findLastIndex(({ header, items, errors }) => header || items.length > 0 || errors.length > 0);
  return lines.slice(0, last + 1).map(({ text }) => text);
}
