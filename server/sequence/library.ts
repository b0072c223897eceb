/**
 * The files that are known together: their names, machines and sequences.
 *
 * Invariant: only what an edit touches is done again. A machine is built once for its section, a sequence is run again
 * only if its own section, its machine or a sequence that it runs has become another object.
 */

import { finish, type Gradual } from '../../grammar/gradual.js';
import type { Inset } from '../../grammar/insets.js';
import { readPage } from '../../grammar/markdown.js';
import { nearest } from '../../grammar/nearest.js';
import { type LineEdit, Parser, splitLines, type TreeEdit } from '../../grammar/sections.js';
import type { BenchSection, CrankFile, MachineSection, Section, SequenceSection } from '../../grammar/tree.js';
import type { Profile } from '../machine/index.js';
import { type BenchReport, bindBench } from './bench.js';
import { type Allowance, checkSequence, type SequenceReport, valuesOf } from './check.js';
import { checkFile, recheckFile, type Watch } from './file.js';
import type { WholeReport } from './file-report.js';
import { type FileProblem, type Finding, placeOn } from './findings.js';
import { buildMachine, type Machine } from './profiles.js';
import { type Run, runGradually } from './run.js';
import { type Declarations, declarationsOf, Scope } from './scope.js';
import { resolveUse } from './uses.js';

/** A file may be this long, in characters. */
export const LONGEST_FILE = 16 * 1024 * 1024;

interface Known {
  readonly tree: CrankFile;
  /** Of a Markdown page; missing where it has none. */
  readonly insets?: readonly Inset[];
  /** Why it can't be read, if it can't. */
  readonly problem?: FileProblem;
}

/** What was last found in a file. */
interface Checked {
  readonly report: WholeReport;
  /** How often `forget` had been called. */
  readonly age: number;
  /** Sections that have been edited since, by their number. */
  readonly touched: Set<number>;
}

/** A record with what it rested on. */
interface KnownBench {
  readonly checked: SequenceReport | undefined;
  readonly machine: MachineSection | undefined;
  readonly profile: Profile | undefined;
  readonly report: BenchReport;
}

export const isMarkdown = (file: string): boolean => /\.(?:md|markdown)$/i.test(file);

export class Library {
  private readonly parser = new Parser();
  private readonly files = new Map<string, Known>();
  private readonly declared = new WeakMap<CrankFile, Declarations>();
  private readonly uses = new WeakMap<CrankFile, readonly string[]>();
  private readonly lines = new WeakMap<CrankFile, Map<Section, number>>();
  private readonly homes = new WeakMap<Section, string>();
  private readonly machines = new WeakMap<MachineSection, { parent: Machine | undefined; machine: Machine }>();
  /** Known until a file changes: machines, those that are like themselves, and what can be seen from where. */
  private readonly built = new Map<MachineSection, Machine>();
  private readonly circles = new Set<MachineSection>();
  private readonly scopes = new Map<string, Scope>();
  private readonly reports = new WeakMap<SequenceSection, SequenceReport>();
  private readonly benches = new WeakMap<BenchSection, KnownBench>();
  private readonly checks = new Map<string, Checked>();
  private age = 0;

  /** Takes in a file's text, or the newer state of it. */
  set(file: string, text: string): void {
    finish(this.setGradually(file, text));
  }

  /** The same, with pauses in which the caller may give up: then the file is as it was. */
  *setGradually(file: string, text: string): Gradual<void> {
    if (text.length > LONGEST_FILE) return this.setProblem(file, 'too-large');
    const earlier = this.files.get(file)?.tree;
    const page = isMarkdown(file) ? readPage(text) : { lines: splitLines(text.replace(/^\ufeff/, '')), insets: [] };
    const tree = yield* this.parser.parseGradually(page.lines, earlier);
    this.files.set(file, { tree, ...(page.insets.length > 0 && { insets: page.insets }) });
    this.forget();
    for (const { section } of tree.sections) this.homes.set(section, file);
  }

  /**
   * Some lines of a file that is known, and no Markdown, have become others. While only the bodies of sequences change,
   * all that rests on names and machines stays as it is.
   */
  edit(file: string, change: LineEdit): void {
    const known = this.files.get(file);
    if (!known || known.problem || isMarkdown(file)) throw new Error(`${file} can't be edited line by line`);
    const edit = this.parser.edit(known.tree, change);
    this.files.set(file, { tree: edit.tree });
    for (const { section } of edit.added) this.homes.set(section, file);
    if (!isInBodies(edit)) return this.forget();
    this.carryOver(known.tree, edit, change.lines.length === change.to - change.from);
    const touched = this.checks.get(file)?.touched;
    for (let i = 0; i < edit.added.length; i++) touched?.add(edit.at + i);
  }

