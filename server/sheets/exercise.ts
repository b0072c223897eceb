/**
 * The exercise sheet for a class: the machine, what is given and wanted, the steps, and lines to write readings on.
 *
 * The key has the same pages, filled in; both are made here.
 *
 * Invariant: nothing on an exercise sheet depends on a reading. Texts of the author's that hold one are left out, lines
 * to write on are as long as the register has places, and no figure of the machine is printed.
 */
import type { Expression, SequenceSection } from '../../grammar/tree.js';
import { type Profile, REGISTERS, type Register } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { readingOf } from '../sequence/hands.js';
import { Answers } from './answers.js';
import { type Names, Sentences } from './exercise-sentences.js';
import { type Done, doneIn, type ExerciseStep, exerciseSteps, MOST_STEPS } from './exercise-steps.js';
import { expressionText } from './expressions.js';
import { machineBlock, usualCautions } from './head.js';
import type { Block, Column, Sheet, SheetStep, Text } from './model.js';
import { formed } from './numbers.js';
import type { SheetOrder } from './order.js';
import { numberText } from './placed.js';
import { readingSpan } from './shown.js';
import { listed, tidy } from './spans.js';
import { type SheetWords, sheetWords } from './wording/index.js';

export function exerciseSheet(order: SheetOrder): Sheet {
  const pages = new ExercisePages(order);
  const { fields } = pages.words.exercise;
  const toFill = [fields.name, fields.date, fields.class].map((label) => ({ label }));
  return { ...pages.frame('exercise'), blocks: [{ is: 'fields', fields: toFill }, ...pages.blocks('exercise')] };
}

/** Lines to write on, for one exercise. */
const MOST_ASKED = 60;
/** Room on the page for a table, and what its columns take, in millimetres. */
const WIDTH = 165;
const FIGURE = 4.5;
const PRINTED_FIGURE = 2.2;
const BETWEEN = 6;

/** A register that is to be written down. */
interface Asked {
  readonly step: ExerciseStep | undefined;
  readonly number: string;
  readonly round: number;
  readonly register: Register;
  readonly reading: string;
}

/** One exercise: a run and what was carried out of the steps in it. */
interface Exercise {
  readonly run: CaseRun;
  readonly done: readonly Done[];
  readonly asked: readonly Asked[];
  readonly asksForMore: boolean;
}

export class ExercisePages {
  readonly words: SheetWords;
  readonly exercises: readonly Exercise[];
  /** Registers that are read at the end because no step asks for any. */
  readonly atEnd: readonly Register[];
  private readonly section: SequenceSection;
  private readonly profile: Profile;
  private readonly steps: readonly ExerciseStep[];
  /** The number of the step in which they are read. */
  private readonly lastNumber: string;
  private readonly answers: Answers;
  private readonly names: Names;
  private readonly sentences: Sentences;

  constructor(private readonly order: SheetOrder) {
    const { runs, section } = order.report;
    this.words = sheetWords(order.language);
    this.section = section;
    this.profile = runs[0].order.profile;
    this.steps = exerciseSteps(runs[0]);
    this.lastNumber = String(this.steps.filter(({ number }) => number !== '').length + 1);
    this.atEnd = asks(this.steps, this.profile) ? [] : registersAtEnd(section, this.profile);
    this.answers = new Answers(runs, registersAtEnd(section, this.profile));
    this.names = this.parameterNames();
    this.exercises = runs.map((run) => this.exercise(run));
    this.sentences = new Sentences(this.exercises, this.profile, this.names, this.words);
  }
  /** Everything of a sheet but its blocks. */
  frame(kind: 'exercise' | 'key'): Omit<Sheet, 'blocks'> {
    const { header } = this.section;
    const title = this.untelling(header?.title?.value, header?.name.name, this.words.exercise.untitled);
    const machine = this.untelling(this.profile.title, this.profile.name);
    return {
      kind,
      language: this.order.language,
      title,
      ...(machine !== '' && { subtitle: machine }),
      foot: machine || title,
    };
  }

