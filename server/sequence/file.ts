/** Everything found in a file: in its text, its names, its machines, and the runs of its sequences. */
import { nearest } from '../../grammar/nearest.js';
import type { CrankFile, MachineSection, NameSyntax, SequenceSection, UseSection } from '../../grammar/tree.js';
import { Allowance, type SequenceReport } from './check.js';
import { type Facts, type Finding, placeOn, type Severity, severityOf } from './findings.js';
import type { Library } from './library.js';
import type { Scope } from './scope.js';
import { resolveUse } from './uses.js';

/** Findings of one severity that are told of a file; the rest are only counted. */
export const MOST_FINDINGS = 10_000;

/** What was found in a file, and the runs of its sequences. */
export interface FileReport {
  readonly file: string;
  readonly findings: readonly Finding[];
  /** Findings beyond those that are told. */
  readonly untold: number;
  readonly sequences: readonly SequenceReport[];
}

/** Told again and again how many sections of a file have been checked. */
export type Watch = (done: number, all: number) => void;

export function checkFile(library: Library, file: string, tree: CrankFile, watch?: Watch): FileReport {
  const scope = library.scope(file);
  const findings = new Told();
  const sequences: SequenceReport[] = [];
  const allowance = new Allowance();
  const used = new Set<MachineSection>();
  const uses = new UseCheck(library, file);
  const names = new NameCheck(scope);
  for (const [i, { section }] of tree.sections.entries()) {
    watch?.(i, tree.sections.length);
    const own = section.kind === 'sequence' && section.header ? { sequence: section.header.name.name } : {};
    for (const { line, syntax } of section.errors) {
      const facts: Facts = { code: 'syntax', problem: syntax.problem };
      findings.add([{ facts, at: placeOn(section, line, syntax), ...own }]);
    }
    if (section.kind === 'use') findings.add(uses.check(section));
    if (section.kind === 'machine') {
      findings.add([...names.check(section), ...checkMachine(library, section, scope, used)]);
    }
    if (section.kind === 'sequence') {
      findings.add(names.check(section));
      const report = library.sequence(section, scope, allowance);
      findings.add(report.findings);
      if (report.machine) used.add(report.machine);
      sequences.push(report);
    }
  }
  findings.add(unusedMachines(library, file, tree, used));
  return { file, findings: findings.told, untold: findings.untold, sequences };
}

/** Findings that are told: of each severity up to the limit, so that hints never hide an error. The rest is counted. */
class Told {
  readonly told: Finding[] = [];
  untold = 0;
  private readonly ofSeverity = new Map<Severity, number>();

  add(findings: readonly Finding[]): void {
    for (const finding of findings) {
      const severity = severityOf(finding);
      const told = this.ofSeverity.get(severity) ?? 0;
      this.ofSeverity.set(severity, told + 1);
      if (told < MOST_FINDINGS) this.told.push(finding);
      else this.untold++;
    }
  }
}

/** The `use` lines of a file. */
class UseCheck {
  private readonly seen: Set<string>;
  private readonly names = new Set<string>();

  constructor(
    private readonly library: Library,
    private readonly file: string,
  ) {
    this.seen = new Set([file]);
  }

  check(section: UseSection): Finding[] {
    if (!section.header) return [];
    const { path } = section.header;
    const at = placeOn(section, 0, path);
    const target = resolveUse(this.file, path.value);
    if ('problem' in target) return [{ facts: { code: 'file-not-found', path: path.value, why: target.problem }, at }];
    const problem = this.library.problemOf(target.file);
    if (problem) return [{ facts: { code: 'file-not-found', path: path.value, why: problem }, at }];
    const reached = this.library.reachable(target.file);
    if (reached.includes(this.file)) return [{ facts: { code: 'sequence-cycle', by: 'use', name: path.value }, at }];
    const clash = this.clashIn(reached);
    return clash ? [{ facts: clash, at }] : [];
  }

  /** The first name in these files that another used file has given to something else. */
  private clashIn(files: readonly string[]): Facts | undefined {
    let clash: Facts | undefined;
    for (const file of files) {
      if (this.seen.has(file)) continue;
      this.seen.add(file);
      const { machines, sequences } = this.library.declarations(file);
      for (const section of [...machines.values(), ...sequences.values()]) {
        const name = section.header?.name.name ?? '';
        const key = `${section.kind} ${name}`;
        if (this.names.has(key)) clash ??= { code: 'duplicate-name', kind: section.kind, name };
        else this.names.add(key);
      }
    }
    return clash;
  }
}

/** A name counts once in a file and all that it uses. */
class NameCheck {
  private readonly seen = new Set<string>();

  constructor(private readonly scope: Scope) {}

  check(section: MachineSection | SequenceSection): Finding[] {
    const name = section.header?.name;
    if (!name) return [];
    const { kind } = section;
    const key = `${kind} ${name.name}`;
    const isRepeated = this.seen.has(key) || this.scope.isElsewhere(kind, name.name);
    this.seen.add(key);
    if (!isRepeated) return [];
    return [{ facts: { code: 'duplicate-name', kind, name: name.name }, at: placeOn(section, 0, name) }];
  }
}

function checkMachine(library: Library, section: MachineSection, scope: Scope, used: Set<MachineSection>): Finding[] {
  const machine = library.machine(section);
  const like: NameSyntax | undefined = section.header?.like;
  if (!like) return [...machine.findings];
  const at = placeOn(section, 0, like);
  const parent = scope.machine(like.name);
  if (parent) used.add(parent);
  if (library.isLikeItself(section)) return [{ facts: { code: 'sequence-cycle', by: 'like', name: like.name }, at }];
  if (parent) return [...machine.findings];
  const near = nearest(like.name, scope.machineNames());
  const facts: Facts = { code: 'unknown-name', kind: 'machine', name: like.name, ...(near && { nearest: near }) };
  return [...machine.findings, { facts, at }];
}

/** In a file without sequences machines stand for others to use; elsewhere somebody should use them. */
function unusedMachines(library: Library, file: string, tree: CrankFile, used: ReadonlySet<MachineSection>): Finding[] {
  if (!tree.sections.some(({ section }) => section.kind === 'sequence')) return [];
  return tree.sections.flatMap(({ section }): Finding[] => {
    if (section.kind !== 'machine' || !section.header || used.has(section)) return [];
    if (library.isUsedElsewhere(file, section)) return [];
    const { name } = section.header;
    return [{ facts: { code: 'unused', kind: 'machine', name: name.name }, at: placeOn(section, 0, name) }];
  });
}
