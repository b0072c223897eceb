/**
 * A step that holds others or stands for others, written as its single steps.
 *
 * Invariant: the machine goes through the very states that it went through before.
 */
import type { TextEdit } from 'vscode-languageserver';
import { joinItems, print } from '../../../grammar/printer.js';
import type {
  Argument,
  DivideStep,
  ExpectItem,
  LineItem,
  MultiplyStep,
  RunStep,
  SequenceSection,
  Step,
  StepSyntax,
} from '../../../grammar/tree.js';
import { TURNS } from '../../machine/index.js';
import type { CaseRun } from '../../sequence/check.js';
import type { CODES } from '../../sequence/findings.js';
import { allSteps } from '../../sequence/names.js';
import { wholeOf } from '../../sequence/readings.js';
import { argumentsOf, substitute, type Values } from '../../sequence/substitute.js';
import { INDENT, indentOf } from './edits.js';
import type { Scene } from './scene.js';

/** Lines that one step may become. */
export const MOST_LINES = 2_000;
const MOST_ROUNDS = 999;

/** What comes of a rewriting: its edits, or why it can't be done. */
export type Outcome = { readonly edits: readonly TextEdit[] } | { readonly disabled: string };

/** Undefined where the step is a single one already, or can't be read. */
export function openOut(scene: Scene): Outcome | undefined {
  const { step, words } = scene;
  switch (step?.syntax.kind) {
    case 'multiply':
      return openSum(scene, step as Step<MultiplyStep>, step.syntax.by);
    case 'divide':
      return openSum(scene, step as Step<DivideStep>, step.syntax.downTo);
    case 'run':
      return openRun(scene, step as Step<RunStep>);
    case 'repeat': {
      const { count } = step.syntax;
      if (count.kind === 'name') return { disabled: words.disabled.parameter(count.name) };
      const rounds = wholeOf(count);
      if (rounds === undefined || rounds < 1 || rounds > MOST_ROUNDS) return { disabled: words.disabled.notRun };
      return openRepeat(scene, step, rounds);
    }
    default:
      return undefined;
  }
}

/** The turns and shifts of a `multiply` or `divide`, if they are the same however often it is carried out. */
function openSum(scene: Scene, step: Step<MultiplyStep | DivideStep>, number: Argument | undefined): Outcome {
  const { report, draft, words } = scene;
  const { disabled } = words;
  if (number?.kind === 'name') return { disabled: disabled.parameter(number.name) };
  if (!report || report.runs.length === 0) return { disabled: disabled.notRun };
  const isRefused = report.findings.some(
    ({ facts, at }) => at.line === step.line && at.from === step.syntax.from && REFUSALS.has(facts.code),
  );
  if (isRefused) return { disabled: disabled.notRun };
  const ways = new Set<string>();
  for (const run of report.runs) for (const way of waysOf(run, step, number)) ways.add(way.join('\n'));
  const [way] = ways;
  if (way === undefined) return { disabled: disabled.notRun };
  if (ways.size > 1) return { disabled: disabled.differs };
  const steps = way === '' ? [] : way.split('\n');
  return { edits: [draft.instead(step, steps)] };
}

/** Why such a step is not carried out, or not to its end, at least once. */
const REFUSALS: ReadonlySet<string> = new Set<keyof typeof CODES>([
  'carriage-end',
  'carriage-parked',
  'too-many-decimals',
  'wrong-arguments',
  'not-on-this-machine',
  'never-overdraws',
  'never-stops',
  'too-long',
]);

/** The steps that it was opened out into, each time that it was carried out. */
function waysOf({ order, tape }: CaseRun, { line, syntax }: Step, to: Argument | undefined): string[][] {
  const ways = new Map<number, string[]>();
  for (const { id, isOpened, section, step } of tape.frames) {
    const isThis = isOpened && section === order.section && step?.line === line && step.syntax.from === syntax.from;
    if (isThis) ways.set(id, []);
  }
  if (ways.size === 0) return [];
  // Automatic division stops by itself in position 1 alone.
  const stopsEarly = syntax.kind === 'divide' && to?.kind === 'number' && wholeOf(to) !== 1;
  for (let row = 0; row < tape.length; row++) {
    const made = tape.stepAt(row).syntax;
    const way = tape.stepAt(row).line === line ? ways.get(tape.frameAt(row).id) : undefined;
    if (!way) continue;
    const isAutomatic = made.kind === 'turn' && made.until === 'stop';
    way.push(isAutomatic && stopsEarly ? `turn ${tape.stateAt(row)[TURNS]}` : print(made));
  }
  return [...ways.values()];
}

