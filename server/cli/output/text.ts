/** Findings for a person at a terminal. */
import type { Severity } from '../../sequence/findings.js';
import type { ReportedFinding } from '../../sequence/report.js';
import { severityText } from '../../sequence/wording/en.js';
import { harmless, paragraph, type Terminal } from '../terminal.js';
import { excerpt, type Source } from './excerpt.js';
import type { Summary } from './summary.js';

/** A finding: where, how grave, what the machine does and what to do, and the line itself. */
export function findingText(
  finding: ReportedFinding,
  source: Source,
  terminal: Pick<Terminal, 'colors' | 'columns'>,
): string {
  const { colors } = terminal;
  const where = colors.bold(`${harmless(finding.file)}:${finding.line}:${finding.column}`);
  const severity = paint(terminal, finding.severity)(severityText[finding.severity]);
  const inCase = finding.case ? ` (case ${finding.case})` : '';
  const related = (finding.related ?? []).map(
    (r) => `    ${colors.dim(`${harmless(r.file)}:${r.line}:${r.column}  ${r.message}`)}\n`,
  );
  const code = colors.dim(`[${finding.code}]`);
  return `${where}  ${severity} ${code}${inCase}\n${paragraph(harmless(finding.message), '  ', terminal)}\n${excerpt(source, finding, terminal)}${related.join('')}`;
}

function paint({ colors }: Pick<Terminal, 'colors'>, severity: Severity): (text: string) => string {
  switch (severity) {
    case 'error':
      return (text) => colors.bold(colors.red(text));
    case 'warning':
      return (text) => colors.bold(colors.yellow(text));
    case 'information':
      return colors.cyan;
    case 'hint':
      return colors.green;
  }
}

/** The last line of a check. */
export function summaryText({ files, sequences, errors, warnings, information, hints }: Summary): string {
  const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;
  if (files === 0) return 'No .crank file was checked, and no Markdown page with a block marked crank.\n';
  const scope = `${count(files, 'file')}, ${count(sequences, 'sequence')}`;
  const found = [
    errors > 0 && count(errors, 'error'),
    warnings > 0 && count(warnings, 'warning'),
    information > 0 && count(information, 'piece of information', 'pieces of information'),
    hints > 0 && count(hints, 'hint'),
  ].filter((part) => part !== false);
  return `${scope}: ${found.length > 0 ? found.join(', ') : 'nothing to remark'}.\n`;
}