  /** The pages themselves: with lines to write on, or with the readings on them. */
  blocks(kind: 'exercise' | 'key'): Block[] {
    const { exercise } = this.words;
    const heading = (text: string): Block => ({ is: 'heading', level: 2, text: [text] });
    return [
      { is: 'cautions', title: exercise.cautions[kind], items: usualCautions(kind, this.words) },
      heading(exercise.machine.heading),
      machineBlock(this.untelling(this.profile.title, this.profile.name), exercise.machine, this.profile, this.words),
      heading(exercise.task),
      ...this.task().map((text): Block => ({ is: 'paragraph', text })),
      heading(exercise.steps),
      ...this.stepBlocks(kind),
      ...(this.isWrittenInSteps ? [] : [heading(exercise.exercises), ...this.exerciseBlocks(kind)]),
    ];
  }

  /** A single exercise, each reading taken once: the lines stand where they are asked for. */
  private get isWrittenInSteps(): boolean {
    const [first, ...more] = this.exercises;
    return more.length === 0 && !first.asksForMore && first.asked.every(({ round }) => round === 0);
  }

  /** Parameters and their numbers in one exercise: `pots = 45`. */
  givenIn({ run }: Exercise): Text {
    const items = [...this.names].map(
      ([name, shown]): Text => [{ strong: shown }, ' = ', { strong: this.valueOf(run, name) }],
    );
    return listed(items, ', ');
  }

  private valueOf({ order }: CaseRun, name: string): string {
    const value = order.values.get(name);
    return value ? formed(numberText(value), this.words.numbers) : '';
  }

  /** The first of these texts that gives no answer away. */
  private untelling(...texts: readonly (string | undefined)[]): string {
    return texts.map((text) => text?.trim() ?? '').find((text) => text !== '' && !this.answers.areToldBy(text)) ?? '';
  }

  /** Parameters as they are called on the sheet: their hyphens are those of the notation. */
  private parameterNames(): Names {
    const names = new Map<string, string>();
    for (const { name } of this.section.header?.parameters ?? []) {
      const letter = String.fromCharCode(65 + (names.size % 26)).repeat(1 + Math.floor(names.size / 26));
      if (names.has(name.name)) continue;
      names.set(name.name, this.untelling(name.name.replace(/(?<=\p{L})-(?=\p{L})/gu, ' '), letter));
    }
    return names;
  }

  private exercise(run: CaseRun): Exercise {
    const done = doneIn(this.steps, run);
    const { profile } = run.order;
    const asked: Asked[] = [];
    const repeated = new Set<ExerciseStep>();
    const seen = new Set<ExerciseStep>();
    for (const { step } of done) (seen.has(step) ? repeated : seen).add(step);
    for (const { step, from, round } of done) {
      if (step.syntax.kind !== 'ask') continue;
      const state = run.tape.stateAt(from);
      for (const register of shownRegisters(step, profile)) {
        const reading = readingOf(state, profile, register);
        asked.push({ step, number: step.number, round: repeated.has(step) ? round : 0, register, reading });
      }
    }
    if (!run.brokeOff) {
      for (const register of this.atEnd) {
        const reading = readingOf(run.state, profile, register);
        asked.push({ step: undefined, number: this.lastNumber, round: 0, register, reading });
      }
    }
    return { run, done, asked: asked.slice(0, MOST_ASKED), asksForMore: asked.length > MOST_ASKED };
  }

  // --- what is given and wanted -----------------------------------------------------------------------------------

