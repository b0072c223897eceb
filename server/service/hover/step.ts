/** What the run made of a step: the machine before and after it, readings, and what was found there. */
import { print } from '../../../grammar/printer.js';
import type { ExpectItem, ExpectStep, GoalLine, OnLine, SequenceSection, StepSyntax } from '../../../grammar/tree.js';
import type { CaseRun, SequenceReport } from '../../sequence/check.js';
import { compare } from '../../sequence/expects.js';
import { type Finding, severityOf } from '../../sequence/findings.js';
import { messageOfFinding } from '../../sequence/report.js';
import { rowsOf, type StepRows, stateBefore } from '../../sequence/rows.js';
import { substitute } from '../../sequence/substitute.js';
import type { AnalysedDocument, Reader } from '../document.js';
import { figure } from '../figure.js';
import { canBeRead, happenedBefore } from '../inlay.js';
import { block, code, plain } from '../markdown.js';
import { figurePart } from '../picture.js';
import { goalResult, grouped, positionText, readingText, registersOf, sequenceReport, shownRun } from '../readings.js';

/** Paragraphs on a step of a sequence. */
export function stepParts(
  document: AnalysedDocument,
  section: SequenceSection,
  step: OnLine<StepSyntax>,
  reader: Reader,
): string[] {
  const report = sequenceReport(document, section);
  const run = report && shownRun(report, document, reader);
  return [
    ...proseParts(step.syntax, reader),
    ...(run ? runParts(run, step, reader) : []),
    ...findingParts(document, section, step, report, reader),
  ];
}

function proseParts(syntax: StepSyntax, { words }: Reader): string[] {
  if ((syntax.kind !== 'note' && syntax.kind !== 'caution') || !syntax.text.value.trim()) return [];
  const text = plain(syntax.text.value);
  return [syntax.kind === 'caution' ? `**${words.hover.caution}:** ${text}` : text];
}

