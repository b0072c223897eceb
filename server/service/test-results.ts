/**
 * What passes of a document and what does not, as `check` has it: an error is a failure, at the `expect` or `goal` that is
 * not met, or wherever it was found.
 */
import type { Range } from 'vscode-languageserver';
import type { Gradual } from '../../grammar/gradual.js';
import type { ExpectItem, ExpectStep, NumberSyntax } from '../../grammar/tree.js';
import type { Differs, Finding, Place } from '../sequence/findings.js';
import type { Library } from '../sequence/library.js';
import { messageOfFinding } from '../sequence/report.js';
import { type Outcome, type Verdict, verdictsOn } from '../sequence/verdicts.js';
import { sealOf } from '../weave/seal.js';
import { unreadableText } from './diagnostics.js';
import type { AnalysedDocument, Reader } from './document.js';
import { numberOf } from './numbered.js';
import { locationOf, locationOn } from './spots.js';
import { caseId, type Named, sequencesIn } from './tests.js';
import type { Words } from './wording/index.js';

/** By which the text itself is asked for: all that stands in no sequence. */
export const TEXT_ID = '';

export interface TestMessage {
  readonly message: string;
  readonly uri: string;
  readonly range: Range;
  /** Where something was to be read, and what is read there. */
  readonly expected?: string;
  readonly actual?: string;
  /** Other places that explain it. */
  readonly related?: readonly { readonly message: string; readonly uri: string; readonly range: Range }[];
}

export interface TestResult {
  readonly id: string;
  readonly outcome: Outcome;
  readonly messages: readonly TestMessage[];
  /** The same as long as nothing has changed that it rests on. */
  readonly resultId: string;
}

export interface ResultsAsked {
  readonly uri: string;
  /** The tests that are wanted; those of cases where a sequence has some. All where nothing is said. */
  readonly ids?: readonly string[];
  /** What is known already, by the tests' names: it is left out of the answer if it is still the same. */
  readonly known?: Readonly<Record<string, string>>;
}

export interface ResultsTold {
  readonly results: readonly TestResult[];
}

/** What a client asks for; a text says what is wrong with it, to whoever wrote the client. */
export function resultsAsked(sent: unknown): ResultsAsked | string {
  const at = (typeof sent === 'object' && sent !== null ? sent : {}) as Readonly<Record<string, unknown>>;
  const { uri, ids, known } = at;
  if (typeof uri !== 'string') return 'A document is needed: uri.';
  if (ids !== undefined && !(Array.isArray(ids) && ids.every((id) => typeof id === 'string')))
    return 'ids are the names of tests.';
  if (known !== undefined && (typeof known !== 'object' || known === null)) return 'known are results by their tests.';
  return {
    uri,
    ...(ids !== undefined && { ids }),
    ...(known !== undefined && { known: known as Readonly<Record<string, string>> }),
  };
}

/** Messages of one test; what is wrong in more places than that is seen in the file. */
const MOST_MESSAGES = 100;

/** The results that are asked for. The runs are those of the document's report: nothing is run again. */
export function* resultsGradually(
  document: AnalysedDocument,
  { ids, known = {} }: ResultsAsked,
  reader: Reader,
): Gradual<ResultsTold> {
  const unread = unreadResults(document.library, document.file, document.uri, reader);
  if (unread) return unread;
  const wanted = ids && new Set(ids);
  const isWanted = (...names: string[]) => !wanted || names.some((name) => wanted.has(name));
  const results: TestResult[] = [];
  const tell = (id: string, outcome: Outcome, messages: readonly TestMessage[], rests: string) => {
    const resultId = `${rests} ${outcome} ${messages.length === 0 ? '' : sealOf(JSON.stringify(messages))}`;
    if (!Object.hasOwn(known, id) || known[id] !== resultId) results.push({ id, outcome, messages, resultId });
  };
  const { text, sequences } = verdictsOn(document.library, document.report, 'error');
  if (isWanted(TEXT_ID)) tell(TEXT_ID, text.outcome, messagesOf(document, text, reader), '');
  const named = new Map(sequencesIn(document).map((one) => [one.placed.section, one]));
  for (const { report, cases } of sequences) {
    const own = named.get(report.section);
    if (!own) continue;
    for (const [number, verdict] of cases.entries()) {
      yield;
      const id = caseId(own, number);
      if (!isWanted(id, own.id)) continue;
      const messages = messagesOf(document, verdict, reader);
      if (verdict.outcome === 'not-run' && messages.length === 0) messages.push(notReached(document, own, reader));
      tell(id, verdict.outcome, messages, `${numberOf(report)}`);
    }
  }
  return { results };
}