  /** What is known of a tree is still true of the next: other sections of the same names took the place of some. */
  private carryOver(earlier: CrankFile, { tree, removed, added }: TreeEdit, isInPlace: boolean): void {
    const declared = this.declared.get(earlier);
    const uses = this.uses.get(earlier);
    const lines = isInPlace ? this.lines.get(earlier) : undefined;
    for (const [i, { section, line }] of added.entries()) {
      const before = removed[i].section;
      lines?.delete(before);
      lines?.set(section, line);
      const name = section.kind === 'sequence' ? section.header?.name.name : undefined;
      if (declared && name !== undefined && declared.sequences.get(name) === before) {
        declared.sequences.set(name, section as SequenceSection);
      }
    }
    if (declared) this.declared.set(tree, declared);
    if (uses) this.uses.set(tree, uses);
    if (lines) this.lines.set(tree, lines);
  }

  /** A file that is known not to be readable. */
  setProblem(file: string, problem: FileProblem): void {
    this.files.set(file, { tree: { sections: [], lineCount: 0 }, problem });
    this.forget();
  }

  remove(file: string): void {
    this.files.delete(file);
    this.checks.delete(file);
    this.forget();
  }

  private forget(): void {
    this.age++;
    this.scopes.clear();
    this.built.clear();
    this.circles.clear();
  }

  /** Every file that is known, in the order in which they came to be known. */
  fileNames(): string[] {
    return [...this.files.keys()];
  }

  has(file: string): boolean {
    return this.files.has(file);
  }

  tree(file: string): CrankFile | undefined {
    return this.files.get(file)?.tree;
  }

