/** Findings for other programs. */
import junit, { type Builder } from 'junit-report-builder';
import type { Log, ReportingDescriptor, Result } from 'sarif';
import { CODES, type Code, type Severity } from '../../sequence/findings.js';
import type { ReportedFinding } from '../../sequence/report.js';
import type { Checked } from './summary.js';

/** Format 1: a key is never given another meaning. */
export const toJson = ({ findings, summary }: Checked): string =>
  `${JSON.stringify({ format: 1, findings, summary }, null, 2)}\n`;

/** JUnit's XML: a file is a suite, a sequence a case; what stands in no sequence is a case of its own. */
export function toJunit({ reports, findings }: Checked): string {
  // Its types describe a default export that the module itself is.
  const builder = (junit as unknown as Builder).newBuilder();
  for (const report of reports) {
    const suite = builder.testSuite().name(clean(report.file));
    const own = findings.filter(({ file }) => file === report.file);
    const names = report.sequences.flatMap(({ section }) => section.header?.name.name ?? []);
    for (const name of [undefined, ...new Set(names)]) {
      const ofCase = own.filter(({ sequence }) => sequence === name);
      const test = suite
        .testCase()
        .className(clean(report.file))
        .name(clean(name ?? 'the text itself'))
        .file(clean(report.file));
      const failures = ofCase.filter(({ severity }) => severity === 'error' || severity === 'warning');
      for (const f of failures) test.failure(clean(`${f.line}:${f.column} ${f.message}`), f.code);
      const rest = ofCase.filter((f) => !failures.includes(f));
      if (rest.length > 0)
        test.standardOutput(clean(rest.map((f) => `${f.line}:${f.column} ${f.code}: ${f.message}`).join('\n')));
    }
  }
  return `${builder.build()}\n`;
}

/** XML has no place for control characters. */
const clean = (text: string): string =>
  text.replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd');

const SARIF_LEVEL: Readonly<Record<Severity, Result.level>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

/** SARIF 2.1.0 (OASIS standard). */
export function toSarif({ findings }: Checked, version: string): string {
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
          artifactLocation: { uri: encodeURI(finding.file) },
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
  return `${JSON.stringify(log, null, 2)}\n`;
}

const COMMAND: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'notice',
  hint: 'notice',
};

/** Workflow commands, which show findings beside the lines of a pull request. */
export function toGithub({ findings }: Checked): string {
  return findings.map(githubLine).join('');
}

function githubLine(f: ReportedFinding): string {
  const data = (text: string) => text.replace(/%/g, '%25').replace(/\r/g, '%0D').replace(/\n/g, '%0A');
  const property = (text: string) => data(text).replace(/:/g, '%3A').replace(/,/g, '%2C');
  const at = `file=${property(f.file)},line=${f.line},endLine=${f.endLine},col=${f.column},endColumn=${f.endColumn}`;
  return `::${COMMAND[f.severity]} ${at},title=${property(f.code)}::${data(f.message)}\n`;
}