  private task(): Text[] {
    const { exercise } = this.words;
    const [first] = this.exercises;
    const names = listed(
      [...this.names.values()].map((name): Text => [{ strong: name }]),
      exercise.and,
    );
    const given =
      this.names.size === 0
        ? []
        : this.exercises.length > 1
          ? exercise.givenBelow(names)
          : exercise.given(this.givenIn(first));
    const wanted = this.section.goals.flatMap(({ syntax }): Text[] => {
      if (this.profile[syntax.register] === 0) return [];
      const named = (name: string): Text => [{ strong: this.names.get(name) ?? name }];
      const what = expressionText(syntax.expression, named, this.words);
      return this.isTold(syntax.expression, true) ? [] : [exercise.wanted(what, syntax.register)];
    });
    const registers = REGISTERS.filter((register) => first.asked.some((asked) => asked.register === register));
    const named = listed(
      registers.map((register): Text => [exercise.the(register)]),
      exercise.and,
    );
    if (wanted.length === 0 && registers.length > 0) wanted.push(exercise.wantedReadings(named, registers.length));
    const sets = this.exercises.some(({ done }) => done.some(({ step }) => step.syntax.kind === 'set'));
    return [...(given.length > 0 ? [given] : []), ...wanted, ...(sets ? [[exercise.zeros]] : [])].map(tidy);
  }

  /** Whether an expression has an answer written in it, or, as a whole, is nothing but one. */
  private isTold(expression: Expression, isWhole: boolean): boolean {
    switch (expression.kind) {
      case 'number':
        return isWhole || this.answers.areToldBy(numberText(expression));
      case 'name':
        return false;
      case 'binary':
        return this.isTold(expression.left, false) || this.isTold(expression.right, false);
      case 'sqrt':
        return this.isTold(expression.of, false);
      default:
        return this.isTold(expression.of, isWhole);
    }
  }

  // --- the steps ---------------------------------------------------------------------------------------------------

  private stepBlocks(kind: 'exercise' | 'key'): Block[] {
    const blocks: Block[] = [];
    let steps: SheetStep[] = [];
    const close = () => {
      if (steps.length > 0) blocks.push({ is: 'steps', steps });
      steps = [];
    };
    const add = (all: readonly ExerciseStep[]) => {
      for (const step of all) {
        const { syntax } = step;
        if (syntax.kind === 'note' || syntax.kind === 'caution') {
          const text = this.untelling(syntax.text.value);
          if (text === '') continue;
          close();
          blocks.push({ is: syntax.kind, text: [text] });
        } else if (step.number !== '') {
          steps.push({ number: step.number, text: this.sentences.of(step), ...this.linesAt(step, kind) });
          if (step.parts) add(step.parts);
        }
      }
    };
    add(this.steps);
    if (this.atEnd.length > 0) {
      const { steps: said } = this.words;
      const text = said.ask(
        listed(
          this.atEnd.map((register): Text => [said.the(register)]),
          said.and,
        ),
      );
      steps.push({ number: this.lastNumber, text: tidy(text), ...this.linesAt(undefined, kind) });
    }
    close();
    if (countAll(this.steps) >= MOST_STEPS) blocks.push({ is: 'paragraph', text: [this.words.exercise.cutOff] });
    return blocks;
  }

  /** Where there is but one exercise, the readings are written down beside their step. */
  private linesAt(step: ExerciseStep | undefined, kind: 'exercise' | 'key'): Pick<SheetStep, 'readings'> {
    if (!this.isWrittenInSteps || (step && step.syntax.kind !== 'ask')) return {};
    const asked = this.exercises[0].asked.filter((one) => one.step === step);
    if (asked.length === 0) return {};
    return {
      readings: asked.map((one): Text => [`${this.words.parts.registers[one.register]} `, ...this.line(one, kind)]),
    };
  }

  /** A line to write on, or what is to be written on it. */
  private line(asked: Asked, kind: 'exercise' | 'key'): Text {
    if (kind === 'key') return readingSpan(asked.reading, this.words);
    return [{ blank: this.profile[asked.register], label: this.words.parts.registers[asked.register] }];
  }

  // --- several exercises -------------------------------------------------------------------------------------------

