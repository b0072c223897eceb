/**
 * What was found in a file. A long file is kept in blocks of sections: where one section has become another, one block
 * has, and whoever made something of the others has it still.
 */
import type { Section } from '../../grammar/tree.js';
import type { BenchReport } from './bench.js';
import type { SequenceReport, Spent } from './check.js';
import { type Finding, type Severity, severityOf } from './findings.js';

/** Findings of one severity that are told of a file; the rest are only counted. */
export const MOST_FINDINGS = 10_000;

/** What was found in one section, and the runs of its sequence. */
export interface SectionReport {
  readonly section: Section;
  readonly findings: readonly Finding[];
  readonly sequence?: SequenceReport;
  readonly bench?: BenchReport;
  /** Its name is that of something else already. */
  readonly isRepeated: boolean;
  readonly spent: Spent;
}

/** It may have to be told anew although it is the same: it runs other sequences, or is a record of one. */
export const looksAround = ({ sequence, bench }: SectionReport): boolean =>
  sequence?.looksAround === true || bench !== undefined;

/** Sections that follow one another: the same object as long as none of them has changed. */
export type Block = readonly SectionReport[];
const SECTIONS_IN_A_BLOCK = 32;

/** What was found in a file, and the runs of its sequences. */
export interface FileReport {
  readonly file: string;
  /** Section by section, in the order of the file. */
  readonly sections: readonly SectionReport[];
  /** The same in blocks. */
  readonly blocks: readonly Block[];
  readonly findings: readonly Finding[];
  /** Findings beyond those that are told. */
  readonly untold: number;
  readonly sequences: readonly SequenceReport[];
}

/** The report on all of a file, which another can be made from when some of its sections have changed. */
export class WholeReport implements FileReport {
  private allSections: readonly SectionReport[] | undefined;
  private told: Told | undefined;
  private runs: SequenceReport[] | undefined;

  private constructor(
    readonly file: string,
    readonly blocks: readonly Block[],
    /** How many sections there are. */
    readonly length: number,
    /** What the runs of all of them took. */
    readonly spent: Spent,
    /** The numbers of the sections that may change when they themselves do not. */
    readonly lookingAround: ReadonlySet<number>,
  ) {}

  static of(file: string, sections: readonly SectionReport[]): WholeReport {
    const blocks: Block[] = [];
    for (let from = 0; from < sections.length; from += SECTIONS_IN_A_BLOCK) {
      blocks.push(sections.slice(from, from + SECTIONS_IN_A_BLOCK));
    }
    const lookingAround = new Set<number>();
    let steps = 0;
    let turns = 0;
    for (const [i, report] of sections.entries()) {
      if (looksAround(report)) lookingAround.add(i);
      steps += report.spent.steps;
      turns += report.spent.turns;
    }
    return new WholeReport(file, blocks, sections.length, { steps, turns }, lookingAround);
  }

  /** With other reports on some sections, by their number; itself if there are none. */
  with(changed: ReadonlyMap<number, SectionReport>): WholeReport {
    if (changed.size === 0) return this;
    const blocks: SectionReport[][] = this.blocks.slice() as SectionReport[][];
    const lookingAround = new Set(this.lookingAround);
    let { steps, turns } = this.spent;
    for (const [i, now] of changed) {
      const before = this.at(i);
      const block = Math.floor(i / SECTIONS_IN_A_BLOCK);
      if (blocks[block] === this.blocks[block]) blocks[block] = blocks[block].slice();
      blocks[block][i % SECTIONS_IN_A_BLOCK] = now;
      if (looksAround(now)) lookingAround.add(i);
      else lookingAround.delete(i);
      steps += now.spent.steps - before.spent.steps;
      turns += now.spent.turns - before.spent.turns;
    }
    return new WholeReport(this.file, blocks, this.length, { steps, turns }, lookingAround);
  }

  /** The report on a section, by its number in the file from 0. */
  at(i: number): SectionReport {
    return this.blocks[Math.floor(i / SECTIONS_IN_A_BLOCK)][i % SECTIONS_IN_A_BLOCK];
  }

  get sections(): readonly SectionReport[] {
    this.allSections ??= this.blocks.flat();
    return this.allSections;
  }

  get findings(): readonly Finding[] {
    return this.all.told;
  }

  get untold(): number {
    return this.all.untold;
  }

  get sequences(): readonly SequenceReport[] {
    this.runs ??= this.sections.flatMap(({ sequence }) => sequence ?? []);
    return this.runs;
  }

  private get all(): Told {
    if (!this.told) {
      this.told = new Told();
      for (const { findings } of this.sections) this.told.add(findings);
    }
    return this.told;
  }
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
