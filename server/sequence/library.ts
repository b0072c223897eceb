/**
 * The files that are known together: their names, machines and sequences, and what was found in them.
 *
 * Invariant: only what an edit touches is done again. A machine is built once for its section, a sequence is run again
 * only if its own section, its machine or a sequence that it runs has become another object.
 */
import { crankLines } from '../../grammar/markdown.js';
import { nearest } from '../../grammar/nearest.js';
import { Parser } from '../../grammar/sections.js';
import type { CrankFile, MachineSection, NameSyntax, Section, SequenceSection } from '../../grammar/tree.js';
import { Allowance, checkSequence, type SequenceReport } from './check.js';
import type { Facts, FileProblem, Finding } from './findings.js';
import { buildMachine, type Machine } from './profiles.js';
import { resolveUse } from './uses.js';

/** A file may be this long, in characters. */
export const LONGEST_FILE = 16 * 1024 * 1024;
/** Findings of one file that are told; the rest are only counted. */
export const MOST_FINDINGS = 10_000;

interface Known {
  readonly tree: CrankFile;
  /** Why it can't be read, if it can't. */
  readonly problem?: FileProblem;
}

interface Declarations {
  readonly machines: ReadonlyMap<string, MachineSection>;
  readonly sequences: ReadonlyMap<string, SequenceSection>;
}

/** What was found in a file, and the runs of its sequences. */
export interface FileReport {
  readonly file: string;
  readonly findings: readonly Finding[];
  /** Findings beyond those that are told. */
  readonly untold: number;
  readonly sequences: readonly SequenceReport[];
}

export const isMarkdown = (file: string): boolean => /\.(?:md|markdown)$/i.test(file);

export class Library {
  private readonly parser = new Parser();
  private readonly files = new Map<string, Known>();
  private readonly declared = new WeakMap<CrankFile, Declarations>();
  private readonly lines = new WeakMap<CrankFile, ReadonlyMap<Section, number>>();
  private readonly homes = new WeakMap<Section, string>();
  private readonly machines = new WeakMap<MachineSection, { parent: Machine | undefined; machine: Machine }>();
  private readonly scopes = new Map<string, Scope>();
  private readonly reports = new WeakMap<SequenceSection, SequenceReport>();

  /** Takes in a file's text, or the newer state of it. */
  set(file: string, text: string): void {
    if (text.length > LONGEST_FILE) return this.setProblem(file, 'too-large');
    const earlier = this.files.get(file)?.tree;
    const tree = isMarkdown(file)
      ? this.parser.parseLines(crankLines(text), earlier)
      : this.parser.parse(text.replace(/^\ufeff/, ''), earlier);
    this.files.set(file, { tree });
    this.scopes.clear();
    for (const { section } of tree.sections) this.homes.set(section, file);
  }

  /** A file that is known not to be readable. */
  setProblem(file: string, problem: FileProblem): void {
    this.files.set(file, { tree: EMPTY, problem });
    this.scopes.clear();
  }

  remove(file: string): void {
    this.files.delete(file);
    this.scopes.clear();
  }

  has(file: string): boolean {
    return this.files.has(file);
  }

  tree(file: string): CrankFile | undefined {
    return this.files.get(file)?.tree;
  }

  /** In which file a section stands. */
  fileOf(section: Section): string | undefined {
    return this.homes.get(section);
  }

  /** Files that are used, directly or through others, and not known yet. */
  wanted(file: string): string[] {
    return this.reachable(file).filter((other) => !this.files.has(other));
  }

  /** A file and all that it uses, itself first, each once. */
  reachable(file: string): string[] {
    const seen = new Set([file]);
    for (const known of seen) for (const used of this.usedBy(known)) seen.add(used);
    return [...seen];
  }

  private usedBy(file: string): string[] {
    const sections = this.files.get(file)?.tree.sections ?? [];
    return sections.flatMap(({ section }) => {
      if (section.kind !== 'use' || !section.header) return [];
      const target = resolveUse(file, section.header.path.value);
      return 'file' in target ? [target.file] : [];
    });
  }

  private declarations(file: string): Declarations {
    const tree = this.files.get(file)?.tree ?? EMPTY;
    let found = this.declared.get(tree);
    if (!found) {
      const machines = new Map<string, MachineSection>();
      const sequences = new Map<string, SequenceSection>();
      // Of two with one name the first counts.
      for (const { section } of [...tree.sections].reverse()) {
        if (section.kind === 'machine' && section.header) machines.set(section.header.name.name, section);
        if (section.kind === 'sequence' && section.header) sequences.set(section.header.name.name, section);
      }
      found = { machines, sequences };
      this.declared.set(tree, found);
    }
    return found;
  }