/** The steps of another sequence, with the numbers that it is given. */
function openRun({ document, section, draft, report, words }: Scene, step: Step<RunStep>): Outcome {
  const { library, file } = document;
  const { disabled } = words;
  const { name, args } = step.syntax;
  const here = library.scope(file);
  const other = here.sequence(name.name);
  const parameters = other?.header?.parameters ?? [];
  const isCycle = report?.findings.some(({ facts, at }) => facts.code === 'sequence-cycle' && at.line === step.line);
  if (!other || other === section || isCycle || args.length > parameters.length) return { disabled: disabled.notRun };
  const values = new Map<string, Argument>();
  for (const [i, parameter] of parameters.entries()) values.set(parameter.name.name, args[i] ?? parameter.value);
  const own = new Set(section.header?.parameters.map((parameter) => parameter.name.name));
  const there = library.scope(library.fileOf(other) ?? file);
  for (const { syntax } of allSteps(other.steps)) {
    if (syntax.kind === 'run' && here.sequence(syntax.name.name) !== there.sequence(syntax.name.name)) {
      return { disabled: disabled.otherName(syntax.name.name) };
    }
    for (const one of argumentsOf(syntax)) {
      if (one.kind === 'name' && !values.has(one.name) && own.has(one.name)) {
        return { disabled: disabled.otherName(one.name) };
      }
    }
  }
  const labels = labelsIn(section);
  // A parameter of this sequence may stand where a number may.
  const written = (syntax: StepSyntax) => printed(substitute(syntax, values as Values), (label) => !labels.has(label));
  const isAlone = draft.isFirst(step) && draft.isLast(step);
  const lines = stepLines(other.steps, written, isAlone ? INDENT : '');
  if (lines.length > MOST_LINES) return { disabled: disabled.tooMany(lines.length, MOST_LINES) };
  return { edits: [draft.instead(step, lines)] };
}

/** Steps one by one, those between braces further in. */
export function stepLines(steps: readonly Step[], write: (syntax: StepSyntax) => string, indent: string): string[] {
  const lines: string[] = [];
  const walk = (inner: readonly Step[], margin: string) => {
    for (const { syntax, body } of inner) {
      lines.push(margin + write(syntax));
      if (!body) continue;
      walk(body, margin + indent);
      lines.push(`${margin}}`);
    }
  };
  walk(steps, '');
  return lines;
}

export const labelsIn = (section: SequenceSection): Set<string> => {
  const items = [...allSteps(section.steps)].flatMap(({ syntax }) => (syntax.kind === 'expect' ? syntax.items : []));
  return new Set(items.flatMap(({ label }) => label?.name ?? []));
};

/** An item as the notation writes it, without the labels that are not to stay: a label counts once in a sequence. */
function printed(item: LineItem, keeps: (label: string) => boolean = () => false): string {
  if (item.kind !== 'expect' || !item.items.some(({ label }) => label && !keeps(label.name))) return print(item);
  const items = item.items.map((reading): ExpectItem => {
    if (!reading.label || keeps(reading.label.name)) return reading;
    const { label: _, ...rest } = reading;
    return rest;
  });
  return print({ ...item, items });
}

/** The body so many times. What is written beside it stays with the first time. */
function openRepeat(
  { section, draft, placed, document, words }: Scene,
  step: Step,
  rounds: number,
): Outcome | undefined {
  const { close, body = [] } = step;
  if (!close) return undefined;
  const within = section.lines.slice(step.line, close.line + 1);
  const isReadable = within.every(({ errors, items }) => errors.length === 0 && !items.some(isGoalOrCase));
  if (!isReadable) return undefined;
  if (draft.hasProse(step.line, close.line)) return { disabled: words.disabled.prose };
  const isAlone = draft.isFirst(step) && draft.isLast(close);
  const single = stepLines(body, printed, isAlone ? INDENT : '');
  const count = single.length * rounds;
  if (count > MOST_LINES) return { disabled: words.disabled.tooMany(count, MOST_LINES) };
  const head = { line: step.line, syntax: { from: step.syntax.from, to: braceOf(draft.text(step.line), step) } };
  const isSpread = isAlone && draft.isLast(head) && draft.isFirst(close) && close.line > step.line;
  const hasComments = within.some(({ comment }, i) => comment && (isSpread || i < within.length - 1));
  if (hasComments && !isSpread) return undefined;
  const first = isSpread ? withComments(section, step.line, close.line) : stepLines(body, print, isAlone ? INDENT : '');
  const all = [...first, ...Array.from({ length: rounds - 1 }, () => single).flat()];
  const { line: top } = placed;
  if (close.line === step.line) {
    return {
      edits: [draft.instead({ line: step.line, syntax: { from: step.syntax.from, to: close.syntax.to } }, all)],
    };
  }
  const end = isSpread ? section.lines[close.line].text.length : close.syntax.to;
  const range = {
    start: { line: top + step.line, character: step.syntax.from },
    end: { line: top + close.line, character: end },
  };
  const margin = draft.margin(step.line);
  const lines = isAlone ? all : [joinItems(all)];
  const text = lines.map((line, i) => (i === 0 ? line : line === '' ? margin.trimEnd() : margin + line));
  return { edits: [{ range, newText: text.join(document.eol) }] };
}

/** Just behind the brace that opens a `repeat`: its step ends before. */
const braceOf = (text: string, { syntax }: Step): number => text.indexOf('{', syntax.to) + 1;

const isGoalOrCase = ({ kind }: LineItem): boolean => kind === 'goal' || kind === 'case';

/** The lines between two braces as they are written, one level further out, with the comments beside the braces. */
function withComments({ lines }: SequenceSection, open: number, close: number): string[] {
  const base = indentOf(lines[open].text);
  const inner = lines.slice(open + 1, close).map(({ text }) => {
    if (text.trim() === '') return '';
    const further = Math.max(0, indentOf(text) - base - INDENT.length);
    return ' '.repeat(further) + text.trim();
  });
  const beside = (line: number) => (lines[line].comment ? [lines[line].comment.text] : []);
  return [...beside(open), ...inner, ...beside(close)];
}
