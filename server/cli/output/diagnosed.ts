/** Bench records and what they say of the machine, for a person and for other programs. */
import type { ToldDiagnosis } from '../../proving/told.js';
import { provingWording } from '../../proving/wording/index.js';
import type { BenchReport } from '../../sequence/bench.js';
import { toldOf } from '../../sequence/looks.js';
import { harmless, paragraph, type Terminal, widthOf } from '../terminal.js';

export interface Diagnosed {
  readonly file: string;
  /** Counted from 1. */
  readonly line: number;
  readonly bench: BenchReport;
  readonly told: ToldDiagnosis;
}

/** Faults that are listed of one record, and in one class; the rest is counted. */
const MOST_LISTED = 20;
/** Of so many, each is told in two lines. */
const MOST_EXPLAINED = 5;
const MOST_IN_A_CLASS = 6;

const wording = provingWording('en');

export function diagnosisText({ file, line, bench, told }: Diagnosed, terminal: Terminal): string {
  const { colors } = terminal;
  const { header } = bench.section;
  const title = harmless(header?.title.value ?? '');
  const on = header ? `${header.of.name} on ${header.on.name}` : '';
  const paint = told.verdict === 'pass' ? colors.green : colors.yellow;
  const lines = [
    `${colors.bold(`${harmless(file)}:${line}`)}  ${title}`,
    `  ${colors.dim(on)}`,
    '',
    paint(paragraph(told.summary, '  ', terminal)),
    ...told.remarks.map((remark) => paragraph(harmless(remark), '  ', terminal)),
    ...faultLines(told, terminal),
    ...nextLines(told, terminal),
    '',
  ];
  return `${lines.join('\n')}\n`;
}

function faultLines({ faults }: ToldDiagnosis, terminal: Terminal): string[] {
  const shown = faults.slice(0, MOST_LISTED);
  const rest = faults.length - shown.length;
  return [
    ...(shown.length > 0 ? [''] : []),
    ...shown.flatMap(({ fault, does, look }) => [
      `    ${terminal.colors.bold(fault)}: ${does}`,
      // Of many faults, where to look at each would be a page that nobody reads.
      ...(shown.length <= MOST_EXPLAINED ? [paragraph(`${harmless(look)}.`, '      ', terminal)] : []),
    ]),
    ...(rest > 0 ? [`    ${wording.moreText(rest)}`] : []),
  ];
}

function nextLines({ next }: ToldDiagnosis, terminal: Terminal): string[] {
  if (!next) return [];
  const { text, steps, classes } = next;
  const shown = classes.slice(0, MOST_LISTED);
  const width = shown.reduce((widest, one) => Math.max(widest, widthOf(one.shown)), 0);
  return [
    '',
    paragraph(harmless(text), '  ', terminal),
    ...(steps.length > 0 ? [paragraph(steps.join('; '), '    ', terminal)] : []),
    ...shown.map((one) => {
      const rest = one.faults.length - MOST_IN_A_CLASS;
      const named = one.faults.slice(0, MOST_IN_A_CLASS).join(', ') + (rest > 0 ? ` ${wording.moreText(rest)}` : '');
      return `    ${harmless(one.shown)}${' '.repeat(width - widthOf(one.shown))}  ${terminal.colors.dim(named)}`;
    }),
    ...(classes.length > shown.length ? [`    ${wording.moreText(classes.length - shown.length)}`] : []),
  ];
}

/** Format 1: a key is never given another meaning. */
export function diagnosisJson(diagnosed: readonly Diagnosed[]): string {
  const records = diagnosed.map(({ file, line, bench, told }) => {
    const { header } = bench.section;
    const { verdict, summary, remarks, faults, next } = told;
    return {
      file,
      line,
      title: header?.title.value ?? '',
      sequence: header?.of.name ?? '',
      machine: header?.on.name ?? '',
      verdict,
      summary,
      remarks,
      readings: bench.noted.map(({ line: at, at: number, what, shown, sound }) => ({
        line: line + at.line,
        number: number + 1,
        what,
        found: toldOf(shown),
        sound: toldOf(sound),
      })),
      faults,
      next: next ?? null,
    };
  });
  return `${JSON.stringify({ format: 1, records }, null, 2)}\n`;
}