  private exerciseBlocks(kind: 'exercise' | 'key'): Block[] {
    const { exercise } = this.words;
    const more: Block[] = this.exercises.some(({ asksForMore }) => asksForMore)
      ? [{ is: 'paragraph', text: [exercise.more] }]
      : [];
    const columns = this.columns();
    if (columns) {
      const rows = this.exercises.map(({ run, asked }, i) => [
        [String(i + 1)],
        ...[...this.names.keys()].map((name): Text => [this.valueOf(run, name)]),
        ...asked.map((one) => this.line(one, kind)),
      ]);
      return [{ is: 'table', caption: kind === 'key' ? exercise.filled : exercise.table, columns, rows }, ...more];
    }
    return [...this.exercises.flatMap((one, i) => this.apart(one, i, kind)), ...more];
  }

  /** The columns of a table of all exercises, if they ask for the same and there is room for it. */
  private columns(): Column[] | undefined {
    const [first, ...others] = this.exercises;
    const keyOf = ({ asked }: Exercise): string =>
      asked.map(({ number, round, register }) => `${number} ${round} ${register}`).join();
    if (first.asked.length === 0 || others.some((other) => keyOf(other) !== keyOf(first))) return undefined;
    const widest = (name: string): number =>
      Math.max(name.length, ...this.exercises.map(({ run }) => this.valueOf(run, name).length));
    const given = [...this.names].map(
      ([name, shown]) => Math.max(shown.length, widest(name)) * PRINTED_FIGURE + BETWEEN,
    );
    const toWrite = first.asked.map(({ register }) => this.profile[register] * FIGURE + BETWEEN);
    const taken = [...given, ...toWrite].reduce((sum, width) => sum + width, 0);
    if (taken + this.words.exercise.number.length * PRINTED_FIGURE > WIDTH) return undefined;
    return [
      { head: this.words.exercise.number },
      ...[...this.names.values()].map((head): Column => ({ head, isFigures: true })),
      ...first.asked.map((asked): Column => ({ head: this.label(asked, first), isFigures: true })),
    ];
  }

  /** A register, and the step in which it is read where that is not the only time. */
  private label({ register, number, round }: Asked, { asked }: Exercise): string {
    const name = this.words.parts.registers[register];
    const isOnly = asked.filter((one) => one.register === register).length === 1;
    return isOnly ? name : this.words.exercise.label(name, number, round);
  }

  private apart(one: Exercise, i: number, kind: 'exercise' | 'key'): Block[] {
    const { exercise } = this.words;
    const title: Block[] =
      this.exercises.length > 1 ? [{ is: 'heading', level: 3, text: [exercise.numbered(i + 1)] }] : [];
    const given: Block[] =
      this.names.size > 0 && this.exercises.length > 1 ? [{ is: 'paragraph', text: this.givenIn(one) }] : [];
    const items = one.asked.map((asked): Text => [`${this.label(asked, one)}: `, ...this.line(asked, kind)]);
    return [...title, ...given, ...(items.length > 0 ? [{ is: 'list', items } as const] : [])];
  }
}

const shownRegisters = ({ syntax }: ExerciseStep, profile: Profile): Register[] =>
  syntax.kind === 'ask' ? syntax.items.map(({ register }) => register).filter((register) => profile[register] > 0) : [];

const asks = (steps: readonly ExerciseStep[], profile: Profile): boolean =>
  steps.some(
    (step) => shownRegisters(step, profile).length > 0 || (step.parts !== undefined && asks(step.parts, profile)),
  );

const countAll = (steps: readonly ExerciseStep[]): number =>
  steps.reduce((count, { parts }) => count + 1 + (parts ? countAll(parts) : 0), 0);

/** The goals' registers; the result where there is no goal. */
function registersAtEnd({ goals }: SequenceSection, profile: Profile): readonly Register[] {
  const wanted = new Set<Register>(goals.map(({ syntax }) => syntax.register));
  const there = REGISTERS.filter((register) => wanted.has(register) && profile[register] > 0);
  return there.length > 0 ? there : ['result'];
}
