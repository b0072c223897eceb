/**
 * Operating instructions: what is worked out, on which machine, how to begin, each step in a sentence with what the
 * machine shows where that matters, and what stands there at the end.
 */
import { has, hasSignedWheels, newState, type Profile, RANG, type Register, type State } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { namesIn } from '../sequence/names.js';
import { stateBefore } from '../sequence/rows.js';
import { beginning } from './begin.js';
import { casesPart } from './cases.js';
import { titleOf } from './course.js';
import { expressionText } from './expressions.js';
import { looksAlike } from './figure/alike.js';
import { machineBlock, timeEstimate, usualCautions } from './head.js';
import type { Block, FigureChoice, FigureData, Sheet, SheetStep, Text } from './model.js';
import { formed } from './numbers.js';
import type { SheetOrder } from './order.js';
import { numberText } from './placed.js';
import { stepSentence } from './sentences.js';
import { shownReading } from './shown.js';
import { listed, plainText, tidy } from './spans.js';
import { withStageReadings } from './taken.js';
import type { Reading, Told, ToldStep } from './told.js';
import { type SheetWords, sheetWords } from './wording/index.js';

/**
 * Made for the defaults, of the course of their run; the numbers of the cases stand in a table. The runs must be without
 * an error.
 */
export function operatingSheet({ report, language, figures }: SheetOrder, course: readonly Told[]): Sheet {
  const words = sheetWords(language);
  const { operating } = words;
  const [run] = report.runs;
  const { profile } = run.order;
  const title = titleOf(report.section);
  const machine = profile.title?.trim() || profile.name;
  const heading = (text: string): Block => ({ is: 'heading', level: 2, text: [text] });
  const worked = workedOut(run, words);
  return {
    kind: 'operating',
    language,
    title,
    subtitle: machine,
    foot: machine,
    blocks: [
      { is: 'cautions', title: operating.cautions, items: usualCautions('operating', words) },
      ...(worked.length > 0 ? [heading(operating.workedOut), ...worked] : []),
      heading(operating.machine.heading),
      machineBlock(machine, operating.machine, profile, words),
      heading(operating.beginning),
      { is: 'list', items: beginning(run, words) },
      heading(operating.steps),
      ...stepBlocks(withStageReadings(course, run, 'but the last'), run, figures, words),
      heading(operating.end),
      ...atTheEnd(run, words),
      ...casesPart(report, words),
    ],
  };
}

function workedOut({ order }: CaseRun, words: SheetWords): Block[] {
  const { operating, numbers, steps, parts } = words;
  const values = order.values;
  const named = (name: string): Text => [name];
  const numbered = (name: string): Text => {
    const value = values.get(name);
    return [value ? formed(numberText(value), numbers) : name];
  };
  const given = [...values].map(([name, value]): Text => [`${name} = ${formed(numberText(value), numbers)}`]);
  const goals = order.section.goals.map(({ syntax: { register, expression } }): Block => {
    const inNames = namesIn(expression).length > 0 ? [...expressionText(expression, named, words), ' = '] : [];
    const what = [...inNames, ...expressionText(expression, numbered, words)];
    return { is: 'paragraph', text: tidy(operating.goal(parts.registers[register], what)) };
  });
  const isFor: Block = { is: 'paragraph', text: tidy([operating.given, ...listed(given, steps.and), '.']) };
  return [...goals, ...(given.length > 0 ? [isFor] : [])];
}

/** Steps, and between them what is no step. The run must be without an error. */
export function stepBlocks(course: readonly Told[], run: CaseRun, figures: FigureChoice, words: SheetWords): Block[] {
  const blocks: Block[] = [];
  let steps: SheetStep[] = [];
  const close = () => {
    if (steps.length > 0) blocks.push({ is: 'steps', steps });
    steps = [];
  };
  const drawing = new Drawing(run, figures);
  for (const told of course) {
    if (told.is === 'step') {
      steps.push(sheetStep(told, run.order.profile, drawing.after(told), words));
      continue;
    }
    close();
    if (told.is === 'part') blocks.push({ is: 'heading', level: 3, text: [told.title] });
    else blocks.push({ is: told.is, text: [told.text] });
  }
  close();
  return blocks;
}

