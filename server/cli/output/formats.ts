/** Findings for other programs. */
import { pathToFileURL } from 'node:url';
import type { Log, ReportingDescriptor, Result } from 'sarif';
import { CODES, type Code, type Severity } from '../../sequence/findings.js';
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