/** The result where a file can't be read at all; undefined where there is no such file, and so no test. */
export function unreadResults(library: Library, file: string, uri: string, reader: Reader): ResultsTold | undefined {
  const problem = library.has(file) ? library.problemOf(file) : undefined;
  if (!problem || problem === 'missing' || problem === 'outside') return undefined;
  const start = { line: 0, character: 0 };
  const message = { message: unreadableText(file, problem, reader), uri, range: { start, end: start } };
  return { results: [{ id: TEXT_ID, outcome: 'not-run', messages: [message], resultId: problem }] };
}

/** What is said of a verdict's failures, from the top of the file. */
function messagesOf(document: AnalysedDocument, { failures }: Verdict, reader: Reader): TestMessage[] {
  return failures
    .slice(0, MOST_MESSAGES)
    .map((finding) => messageOf(document, finding, reader))
    .sort(({ range: { start: a } }, { range: { start: b } }) => a.line - b.line || a.character - b.character);
}

function messageOf(document: AnalysedDocument, finding: Finding, reader: Reader): TestMessage {
  const { facts, at, related } = finding;
  const { wording, words } = reader;
  const base = { message: messageOfFinding(finding, wording), ...locationOf(document, at) };
  const explained = related?.map(({ at: other, why }) => ({
    message: wording.relatedText[why],
    ...locationOf(document, other),
  }));
  const all = { ...base, ...(explained && { related: explained }) };
  if (facts.code === 'goal-missed' && facts.why.is === 'differs') {
    const { goal, reading } = facts.why;
    return { ...all, expected: goal, actual: reading };
  }
  if (facts.code !== 'reading-differs') return all;
  const { differs } = facts;
  const item = itemAt(at, differs);
  return { ...all, ...(item && locationOf(document, { ...at, ...spanOf(item) })), ...readings(differs, words) };
}

/** What was to be read, and what is read. */
function readings(differs: Differs, { readings: words }: Words): Pick<TestMessage, 'expected' | 'actual'> {
  switch (differs.is) {
    case 'register': {
      const name = words.registers[differs.register];
      return { expected: `${name} ${differs.expected}`, actual: `${name} ${differs.reading}` };
    }
    case 'carriage': {
      const { expected, reading } = differs;
      return {
        expected: words.position(Number(expected)),
        actual: reading === 0 ? words.outOfGear : words.position(reading),
      };
    }
    default:
      return { expected: words.expected[differs.is], actual: words.missed[differs.is] };
  }
}

/** Which of the items of an `expect` is the one that differs; where another sequence has it, there is none here. */
function itemAt({ section, line, from, to }: Place, differs: Differs): ExpectItem | undefined {
  const isIt = (item: { readonly kind: string; readonly from: number; readonly to: number }): item is ExpectStep =>
    item.kind === 'expect' && item.from === from && item.to === to;
  return section.lines[line]?.items.find(isIt)?.items.find((item) => {
    if (item.kind !== 'register' || differs.is !== 'register') return item.kind === differs.is;
    const isNumber = item.figures.kind === 'number';
    const written = isNumber ? `${item.negative ? '-' : ''}${(item.figures as NumberSyntax).text}` : differs.expected;
    return item.register === differs.register && written === differs.expected;
  });
}

const spanOf = ({ from, to }: ExpectItem) => ({ from, to });

/** It stands behind others that take all that a file may take. */
const notReached = (document: AnalysedDocument, { name, placed }: Named, { words }: Reader): TestMessage => ({
  message: words.tests.notReached,
  ...locationOn(document, placed.section, 0, name),
});