  /** The insets of a Markdown page, from its top. */
  insets(file: string): readonly Inset[] {
    return this.files.get(file)?.insets ?? [];
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

  /** The files that a file names itself, known or not. */
  usedBy(file: string): readonly string[] {
    const tree = this.files.get(file)?.tree;
    if (!tree) return [];
    let used = this.uses.get(tree);
    if (!used) {
      used = tree.sections.flatMap(({ section }) => {
        if (section.kind !== 'use' || !section.header) return [];
        const target = resolveUse(file, section.header.path.value);
        return 'file' in target ? [target.file] : [];
      });
      this.uses.set(tree, used);
    }
    return used;
  }

  /** What a file declares itself; nothing, if it is not known. */
  declarations(file: string): Declarations {
    const tree = this.files.get(file)?.tree ?? EMPTY;
    let found = this.declared.get(tree);
    if (!found) {
      found = declarationsOf(tree);
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

  /** A machine with all that it takes over by `like`. */
  machine(section: MachineSection): Machine {
    const chain: MachineSection[] = [];
    let parent: Machine | undefined;
    for (let next: MachineSection | undefined = section; next; next = this.likeOf(next)) {
      const built = this.built.get(next);
      if (built) {
        parent = built;
        break;
      }
      const from = chain.indexOf(next);
      if (from >= 0) {
        for (const member of chain.slice(from)) this.circles.add(member);
        break;
      }
      chain.push(next);
    }
    for (const own of chain.reverse()) {
      parent = this.build(own, parent);
      this.built.set(own, parent);
    }
    return this.built.get(section) as Machine;
  }

  /** The same object as long as its lines and those that it takes over are the same. */
  private build(section: MachineSection, parent: Machine | undefined): Machine {
    const known = this.machines.get(section);
    if (known && known.parent === parent) return known.machine;
    const machine = buildMachine(section, parent);
    this.machines.set(section, { parent, machine });
    return machine;
  }

  private likeOf(section: MachineSection): MachineSection | undefined {
    const like = section.header?.like;
    return like && this.scopeOf(section).machine(like.name);
  }

  /** Whether a machine is, by way of others, like itself. */
  isLikeItself(section: MachineSection): boolean {
    this.machine(section);
    return this.circles.has(section);
  }

  private scopeOf(section: Section): Scope {
    return this.scope(this.homes.get(section) ?? '');
  }

  /** Everything found in a file. Work is done afresh only where something has changed since the last time. */
  check(file: string, watch?: Watch): WholeReport {
    return finish(this.checkGradually(file, watch));
  }

  /** The same, with pauses in which the caller may give up. It has to, if anything in the library changes meanwhile. */
  *checkGradually(file: string, watch?: Watch): Gradual<WholeReport> {
    const { age } = this;
    const tree = this.files.get(file)?.tree ?? EMPTY;
    const last = this.checks.get(file);
    const again = last?.age === age ? yield* recheckFile(this, file, tree, last.report, last.touched) : undefined;
    const report = again ?? (yield* checkFile(this, file, tree, watch));
    if (age === this.age && tree === this.files.get(file)?.tree) {
      this.checks.set(file, { report, age, touched: new Set() });
    }
    return report;
  }

  /** Why a file can't be read, if it can't. */
  problemOf(file: string): FileProblem | undefined {
    const known = this.files.get(file);
    return known ? known.problem : 'missing';
  }

  /** Whether a sequence or a machine of another file builds on this machine. */
  isUsedElsewhere(file: string, machine: MachineSection): boolean {
    for (const [other, { tree }] of this.files) {
      if (other === file || !this.reachable(other).includes(file)) continue;
      const scope = this.scope(other);
      const uses = tree.sections.some(({ section }) => {
        if (section.kind === 'sequence') return scope.machineOf(section) === machine;
        return section.kind === 'machine' && this.likeOf(section) === machine;
      });
      if (uses) return true;
    }
    return false;
  }

  /** A bench record bound to its script; the earlier report as long as nothing that it rests on has changed. */
  *bench(section: BenchSection, scope: Scope, allowance: Allowance): Gradual<BenchReport> {
    const { header } = section;
    const script = header && scope.sequence(header.of.name);
    const machine = header && scope.machine(header.on.name);
    const home = script && this.scopeOf(script);
    const checked = script && home && (yield* this.sequence(script, home, allowance));
    const profile = machine && this.machine(machine).profile;
    const known = this.benches.get(section);
    const isSame = known && known.checked === checked && known.profile === profile && known.machine === machine;
    if (isSame && !known.report.findings.some(({ facts }) => facts.code === 'unknown-name')) return known.report;
    const run = checked && profile ? yield* this.soundRun(checked, profile, allowance) : undefined;
    const report = bindBench(section, {
      ...(script && { script }),
      ...(machine && { machine }),
      ...(run && { run }),
      sequenceNames: () => scope.sequenceNames(),
      machineNames: () => scope.machineNames(),
    });
    this.benches.set(section, { checked, machine, profile, report });
    return report;
  }

  /** A script with its defaults on the machine of a record, which need not be the one that it is written for. */
  private *soundRun(checked: SequenceReport, profile: Profile, allowance: Allowance): Gradual<Run | undefined> {
    const [own] = checked.runs;
    if (own && checked.profile === profile) return own;
    if (allowance.exceeded) return undefined;
    const { section } = checked;
    const [values] = valuesOf(section);
    const resolve = (name: string, from: Section) => this.scopeOf(from).sequence(name);
    const done = yield* runGradually({ section, profile, values, case: 0, resolve });
    allowance.spendOn(done);
    return done;
  }

  /** A sequence with its runs; the earlier report as long as nothing that it rests on has changed. */
  *sequence(section: SequenceSection, scope: Scope, allowance: Allowance): Gradual<SequenceReport> {
    const machineSection = scope.machineOf(section);
    const machine = machineSection && this.machine(machineSection);
    const resolve = (name: string, from: Section) => this.scopeOf(from).sequence(name);
    const known = this.reports.get(section);
    const isSame =
      known && known.profile === machine?.profile && known.machine === machineSection && known.holds(resolve);
    if (isSame && allowance.spendAgain(known.runs)) return known;
    const unnamed = machineFindings(section, scope);
    const report = yield* checkSequence(section, machineSection, machine?.profile, {
      resolve,
      sequenceNames: () => scope.sequenceNames(),
      known: unnamed,
      allowance,
    });
    this.reports.set(section, report);
    return report;
  }
}

const EMPTY: CrankFile = { sections: [], lineCount: 0 };

/** Whether an edit left every name, machine and `use` as it was. */
const isInBodies = ({ removed, added }: TreeEdit): boolean =>
  removed.length === added.length &&
  added.every(({ section }, i) => {
    const before = removed[i].section;
    if (section === before) return true;
    if (section.kind !== before.kind || section.kind === 'machine' || section.kind === 'use') return false;
    return section.kind === 'preamble' || section.lines[0] === before.lines[0];
  });

function machineFindings(section: SequenceSection, scope: Scope): Finding[] {
  const { header } = section;
  if (!header || scope.machineOf(section)) return [];
  const { on } = header;
  const base = { at: placeOn(section, 0, on ?? header.name), sequence: header.name.name };
  if (!on) return [{ ...base, facts: { code: 'no-machine', visible: scope.machineNames().length } }];
  const near = nearest(on.name, scope.machineNames());
  return [{ ...base, facts: { code: 'unknown-name', kind: 'machine', name: on.name, ...(near && { nearest: near }) } }];
}
