/** Findings for other programs. */
import { pathToFileURL } from 'node:url';
import junit, { type Builder } from 'junit-report-builder';
import type { Log, ReportingDescriptor, Result } from 'sarif';
import { CODES, type Code, type Severity } from '../../sequence/findings.js';
import { grouped } from '../../sequence/grouped.js';
import type { ReportedFinding } from '../../sequence/report.js';
import { nameOf } from '../../sequence/trace.js';
import { harmless, harmlessJson } from '../terminal.js';
import type { Findings } from './summary.js';

/** Format 1: a key is never given another meaning. */
export function toJson({ reports, findings, summary }: Findings): string {
  const sequences = reports.flatMap(({ file, sequences: checked }) =>
    checked.flatMap(({ runs }) => runs.map((run) => ({ file, ...nameOf(run), effort: run.effort }))),
  );
  return harmlessJson(`${JSON.stringify({ format: 1, findings, sequences, summary }, null, 2)}\n`);
}

/** JUnit's XML: a file is a suite, a sequence a case; what stands in no sequence is a case of its own. */
export function toJunit({ reports, findings }: Findings): string {
  // Its types describe a default export that the module itself is.
  const builder = (junit as unknown as Builder).newBuilder();
  const ofFile = grouped(findings, ({ file }) => file);
  for (const report of reports) {
    const suite = builder.testSuite().name(clean(report.file));
    const ofSequence = grouped(ofFile.get(report.file) ?? [], ({ sequence }) => sequence);
    const names = report.sequences.flatMap(({ section }) => section.header?.name.name ?? []);
    for (const name of [undefined, ...new Set(names)]) {
      const ofCase = ofSequence.get(name) ?? [];
      const test = suite
        .testCase()
        .className(clean(report.file))
        .name(clean(name ?? 'the text itself'))
        .file(clean(report.file));
      const failures = ofCase.filter(({ severity }) => severity === 'error' || severity === 'warning');
      // A case has one failure at most: further ones would take the place of the first.
      if (failures.length > 0) {
        const [{ line, column, message, code }] = failures;
        const others = failures.length > 1 ? ` (${failures.length - 1} more below)` : '';
        test.failure(clean(`${line}:${column} ${message}${others}`), code).stacktrace(listed(failures));
      }
      const rest = ofCase.filter(({ severity }) => severity === 'information' || severity === 'hint');
      if (rest.length > 0) test.standardOutput(listed(rest));
    }
  }
  return `${builder.build()}\n`;
}

const listed = (findings: readonly ReportedFinding[]): string =>
  findings.map((f) => clean(`${f.line}:${f.column} ${f.code}: ${f.message}`)).join('\n');

/** XML has no place for control characters, and what stands between U+FFFE and the next plane. */
const clean = (text: string): string => harmless(text).replace(/[\ufffe\uffff]/g, '\ufffd');

const SARIF_LEVEL: Readonly<Record<Severity, Result.level>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

/** From the working folder where the file lies below it. */
const uriOf = (file: string): string =>
  file.startsWith('/') || /^[A-Za-z]:\//.test(file)
    ? pathToFileURL(file).href
    : file.split('/').map(encodeURIComponent).join('/');

/** SARIF 2.1.0 (OASIS standard). */
export function toSarif({ findings }: Findings, version: string): string {
  const codes = Object.keys(CODES) as Code[];
  const rules: ReportingDescriptor[] = codes.map((id) => ({
    id,
    defaultConfiguration: { level: SARIF_LEVEL[CODES[id]] },
  }));
  const results: Result[] = findings.map((finding) => ({
    ruleId: finding.code,
    ruleIndex: codes.indexOf(finding.code),
    level: SARIF_LEVEL[finding.severity],
    message: { text: finding.message },
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: uriOf(finding.file) },
          region: {
            startLine: finding.line,
            startColumn: finding.column,
            endLine: finding.endLine,
            endColumn: finding.endColumn,
          },
        },
      },
    ],
  }));
  const log: Log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [{ tool: { driver: { name: 'cranknote', version, rules } }, columnKind: 'utf16CodeUnits', results }],
  };
  return harmlessJson(`${JSON.stringify(log, null, 2)}\n`);
}

const COMMAND: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'notice',
  hint: 'notice',
};

/** Workflow commands, which show findings beside the lines of a pull request. */
export function toGithub({ findings }: Findings): string {
  return findings.map(githubLine).join('');
}

function githubLine(f: ReportedFinding): string {
  const data = (text: string) => harmless(text.replace(/%/g, '%25').replace(/\r/g, '%0D').replace(/\n/g, '%0A'));
  const property = (text: string) => data(text).replace(/:/g, '%3A').replace(/,/g, '%2C');
  const at = `file=${property(f.file)},line=${f.line},endLine=${f.endLine},col=${f.column},endColumn=${f.endColumn}`;
  return `::${COMMAND[f.severity]} ${at},title=${property(f.code)}::${data(f.message)}\n`;
}
