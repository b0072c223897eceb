/** A trace as a document: every step as it was carried out, with all that the machine shows; plain text. */
import stringWidth from 'string-width';
import { print } from '../../grammar/printer.js';
import { has, type Profile, RANG, type State } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { type TraceStyle, traceTable } from '../sequence/columns.js';
import type { ReportedFinding } from '../sequence/report.js';
import { type Wanted, wantedFindings, wantedRuns } from '../sequence/trace.js';
import type { AnalysedDocument, Reader } from './document.js';
import { effortText } from './lens.js';
import { onOneLine } from './markdown.js';
import { goalResult, leversOf } from './readings.js';
import type { Words } from './wording/index.js';

/** Rows and findings that a document shows of all its runs together. */
const MOST_ROWS = 20_000;
const MOST_FINDINGS = 1_000;

/**
 * The runs of a sequence, or of all sequences of the document, one below the other; then what was found in them.
 *
 * @param sequence the name of the only one that is wanted
 * @param runCase the number of the only case that is wanted, 0 for the defaults
 */
export function tracedText(
  document: AnalysedDocument,
  sequence: string | undefined,
  runCase: number | undefined,
  reader: Reader,
): string {
  const { library, report } = document;
  const { words, wording } = reader;
  const wanted: Wanted = {
    ...(sequence !== undefined && { sequence }),
    ...(runCase !== undefined && { case: runCase }),
  };
  const runs = wantedRuns(report, wanted);
  const findings = wantedFindings(library, report, wanted, wording);
  const parts: string[][] = [];
  let left = MOST_ROWS;
  for (const run of runs) {
    if (left <= 0) {
      parts.push([words.traced.moreRuns(runs.length - parts.length)]);
      break;
    }
    parts.push(runLines(document, run, left, reader));
    left -= run.tape.length;
  }
  if (runs.length === 0) parts.push([nothingText(document, sequence, words)]);
  if (findings.length > 0) parts.push(findingLines(findings, reader));
  return `${parts.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function nothingText({ report }: AnalysedDocument, sequence: string | undefined, { traced }: Words): string {
  if (sequence === undefined) return traced.nothing;
  const named = report.sequences.find(({ section }) => section.header?.name.name === sequence);
  if (!named) return traced.noSequence(onOneLine(sequence));
  return named.runs.length === 0 ? traced.notRun(sequence) : traced.noCase(sequence);
}

function runLines(document: AnalysedDocument, run: CaseRun, most: number, reader: Reader): string[] {
  const { words } = reader;
  const { section, profile, case: number, values } = run.order;
  const { header } = section;
  const numbers = [...values].map(([name, { text }]) => `${name} = ${text}`).join(', ');
  const inCase = number > 0 ? words.traced.inCase(number) : '';
  const title = onOneLine(header?.title?.value ?? '').trim();
  const heading = [
    header?.name.name ?? '',
    [inCase, numbers].filter(Boolean).join(': '),
    words.traced.on(profile.name),
  ].filter(Boolean);
  const rest = run.tape.length - most;
  return [
    ...(title ? [title] : []),
    heading.join(' · '),
    '',
    ...traceTable(document.library, document.file, run, styleOf(words), most),
    ...(rest > 0 ? [`  ${words.traced.moreSteps(rest)}`] : []),
    '',
    ...section.goals.flatMap(({ syntax }) => goalLine(run, syntax, reader)),
    `  ${effortText(run, words)}`,
  ];
}

const styleOf = (words: Words): TraceStyle => ({
  words: {
    line: words.traced.line,
    step: words.traced.step,
    carriage: words.traced.carriage,
    registers: words.readings.registers,
    out: words.traced.out,
  },
  levers: (state, profile) => engaged(state, profile, words),
  strong: String,
  faint: String,
  safe: onOneLine,
  widthOf,
});

/** Levers and buttons that do not stand as at the start, and the bell. */
const engaged = (state: State, profile: Profile, words: Words): string[] => [
  ...leversOf(profile, words).flatMap(({ bit, on }) => (has(state, bit) ? [on] : [])),
  ...(has(state, RANG) ? [words.readings.bell] : []),
];

/** Most text is plain, and measuring any other takes time. */
const widthOf = (text: string): number => (/^[ -~]*$/.test(text) ? text.length : stringWidth(text));

function goalLine(run: CaseRun, goal: Parameters<typeof goalResult>[1], { words, wording }: Reader): string[] {
  const result = goalResult(run, goal);
  if (!result) return [];
  const verdict = result.met ? words.readings.goal[result.met] : words.traced.missed;
  const reads = words.readings.reads(result.reading);
  return [`  ${onOneLine(print(goal))}: ${wording.shortNumber(result.goal)}, ${reads}, ${verdict}`];
}

function findingLines(findings: readonly ReportedFinding[], { words, wording }: Reader): string[] {
  const lines = findings.slice(0, MOST_FINDINGS).map(({ line, severity, message, code, case: number }) => {
    const told = onOneLine(number ? words.diagnostics.inCase(number, message) : message);
    return `  ${words.traced.onLine(line)}, ${wording.severityText[severity]}: ${told} [${code}]`;
  });
  const rest = findings.length - MOST_FINDINGS;
  return [words.traced.findings, '', ...lines, ...(rest > 0 ? [`  ${words.traced.moreFindings(rest)}`] : [])];
}
