/** Findings as JUnit's XML, which most programs that look after tests can read. */
import junit, { type Builder } from 'junit-report-builder';
import type { Library } from '../../sequence/library.js';
import { inOrder, type ReportedFinding, reportFinding } from '../../sequence/report.js';
import type { FileVerdicts, Verdict } from '../../sequence/verdicts.js';
import { harmless } from '../terminal.js';

/**
 * A file is a suite, a sequence a case; what stands in no sequence is a case of its own. What could not be run is an
 * error, all else that does not pass a failure.
 */
export function toJunit(library: Library, verdicts: ReadonlyMap<string, FileVerdicts>): string {
  // Its types describe a default export that the module itself is.
  const builder = (junit as unknown as Builder).newBuilder();
  for (const [file, { text, sequences }] of verdicts) {
    const suite = builder.testSuite().name(clean(file));
    for (const { name, ...verdict } of [{ name: 'the text itself', ...text }, ...sequences]) {
      const test = suite.testCase().className(clean(file)).name(clean(name)).file(clean(file));
      const told = (findings: Verdict['failures']) =>
        inOrder(findings.map((finding) => reportFinding(library, library.fileOf(finding.at.section) ?? file, finding)));
      const failures = told(verdict.failures);
      const rest = told(verdict.rest);
      // A case has one failure at most: further ones would take the place of the first.
      if (verdict.outcome === 'not-run')
        test.error(headline(failures, file), failures[0]?.code, listed(failures, file));
      else if (verdict.outcome === 'failed') {
        test.failure(headline(failures, file), failures[0].code).stacktrace(listed(failures, file));
      }
      if (rest.length > 0) test.standardOutput(listed(rest, file));
    }
  }
  return `${builder.build()}\n`;
}

function headline([first, ...others]: readonly ReportedFinding[], suite: string): string {
  if (!first) return 'It could not be run.';
  return clean(`${placeOf(first, suite)} ${first.message}${others.length > 0 ? ` (${others.length} more below)` : ''}`);
}

/** What stands in the way may be in another file than that of the suite. */
const placeOf = ({ file, line, column }: ReportedFinding, suite: string): string =>
  `${file === suite ? '' : `${file}:`}${line}:${column}`;

const listed = (findings: readonly ReportedFinding[], suite: string): string =>
  findings.map((f) => clean(`${placeOf(f, suite)} ${f.code}: ${f.message}`)).join('\n');

/** XML has no place for control characters, and what stands between U+FFFE and the next plane. */
const clean = (text: string): string => harmless(text).replace(/[\ufffe\uffff]/g, '\ufffd');