function sheetStep(
  { number, text, readings }: ToldStep,
  profile: Profile,
  figure: FigureData | undefined,
  words: SheetWords,
): SheetStep {
  const texts = readings.flatMap((reading) => readingTexts(reading, profile, words));
  return { number, text: tidy(text), ...(texts.length > 0 && { readings: texts }), ...(figure && { figure }) };
}

/** Of more rounds than that, only the first ones and the last are told, if they differ. */
const MOST_ROUNDS_TOLD = 12;

/** What is read, as a sentence; one for each round where rounds differ. */
function readingTexts(reading: Reading, profile: Profile, words: SheetWords): Text[] {
  const { operating } = words;
  const all = reading.states.map((state) => readingText(reading, state, profile, words));
  const named = (text: Text): Text => (reading.label ? [{ strong: reading.label }, ': ', ...text] : text);
  if (all.every((text) => plainText(text) === plainText(all[0]))) return [named(all[0])];
  const timed = all.map((text, i): Text => named([operating.time(i + 1), ...text]));
  if (timed.length <= MOST_ROUNDS_TOLD) return timed;
  const left = timed.length - MOST_ROUNDS_TOLD;
  return [...timed.slice(0, MOST_ROUNDS_TOLD - 1), [operating.moreTimes(left)], ...timed.slice(-1)];
}

function readingText({ of, item }: Reading, state: State, profile: Profile, words: SheetWords): Text {
  if (item) {
    const { from, to } = item;
    return stepSentence({ kind: 'expect', items: [item], from, to }, { before: state, after: state, profile }, words);
  }
  return of.is === 'register' ? registerReads(of.register, state, profile, words) : [];
}

const registerReads = (register: Register, state: State, profile: Profile, words: SheetWords): Text =>
  tidy([words.steps.reads(register, true), ...shownReading(state, profile, register, words), '.']);

/**
 * Which steps are followed by a figure. No two alike stand one after the other; where only stages have one, a carriage that
 * has merely been moved is no reason for another.
 */
class Drawing {
  private last: State | undefined;
  private isRung = false;

  constructor(
    private readonly run: CaseRun,
    private readonly figures: FigureChoice,
  ) {}

  after({ from, to, inRounds, ends }: ToldStep): FigureData | undefined {
    if (this.figures === 'none' || inRounds || to < from) return undefined;
    const { tape, order } = this.run;
    for (let row = from; row <= to; row++) this.isRung ||= has(tape.lookAt(row), RANG);
    if (this.figures === 'stages' && !ends) return undefined;
    const after = tape.stateAt(to);
    if (this.last && looksAlike(this.last, after, { whereverTheCarriage: this.figures === 'stages' })) return undefined;
    const before = this.figures === 'all' ? stateBefore(this.run, from) : (this.last ?? newState());
    const rang = this.isRung;
    this.last = after;
    this.isRung = false;
    return { profile: order.profile, before, after, rang };
  }
}

function atTheEnd(run: CaseRun, words: SheetWords): Block[] {
  const { order, state, goals, effort } = run;
  const { operating, numbers } = words;
  const { profile, section } = order;
  const items: Text[] = goals.map(({ register, goal, met }) => {
    const read = registerReads(register, state, profile, words);
    const isComplement = goal.startsWith('-') && !hasSignedWheels(profile, register);
    const value = formed(goal, numbers);
    const how = met === 'cut off' || met === 'rounded' ? operating.met[met](value) : '';
    return tidy([...read, met === 'exact' && isComplement ? operating.complement(value) : how]);
  });
  if (section.goals.length === 0) {
    const registers = (['counter', 'result'] as const).filter((register) => profile[register] > 0);
    items.push(...registers.map((register) => registerReads(register, state, profile, words)));
  }
  return [
    { is: 'list', items },
    { is: 'paragraph', text: [operating.effort(effort.turns, effort.shifts, effort.levers)] },
    { is: 'paragraph', text: tidy([operating.duration, ...timeEstimate(effort, words), '.']), isFine: true },
  ];
}