  /** The names that can be seen from a file, its own first. */
  scope(file: string): Scope {
    let scope = this.scopes.get(file);
    if (!scope) {
      scope = new Scope(this.reachable(file).map((other) => this.declarations(other)));
      this.scopes.set(file, scope);
    }
    return scope;
  }

  /** The line of its file on which a section begins, from 0. */
  lineOf(section: Section): number {
    const tree = this.files.get(this.homes.get(section) ?? '')?.tree;
    if (!tree) return 0;
    let lines = this.lines.get(tree);
    if (!lines) {
      lines = new Map(tree.sections.map((placed) => [placed.section, placed.line]));
      this.lines.set(tree, lines);
    }
    return lines.get(section) ?? 0;
  }

  machine(section: MachineSection, building: readonly MachineSection[] = []): Machine {
    const like = section.header?.like;
    const parentSection = like && this.scopeOf(section).machine(like.name);
    const isCircle = parentSection !== undefined && [...building, section].includes(parentSection);
    const parent = parentSection && !isCircle ? this.machine(parentSection, [...building, section]) : undefined;
    const known = this.machines.get(section);
    if (known && known.parent === parent) return known.machine;
    const machine = buildMachine(section, parent);
    this.machines.set(section, { parent, machine });
    return machine;
  }

  private scopeOf(section: Section): Scope {
    return this.scope(this.homes.get(section) ?? '');
  }

  /** Everything found in a file. Work is done afresh only where something has changed since the last time. */
  check(file: string): FileReport {
    const tree = this.files.get(file)?.tree ?? EMPTY;
    const scope = this.scope(file);
    const findings = new Told();
    const sequences: SequenceReport[] = [];
    const allowance = new Allowance();
    const usedMachines = new Set<MachineSection>();
    const names = { machine: new Set<string>(), sequence: new Set<string>() };
    for (const { section } of tree.sections) {
      for (const { line, syntax } of section.errors) {
        const at = { section, line, from: syntax.from, to: syntax.to };
        findings.add([{ facts: { code: 'syntax', problem: syntax.problem }, at }]);
      }
      if (section.kind === 'use') findings.add(this.checkUse(file, section));
      if (section.kind !== 'machine' && section.kind !== 'sequence') continue;
      if (section.header) findings.add(this.checkDeclaration(section, section.header.name, names, scope));
      if (section.kind === 'machine') findings.add(this.checkMachine(section, scope, usedMachines));
      else {
        const report = this.checkSequence(section, scope, allowance);
        findings.add(report.findings);
        if (report.machine) usedMachines.add(report.machine);
        sequences.push(report);
      }
    }
    findings.add(this.unusedMachines(file, tree, usedMachines));
    return { file, findings: findings.told, untold: findings.untold, sequences };
  }

  private checkUse(file: string, section: Section & { kind: 'use' }): Finding[] {
    if (!section.header) return [];
    const { path } = section.header;
    const at = { section, line: 0, from: path.from, to: path.to };
    const target = resolveUse(file, path.value);
    if ('problem' in target) return [{ facts: { code: 'file-not-found', path: path.value, why: target.problem }, at }];
    const known = this.files.get(target.file);
    const problem = known ? known.problem : 'missing';
    if (problem) return [{ facts: { code: 'file-not-found', path: path.value, why: problem }, at }];
    if (!this.reachable(target.file).includes(file)) return [];
    return [{ facts: { code: 'sequence-cycle', by: 'use', name: path.value }, at }];
  }

  /** A name counts once in a file and all that it uses. */
  private checkDeclaration(
    section: MachineSection | SequenceSection,
    name: NameSyntax,
    names: Record<'machine' | 'sequence', Set<string>>,
    scope: Scope,
  ): Finding[] {
    const { kind } = section;
    const isRepeated = names[kind].has(name.name) || scope.isElsewhere(kind, name.name);
    names[kind].add(name.name);
    if (!isRepeated) return [];
    const at = { section, line: 0, from: name.from, to: name.to };
    return [{ facts: { code: 'duplicate-name', kind, name: name.name }, at }];
  }

  private checkMachine(section: MachineSection, scope: Scope, used: Set<MachineSection>): Finding[] {
    const machine = this.machine(section);
    const like = section.header?.like;
    if (!like) return [...machine.findings];
    const at = { section, line: 0, from: like.from, to: like.to };
    const parent = scope.machine(like.name);
    if (parent) used.add(parent);
    if (parent && machine.profile === undefined && machine.findings.length === 0 && this.isLikeItself(section)) {
      return [{ facts: { code: 'sequence-cycle', by: 'like', name: like.name }, at }];
    }
    if (parent) return [...machine.findings];
    const near = nearest(like.name, scope.machineNames());
    const facts: Facts = { code: 'unknown-name', kind: 'machine', name: like.name, ...(near && { nearest: near }) };
    return [...machine.findings, { facts, at }];
  }

