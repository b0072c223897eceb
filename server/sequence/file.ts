/** Everything found in a file: in its text, its names, its machines, and the runs of its sequences. */

import type { Gradual } from '../../grammar/gradual.js';
import { nearest } from '../../grammar/nearest.js';
import type {
  CrankFile,
  MachineSection,
  NameSyntax,
  Section,
  SequenceSection,
  UseSection,
} from '../../grammar/tree.js';
import { Allowance, type Spent } from './check.js';
import { looksAround, type SectionReport, WholeReport } from './file-report.js';
import { type Facts, type Finding, placeOn, syntaxFindings } from './findings.js';
import type { Library } from './library.js';
import type { Scope } from './scope.js';
import { resolveUse } from './uses.js';

export { type FileReport, MOST_FINDINGS } from './file-report.js';

/** Told again and again how many sections of a file have been checked. */
export type Watch = (done: number, all: number) => void;

/** Everything found in a file, from its top. */
export function* checkFile(library: Library, file: string, tree: CrankFile, watch?: Watch): Gradual<WholeReport> {
  const scope = library.scope(file);
  const sections: SectionReport[] = [];
  const allowance = new Allowance();
  const used = new Set<MachineSection>();
  const uses = new UseCheck(library, file);
  const names = new NameCheck(scope);
  for (const [i, { section }] of tree.sections.entries()) {
    watch?.(i, tree.sections.length);
    if (i % SECTIONS_BETWEEN_PAUSES === 0) yield;
    const isRepeated = (section.kind === 'machine' || section.kind === 'sequence') && names.isRepeated(section);
    const own = yield* checkSection(library, section, scope, allowance, isRepeated);
    const others = section.kind === 'use' ? uses.check(section) : [];
    const ofMachine = section.kind === 'machine' ? checkMachine(library, section, scope, used) : [];
    const machine = own.sequence?.machine ?? own.bench?.machine;
    if (machine) used.add(machine);
    sections.push({ ...own, findings: [...own.findings, ...others, ...ofMachine] });
  }
  return WholeReport.of(file, withUnused(library, file, sections, used));
}

const SECTIONS_BETWEEN_PAUSES = 500;

/**
 * The same where, since the last time, nothing but the bodies of sequences has changed, here or in other files: in this
 * file those of the sections that are touched, by their number. Returns the very report where nothing has, and nothing
 * where all has to be checked afresh.
 */
export function* recheckFile(
  library: Library,
  file: string,
  tree: CrankFile,
  last: WholeReport,
  touched: ReadonlySet<number>,
): Gradual<WholeReport | undefined> {
  if (tree.sections.length !== last.length) return undefined;
  const scope = library.scope(file);
  const changed = new Map<number, SectionReport>();
  let looked = 0;
  for (const i of new Set([...touched, ...last.lookingAround])) {
    if (++looked % SECTIONS_BETWEEN_PAUSES === 0) yield;
    const { section } = tree.sections[i];
    const before = last.at(i);
    if (section === before.section && !looksAround(before)) continue;
    // What it may spend is seen to below: of the whole file at once.
    const now = yield* checkSection(library, section, scope, new Allowance(), before.isRepeated);
    const isSame = now.sequence === before.sequence && now.bench === before.bench && section === before.section;
    if (!isSame) changed.set(i, now);
  }
  const report = last.with(changed);
  return new Allowance(report.spent).exceeded ? undefined : report;
}

function* checkSection(
  library: Library,
  section: Section,
  scope: Scope,
  allowance: Allowance,
  isRepeated: boolean,
): Gradual<SectionReport> {
  const before = allowance.spent;
  const findings = syntaxFindings(section);
  const name = section.header && 'name' in section.header ? section.header.name : undefined;
  if (isRepeated && name) {
    const kind = section.kind === 'machine' ? 'machine' : 'sequence';
    findings.push({ facts: { code: 'duplicate-name', kind, name: name.name }, at: placeOn(section, 0, name) });
  }
  const spent = (): Spent => {
    const { steps, turns } = allowance.spent;
    return { steps: steps - before.steps, turns: turns - before.turns };
  };
  if (section.kind === 'sequence') {
    const sequence = yield* library.sequence(section, scope, allowance);
    return { section, findings: findings.concat(sequence.findings), sequence, isRepeated, spent: spent() };
  }
  if (section.kind !== 'bench') return { section, findings, isRepeated, spent: spent() };
  const bench = yield* library.bench(section, scope, allowance);
  return { section, findings: findings.concat(bench.findings), bench, isRepeated, spent: spent() };
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

  isRepeated(section: MachineSection | SequenceSection): boolean {
    const name = section.header?.name;
    if (!name) return false;
    const { kind } = section;
    const key = `${kind} ${name.name}`;
    const isRepeated = this.seen.has(key) || this.scope.isElsewhere(kind, name.name);
    this.seen.add(key);
    return isRepeated;
  }
}

/** What is found of a machine's lines, and of the one that it is like, which is then used. */
export function checkMachine(
  library: Library,
  section: MachineSection,
  scope: Scope,
  used: Set<MachineSection>,
): Finding[] {
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
function withUnused(
  library: Library,
  file: string,
  sections: readonly SectionReport[],
  used: ReadonlySet<MachineSection>,
): readonly SectionReport[] {
  if (!sections.some(({ section }) => section.kind === 'sequence')) return sections;
  return sections.map((report) => {
    const { section } = report;
    if (section.kind !== 'machine' || !section.header || used.has(section)) return report;
    if (library.isUsedElsewhere(file, section)) return report;
    const { name } = section.header;
    const facts: Facts = { code: 'unused', kind: 'machine', name: name.name };
    return { ...report, findings: [...report.findings, { facts, at: placeOn(section, 0, name) }] };
  });
}