function runParts(run: CaseRun, step: OnLine<StepSyntax>, reader: Reader): string[] {
  const { words } = reader;
  const { hover } = words;
  const { values } = run.order;
  const { syntax } = step;
  if (syntax.kind === 'note' || syntax.kind === 'caution') return [];
  const rows = rowsOf(run).of({ line: step.line, from: syntax.from });
  if (!rows) return [hover.notReached];
  const done = substitute(syntax, values);
  const readings = readingParts(run, step, reader);
  return [
    ...(done !== syntax ? [hover.asCarriedOut(code(print(done).replace(/ \{$/, '')))] : []),
    ...caseParts(run, reader),
    ...(readings.length > 0 ? [readings.map((reading) => `- ${reading}`).join('\n')] : []),
    ...openedParts(run, syntax, rows, reader),
    ...figureParts(run, rows, reader),
    ...(rows.times > 1 ? [hover.times(rows.times)] : []),
  ];
}

/** The machine before and after: drawn, with what has become what above it, or in letters and figures. */
function figureParts(run: CaseRun, { first, last, rang }: StepRows, reader: Reader): string[] {
  const { words } = reader;
  const { profile } = run.order;
  const data = { profile, before: stateBefore(run, first), after: run.tape.stateAt(last), rang };
  const drawn = figurePart(data, reader);
  if (drawn === undefined) return [block(figure(data, words))];
  const became = registersOf(profile).flatMap((register) => {
    const [before, after] = [data.before, data.after].map((state) => readingText(state, profile, register));
    return before === after ? [] : [`${words.readings.registers[register]} ${before} → ${after}`];
  });
  return [...(became.length > 0 ? [became.join(' · ')] : []), drawn];
}

/** Which case is shown, where there are several. */
function caseParts({ order }: CaseRun, { words }: Reader): string[] {
  if (order.case === 0) return [];
  const values = [...order.values].map(([name, { text }]) => code(`${name} = ${text}`)).join(words.hover.separator);
  return values ? [words.hover.shownCase(order.case, values)] : [];
}

/** Single steps that are listed of those that a step stands for. */
const MOST_OPENED = 40;

/** The single steps that a `multiply` or `divide` stands for, and the turns of steps that do not tell how many. */
function openedParts(run: CaseRun, syntax: StepSyntax, rows: StepRows, { words }: Reader): string[] {
  const isOpened = syntax.kind === 'multiply' || syntax.kind === 'divide';
  const isSummedUp = isOpened || syntax.kind === 'repeat' || syntax.kind === 'run';
  if (!isSummedUp && !(syntax.kind === 'turn' && syntax.until)) return [];
  const steps: string[] = [];
  for (let row = rows.first; isOpened && row <= rows.last && steps.length < MOST_OPENED; row++) {
    steps.push(print(run.tape.stepAt(row).syntax));
  }
  if (rows.last - rows.first >= MOST_OPENED) steps.push('…');
  const standsFor = isOpened ? [words.hover.standsFor(code(steps.join('; ')))] : [];
  return [...standsFor, words.hover.turns(rows.turns)];
}

/** What is read at an `expect` or `ask`, item by item, against what is expected; nothing for other steps. */
export function readingParts(run: CaseRun, { line, syntax }: OnLine<StepSyntax>, reader: Reader): string[] {
  const rows = rowsOf(run).of({ line, from: syntax.from });
  if (!rows || syntax.kind !== 'expect') return [];
  const step = substitute(syntax, run.order.values) as ExpectStep;
  return step.items.map((item) => expectedText(run, item, rows.last, reader));
}

function expectedText(run: CaseRun, item: ExpectItem, row: number, { words }: Reader): string {
  const { hover, readings } = words;
  const { profile } = run.order;
  const state = run.tape.stateAt(row);
  const isRead = canBeRead(item, run);
  const differs = isRead ? compare(item, state, happenedBefore(run, row), profile) : undefined;
  const mark = !isRead ? '' : differs ? ' ✗' : ' ✓';
  switch (item.kind) {
    case 'register': {
      const wanted = item.figures.kind === 'number' ? item.figures.text : item.figures.name;
      const found = isRead ? readingText(state, profile, item.register) : '–';
      const expected = code((item.negative ? '-' : '') + wanted);
      return hover.expected(readings.registers[item.register], expected, found) + mark;
    }
    case 'carriage': {
      const wanted = item.position.kind === 'number' ? item.position.text : item.position.name;
      const found = differs?.is === 'carriage' ? positionText(differs.reading, words) : code(wanted);
      return hover.expected(hover.carriage, code(wanted), found) + mark;
    }
    default: {
      const what = hover.events[item.kind];
      return (differs ? hover.happensNot(what, readings.missed[item.kind]) : hover.happens(what)) + mark;
    }
  }
}

/** Paragraphs on a goal. */
export function goalParts(
  document: AnalysedDocument,
  section: SequenceSection,
  goal: GoalLine,
  reader: Reader,
): string[] {
  const { words, wording } = reader;
  const report = sequenceReport(document, section);
  const run = report && shownRun(report, document, reader);
  const result = run && goalResult(run, goal);
  const line = section.goals.find(({ syntax }) => syntax === goal)?.line;
  return [
    ...(run ? caseParts(run, reader) : []),
    ...(result
      ? [
          `${words.hover.goal(grouped(wording.shortNumber(result.goal)), grouped(result.reading))}: ${
            result.met ? `${words.hover.met[result.met]} ✓` : `${words.hover.missed} ✗`
          }`,
        ]
      : []),
    ...(line === undefined ? [] : findingParts(document, section, { line, syntax: goal }, report, reader)),
  ];
}

/** What was found at a step, gravest first. */
function findingParts(
  document: AnalysedDocument,
  section: SequenceSection,
  { line, syntax }: OnLine<{ readonly from: number; readonly to: number }>,
  report: SequenceReport | undefined,
  reader: Reader,
): string[] {
  const all = document.report.sections.find((other) => other.section === section)?.findings ?? report?.findings ?? [];
  const here = all.filter(({ at }) => at.line === line && at.from < syntax.to && syntax.from < at.to);
  const grave = ['error', 'warning', 'information', 'hint'] as const;
  return here
    .toSorted((a, b) => grave.indexOf(severityOf(a)) - grave.indexOf(severityOf(b)))
    .map((finding) => findingText(finding, reader));
}

function findingText(finding: Finding, { words, wording }: Reader): string {
  const message = messageOfFinding(finding, wording);
  const told = finding.case ? words.diagnostics.inCase(finding.case, message) : message;
  return `**${wording.severityText[severityOf(finding)]}** – ${plain(told)} ${code(finding.facts.code)}`;
}