  /** In a file without sequences machines stand for others to use; elsewhere somebody should use them. */
  private unusedMachines(file: string, tree: CrankFile, used: ReadonlySet<MachineSection>): Finding[] {
    if (!tree.sections.some(({ section }) => section.kind === 'sequence')) return [];
    return tree.sections.flatMap(({ section }): Finding[] => {
      if (section.kind !== 'machine' || !section.header || used.has(section)) return [];
      const { name } = section.header;
      if (this.isUsedElsewhere(file, section)) return [];
      const at = { section, line: 0, from: name.from, to: name.to };
      return [{ facts: { code: 'unused', kind: 'machine', name: name.name }, at }];
    });
  }

  private isUsedElsewhere(file: string, machine: MachineSection): boolean {
    for (const [other, { tree }] of this.files) {
      if (other === file || !this.reachable(other).includes(file)) continue;
      const scope = this.scope(other);
      const uses = tree.sections.some(
        ({ section }) => section.kind === 'sequence' && machineOf(section, scope) === machine,
      );
      if (uses) return true;
    }
    return false;
  }

  private isLikeItself(section: MachineSection): boolean {
    const seen = new Set<MachineSection>();
    let next: MachineSection | undefined = section;
    while (next && !seen.has(next)) {
      seen.add(next);
      const like: NameSyntax | undefined = next.header?.like;
      next = like && this.scopeOf(next).machine(like.name);
    }
    return next !== undefined;
  }

  private checkSequence(section: SequenceSection, scope: Scope, allowance: Allowance): SequenceReport {
    const machineSection = machineOf(section, scope);
    const machine = machineSection && this.machine(machineSection);
    const resolve = (name: string, from: Section) => this.scopeOf(from).sequence(name);
    const known = this.reports.get(section);
    const isSame =
      known && known.profile === machine?.profile && known.machine === machineSection && known.holds(resolve);
    if (isSame && allowance.spendAgain(known.runs)) return known;
    const unnamed = machineFindings(section, scope);
    const report = checkSequence(section, machineSection, machine?.profile, {
      resolve,
      sequenceNames: () => scope.sequenceNames(),
      known: unnamed,
      allowance,
    });
    this.reports.set(section, report);
    return report;
  }
}

/** Findings that are told, up to the limit, and the number of those that are not. */
class Told {
  readonly told: Finding[] = [];
  untold = 0;

  add(findings: readonly Finding[]): void {
    const room = MOST_FINDINGS - this.told.length;
    for (const finding of findings.length > room ? findings.slice(0, room) : findings) this.told.push(finding);
    this.untold += Math.max(0, findings.length - room);
  }
}

/** The names that can be seen from a file. */
export class Scope {
  constructor(private readonly declared: readonly Declarations[]) {}

  machine(name: string): MachineSection | undefined {
    for (const { machines } of this.declared) if (machines.has(name)) return machines.get(name);
    return undefined;
  }
  sequence(name: string): SequenceSection | undefined {
    for (const { sequences } of this.declared) if (sequences.has(name)) return sequences.get(name);
    return undefined;
  }
  /** Whether a file other than the first declares it too. */
  isElsewhere(kind: 'machine' | 'sequence', name: string): boolean {
    return this.declared.slice(1).some((d) => (kind === 'machine' ? d.machines : d.sequences).has(name));
  }
  machineNames(): string[] {
    return this.declared.flatMap(({ machines }) => [...machines.keys()]);
  }
  sequenceNames(): string[] {
    return this.declared.flatMap(({ sequences }) => [...sequences.keys()]);
  }
}

const EMPTY: CrankFile = { sections: [], lineCount: 0 };

/** The machine that a sequence names, or the only one there is. */
function machineOf(section: SequenceSection, scope: Scope): MachineSection | undefined {
  const on = section.header?.on;
  if (on) return scope.machine(on.name);
  const names = scope.machineNames();
  return names.length === 1 ? scope.machine(names[0]) : undefined;
}

function machineFindings(section: SequenceSection, scope: Scope): Finding[] {
  const { header } = section;
  if (!header || machineOf(section, scope)) return [];
  const { on } = header;
  const span = on ?? header.name;
  const at = { section, line: 0, from: span.from, to: span.to };
  const base = { at, sequence: header.name.name };
  if (!on) return [{ ...base, facts: { code: 'no-machine', visible: scope.machineNames().length } }];
  const near = nearest(on.name, scope.machineNames());
  return [{ ...base, facts: { code: 'unknown-name', kind: 'machine', name: on.name, ...(near && { nearest: near }) } }];
}
