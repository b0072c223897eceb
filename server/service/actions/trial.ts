/**
 * What would become of a section after some edits: it is read, and if wanted run, on trial. Nothing that is known of
 * the document changes.
 */
import type { TextEdit } from 'vscode-languageserver';
import { finish, type Gradual } from '../../../grammar/gradual.js';
import { Parser } from '../../../grammar/sections.js';
import type { Placed, Section, SequenceSection } from '../../../grammar/tree.js';
import { Allowance, checkSequence, type SequenceReport, workOf } from '../../sequence/check.js';
import { CODES, type Finding } from '../../sequence/findings.js';
import type { AnalysedDocument, ParsedDocument } from '../document.js';

/**
 * Lines, steps and turns that trials may take, all those for one question together: somebody is moving the cursor
 * meanwhile.
 */
export class Budget {
  private left = 150_000;

  /** Whether there is enough left; if so, it is spent. */
  spend(work: number): boolean {
    if (work > MOST_WORK || work > this.left) return false;
    this.left -= work;
    return true;
  }
}
/** What a single trial may take. */
const MOST_WORK = 30_000;

/** The sections that a section becomes; edits elsewhere in the document are left aside. */
export function redrafted(document: ParsedDocument, placed: Placed, edits: readonly TextEdit[]): Section[] {
  const { section, line: top } = placed;
  // Prose around fences is blank to the parser, and the marks of a quotation are blanks.
  const lines = section.lines.map(({ text }, i) => (text.trim() === '' ? '' : (document.lines[top + i] ?? '')));
  const end = top + lines.length;
  const own = edits.filter(({ range }) => range.start.line >= top && range.end.line <= end && range.start.line < end);
  own.sort((a, b) => b.range.start.line - a.range.start.line || b.range.start.character - a.range.start.character);
  let text = lines.join('\n');
  const starts = [0];
  for (const line of lines) starts.push(starts[starts.length - 1] + line.length + 1);
  for (const { range, newText } of own) {
    const from = Math.min(text.length, starts[range.start.line - top] + range.start.character);
    const to = range.end.line === end ? starts[lines.length] : starts[range.end.line - top] + range.end.character;
    text = text.slice(0, from) + newText + text.slice(to);
  }
  const written = text.split(/\r\n|\n|\r/);
  const masked = document.isMarkdown ? written.map(withoutMarks) : written;
  return new Parser().parseLines(masked).sections.map((placed) => placed.section);
}

const withoutMarks = (line: string): string => line.replace(/^(?:[ \t]*>)+/, (marks) => ' '.repeat(marks.length));

/** The sequence after the edits with its runs; undefined where that would take too long, or it is no sequence any more. */
export const rerun = (...asked: Parameters<typeof rerunGradually>): readonly SequenceReport[] | undefined =>
  finish(rerunGradually(...asked));

function* rerunGradually(
  document: AnalysedDocument,
  placed: Placed,
  edits: readonly TextEdit[],
  before: SequenceReport,
  budget: Budget,
): Gradual<readonly SequenceReport[] | undefined> {
  const { lines } = placed.section;
  const work = workOf(before);
  if (!budget.spend(work + lines.length)) return undefined;
  const { library, file } = document;
  const scope = library.scope(file);
  const own = redrafted(document, placed, edits).filter((s): s is SequenceSection => s.kind === 'sequence');
  const named = new Map(own.map((section) => [section.header?.name.name ?? '', section]));
  const isOwn = new Set<Section>(own);
  const resolve = (name: string, from: Section): SequenceSection | undefined => {
    const home = library.fileOf(from) ?? file;
    const isHere = isOwn.has(from) || home === file;
    return (isHere ? named.get(name) : undefined) ?? library.scope(home).sequence(name);
  };
  const reports: SequenceReport[] = [];
  for (const section of own) {
    const machine = scope.machineOf(section);
    const profile = machine && library.machine(machine).profile;
    const sequenceNames = () => [...scope.sequenceNames(), ...named.keys()];
    const around = { resolve, sequenceNames, known: [], allowance: new Allowance() };
    reports.push(yield* checkSequence(section, machine, profile, around));
  }
  return reports;
}

/** What a trial shows of a fix for something that was found in a run. */
export type Proof = 'mended' | 'with-new-errors' | 'not-mended' | 'unknown';

export function* prove(
  document: AnalysedDocument,
  placed: Placed,
  edits: readonly TextEdit[],
  finding: Finding,
  before: SequenceReport,
  budget: Budget,
): Gradual<Proof> {
  const after = yield* rerunGradually(document, placed, edits, before, budget);
  if (!after) return 'unknown';
  const old = countsOf(before.findings);
  const now = countsOf(after.flatMap(({ findings }) => findings));
  const { code } = finding.facts;
  if ((now.get(code) ?? 0) >= (old.get(code) ?? 0)) return 'not-mended';
  for (const [other, times] of now) {
    if (CODES[other] === 'error' && times > (old.get(other) ?? 0)) return 'with-new-errors';
  }
  return 'mended';
}

function countsOf(findings: readonly Finding[]): Map<Finding['facts']['code'], number> {
  const counts = new Map<Finding['facts']['code'], number>();
  for (const { facts } of findings) counts.set(facts.code, (counts.get(facts.code) ?? 0) + 1);
  return counts;
}
