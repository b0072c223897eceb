/** Findings as the protocol's diagnostics. */
import {
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
  DiagnosticTag,
} from 'vscode-languageserver';
import { MOST_FINDINGS, type SectionReport } from '../sequence/file.js';
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

/** What was told of a section that has neither changed nor moved is told again as the same objects. */
interface Told {
  readonly line: number;
  readonly wording: Wording;
  readonly options: DiagnosticOptions;
  readonly diagnostics: readonly Diagnostic[];
}
const toldBefore = new WeakMap<SectionReport, Told>();

/** Everything found in a document, section by section, in each by its lines. */
export function diagnosticsOf(document: AnalysedDocument, reader: Reader, options: DiagnosticOptions): Diagnostic[] {
  const problem = document.library.problemOf(document.file);
  if (problem) return [unreadable(document, reader, problem)];
  const { sections } = document.report;
  const { tree } = document;
  const told: (readonly Diagnostic[])[] = [];
  for (let i = 0; i < sections.length; i++) {
    if (sections[i].findings.length === 0) continue;
    told.push(ofSection(document, sections[i], tree.sections[i].line, reader, options));
  }
  const all = told.flat();
  return all.length > MOST_FINDINGS ? limited(document, reader, options) : all;
}

function ofSection(
  document: AnalysedDocument,
  report: SectionReport,
  line: number,
  reader: Reader,
  options: DiagnosticOptions,
): readonly Diagnostic[] {
  const known = toldBefore.get(report);
  if (known && known.line === line && known.wording === reader.wording && known.options === options) {
    return known.diagnostics;
  }
  const diagnostics = report.findings.map((finding) => diagnosticOf(document, finding, line, reader, options));
  diagnostics.sort(
    (a, b) => a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character,
  );
  // What points into another section may have to point elsewhere the next time.
  const isOwn = report.findings.every(({ related }) => !related?.some(({ at }) => at.section !== report.section));
  if (isOwn) toldBefore.set(report, { line, wording: reader.wording, options, diagnostics });
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

function unreadable(document: AnalysedDocument, { wording }: Reader, why: FileProblem): Diagnostic {
  const path = document.file.split('/').at(-1) ?? document.file;
  const message = wording.messageOf({ code: 'file-not-found', path, why });
  const start = { line: 0, character: 0 };
  const range = { start, end: { line: 0, character: 1 } };
  return { range, severity: DiagnosticSeverity.Error, code: 'file-not-found', source: 'cranknote', message };
}
