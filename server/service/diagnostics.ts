/** Findings as the protocol's diagnostics. */
import {
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
  DiagnosticTag,
} from 'vscode-languageserver';
import { type Block, MOST_FINDINGS, type SectionReport } from '../sequence/file-report.js';
import { type FileProblem, type Finding, type Severity, severityOf } from '../sequence/findings.js';
import { messageOfFinding } from '../sequence/report.js';
import type { Wording } from '../sequence/wording/index.js';
import type { AnalysedDocument, Reader } from './document.js';
import { locationOf, rangeOn } from './spots.js';

/** What a client can do with diagnostics. */
export interface DiagnosticOptions {
  readonly related: boolean;
  readonly tags: boolean;
  readonly links: boolean;
  /** Where the page of a finding is; `{code}` stands for its code. Missing where there are no pages. */
  readonly pages?: string | undefined;
}

const SEVERITY: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** What was told of a section, or of a block of them, is told again as the same objects while it stays where it is. */
interface Told {
  readonly line: number;
  readonly wording: Wording;
  readonly options: DiagnosticOptions;
  readonly diagnostics: readonly Diagnostic[];
}
const toldBefore = new WeakMap<SectionReport | Block, Told>();

/** Everything found in a document, section by section, in each by its lines. */
export function diagnosticsOf(document: AnalysedDocument, reader: Reader, options: DiagnosticOptions): Diagnostic[] {
  const problem = document.library.problemOf(document.file);
  if (problem) return [unreadable(document, reader, problem)];
  const told: (readonly Diagnostic[])[] = [];
  let count = 0;
  let first = 0;
  for (const block of document.report.blocks) {
    const diagnostics = ofBlock(document, block, first, reader, options);
    first += block.length;
    count += diagnostics.length;
    if (diagnostics.length > 0) told.push(diagnostics);
  }
  if (count > MOST_FINDINGS) return limited(document, reader, options);
  // Many times as quick as `flat`; there are no more of them than may be told.
  return ([] as Diagnostic[]).concat(...told);
}

function ofBlock(
  document: AnalysedDocument,
  block: Block,
  first: number,
  reader: Reader,
  options: DiagnosticOptions,
): readonly Diagnostic[] {
  const placed = document.tree.sections;
  // Where the first of the same sections has stayed, all have.
  return toldOnce(block, placed[first].line, reader, options, () => {
    const diagnostics: Diagnostic[] = [];
    for (const [i, report] of block.entries()) {
      if (report.findings.length === 0) continue;
      for (const one of ofSection(document, report, placed[first + i].line, reader, options)) diagnostics.push(one);
    }
    return { diagnostics, isOwn: block.every(isOwn) };
  });
}

function ofSection(
  document: AnalysedDocument,
  report: SectionReport,
  line: number,
  reader: Reader,
  options: DiagnosticOptions,
): readonly Diagnostic[] {
  return toldOnce(report, line, reader, options, () => {
    const diagnostics = report.findings.map((finding) => diagnosticOf(document, finding, line, reader, options));
    diagnostics.sort(
      (a, b) => a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character,
    );
    return { diagnostics, isOwn: isOwn(report) };
  });
}

/** What points into another section may have to point elsewhere the next time. */
const isOwn = ({ section, findings }: SectionReport): boolean =>
  findings.every(({ related }) => !related?.some(({ at }) => at.section !== section));

function toldOnce(
  what: SectionReport | Block,
  line: number,
  { wording }: Reader,
  options: DiagnosticOptions,
  tell: () => { readonly diagnostics: readonly Diagnostic[]; readonly isOwn: boolean },
): readonly Diagnostic[] {
  const known = toldBefore.get(what);
  if (known && known.line === line && known.wording === wording && known.options === options) return known.diagnostics;
  const { diagnostics, isOwn } = tell();
  if (isOwn) toldBefore.set(what, { line, wording, options, diagnostics });
  return diagnostics;
}

function diagnosticOf(
  document: AnalysedDocument,
  finding: Finding,
  sectionLine: number,
  { wording, words }: Reader,
  options: DiagnosticOptions,
): Diagnostic {
  const { facts, at, related } = finding;
  const message = messageOfFinding(finding, wording);
  const range = rangeOn(sectionLine + at.line, at);
  if (at.from === at.to) range.end.character++;
  return {
    range,
    severity: SEVERITY[severityOf(finding)],
    code: facts.code,
    source: 'cranknote',
    message: finding.case ? words.diagnostics.inCase(finding.case, message) : message,
    ...(options.links && options.pages && { codeDescription: { href: options.pages.replace('{code}', facts.code) } }),
    ...(options.tags && facts.code === 'unused' && { tags: [DiagnosticTag.Unnecessary] }),
    ...(options.related &&
      related && {
        relatedInformation: related.map(
          ({ at: other, why }): DiagnosticRelatedInformation => ({
            location: locationOf(document, other),
            message: wording.relatedText[why],
          }),
        ),
      }),
  };
}

/** Of each severity up to the limit, and a last word on how many there are besides. */
function limited(document: AnalysedDocument, reader: Reader, options: DiagnosticOptions): Diagnostic[] {
  const { report, library } = document;
  const lineOf = ({ at }: Finding) => library.lineOf(at.section);
  const all = report.findings.map((finding) => diagnosticOf(document, finding, lineOf(finding), reader, options));
  all.sort((a, b) => a.range.start.line - b.range.start.line);
  const last = all.at(-1);
  if (last && report.untold > 0) {
    const message = reader.wording.messageOf({ code: 'too-long', what: 'findings', limit: report.untold });
    all.push({ range: last.range, severity: DiagnosticSeverity.Error, code: 'too-long', source: 'cranknote', message });
  }
  return all;
}

/** Why a file can't be read, in the reader's language. */
export const unreadableText = (file: string, why: FileProblem, { wording }: Reader): string =>
  wording.messageOf({ code: 'file-not-found', path: file.split('/').at(-1) ?? file, why });

function unreadable(document: AnalysedDocument, reader: Reader, why: FileProblem): Diagnostic {
  const message = unreadableText(document.file, why, reader);
  const start = { line: 0, character: 0 };
  const range = { start, end: { line: 0, character: 1 } };
  return { range, severity: DiagnosticSeverity.Error, code: 'file-not-found', source: 'cranknote', message };
}
