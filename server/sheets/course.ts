/**
 * The course of the work as it is told: numbered steps in sentences, parts of steps, what stands between them, and the
 * readings where somebody takes them. Operating instructions and bench sheets are both made of it.
 *
 * Invariant: what is told once of a `repeat` holds in each of its rounds; where rounds differ, each is told.
 */
import type { StepSyntax } from '../../grammar/tree.js';
import type { Profile } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { stateBefore } from '../sequence/rows.js';
import type { Text } from './model.js';
import { StepNumbers } from './numbering.js';
import { type Nested, type Node, outlineOf, type Single } from './outline.js';
import { sameInAll } from './rounds.js';
import { repeatEnd, stepSentence } from './sentences.js';
import { isLook, isProse, type StageEnd, stageEnds } from './stages.js';
import { isSame, readingsIn } from './taken.js';
import type { Told, ToldStep } from './told.js';
import type { SheetWords } from './wording/index.js';

/** The course of a run that went to its end without an error, with the readings that the sequence itself takes. */
export const courseOf = (run: CaseRun, words: SheetWords): readonly Told[] =>
  new Teller(run, words).tell(outlineOf(run), new StepNumbers('', 0), { inRounds: false, isTop: true });

/** A title for people: the name stands in where there is none. */
export const titleOf = ({ header }: CaseRun['order']['section']): string =>
  header?.title?.value.trim() || (header?.name.name ?? '');

interface Where {
  readonly inRounds: boolean;
  /** Not below a numbered step: there may be headings. */
  readonly isTop: boolean;
}

class Teller {
  private readonly ends: ReadonlyMap<number, StageEnd>;
  private readonly profile: Profile;

  constructor(
    private readonly run: CaseRun,
    private readonly words: SheetWords,
  ) {
    this.ends = stageEnds(run);
    this.profile = run.order.profile;
  }

  tell(nodes: readonly Node[], numbers: StepNumbers, where: Where, section = this.run.order.section): Told[] {
    const told: Told[] = [];
    let isAfterPart = false;
    for (const node of nodes) {
      if (node.is === 'single' && isLook(node.syntax)) {
        this.look(told, node, numbers, where);
        continue;
      }
      const next = node.is === 'single' ? [this.single(node, numbers, where)] : this.nested(node, numbers, where);
      if (next.length === 0) continue;
      const isPart = next[0].is === 'part';
      if (isAfterPart && !isPart) told.push({ is: 'part', title: titleOf(section) });
      isAfterPart = isPart;
      told.push(...next);
    }
    return told;
  }

  private single({ syntax, row }: Single, numbers: StepNumbers, where: Where): Told {
    if (syntax.kind === 'note' || syntax.kind === 'caution') return { is: syntax.kind, text: syntax.text.value };
    return { ...this.step(numbers.next(), this.sentence(syntax, row, row), row, row, where), of: syntax };
  }

  private step(number: string, text: Text, from: number, to: number, { inRounds }: Where): ToldStep {
    // Whoever looks at the end of a round does nothing any more.
    let last = to;
    while (last > from && doesNothing(this.run.tape.stepAt(last).syntax)) last--;
    const ends = inRounds || to < from ? undefined : this.ends.get(last);
    return { is: 'step', number, text, from, to, readings: [], inRounds, ...(ends && { ends }) };
  }

  /** A step that only announces others. */
  private announcing(number: string, text: Text, at: number, where: Where): ToldStep {
    return this.step(number, text, at, at - 1, where);
  }

  private sentence(syntax: StepSyntax, from: number, to: number): Text {
    const before = stateBefore(this.run, from);
    const after = to >= from ? this.run.tape.stateAt(to) : before;
    return stepSentence(syntax, { before, after, profile: this.profile }, this.words);
  }

  /** What is read belongs to the step before; where there is none yet, looking is a step of its own. */
  private look(told: Told[], { syntax, row }: Single, numbers: StepNumbers, where: Where): void {
    const state = this.run.tape.stateAt(row);
    const at = told.findLastIndex(({ is }) => is === 'step');
    const last = told[at];
    const step = last?.is === 'step' ? last : this.step(numbers.next(), [this.words.operating.look], row, row, where);
    const readings = [...step.readings];
    for (const reading of readingsIn(syntax, state)) {
      if (!readings.some((known) => isSame(known, reading, this.profile))) readings.push(reading);
    }
    if (last?.is === 'step') told[at] = { ...step, readings };
    else told.push({ ...step, readings });
  }

  private nested(node: Nested, numbers: StepNumbers, where: Where): Told[] {
    if (isEmpty(node)) return [];
    switch (node.syntax.kind) {
      case 'repeat':
        return this.repeat(node, numbers, where);
      case 'run':
        return this.other(node, numbers, where);
      default:
        return this.opened(node, numbers, where);
    }
  }

  /** `multiply` and `divide`: their single steps are parts of one step; a single one stands for itself. */
  private opened({ syntax, rounds, from, to }: Nested, numbers: StepNumbers, where: Where): Told[] {
    const number = numbers.next();
    const rows = rounds[0].filter((node): node is Single => node.is === 'single');
    if (rows.length === 1) return [this.step(number, this.sentence(rows[0].syntax, from, from), from, from, where)];
    const text = this.sentence(syntax, from, to - 1);
    if (rows.length === 0) return [this.announcing(number, [...text, ' ', this.words.operating.nothing], from, where)];
    const intro = this.announcing(number, [...text, ' ', this.words.operating.inSteps], from, where);
    return [intro, ...this.tell(rows, numbers.below(number), { ...where, isTop: false })];
  }

  private other({ other, rounds, from }: Nested, numbers: StepNumbers, where: Where): Told[] {
    const title = other ? titleOf(other) : '';
    if (where.isTop) {
      const told = this.tell(rounds[0], numbers, where, other);
      return told[0].is === 'part' ? told : [{ is: 'part', title }, ...told];
    }
    const number = numbers.next();
    const told = this.tell(rounds[0], numbers.below(number), where, other);
    return [this.announcing(number, [this.words.operating.workThrough(title)], from, where), ...told];
  }

  private repeat({ syntax, rounds, from, to }: Nested, numbers: StepNumbers, where: Where): Told[] {
    const number = numbers.next();
    const intro = this.sentence(syntax, from, to - 1);
    const inside = { inRounds: where.inRounds || rounds.length > 1, isTop: false };
    const parts = numbers.below(number);
    const told = rounds.map((nodes, i) => this.tell(nodes, i === 0 ? parts : numbers.below(number), inside));
    const once = rounds.length === 1 ? told[0] : sameInAll(told, this.run, this.words);
    if (!once) {
      const differing = [this.words.operating.roundsDiffer(rounds.length)];
      return [this.announcing(number, differing, from, where), ...this.eachRound(rounds, number, numbers, where)];
    }
    const [only] = once;
    if (once.length === 1 && only.is === 'step' && only.readings.length === 0) {
      return [this.step(number, [...intro, ' ', ...only.text], from, to - 1, where)];
    }
    const end = syntax.kind === 'repeat' ? repeatEnd(syntax, this.words) : [];
    return [this.announcing(number, intro, from, where), ...once, this.step(parts.next(), end, from, to - 1, where)];
  }

  /** Rounds that differ, one after the other. */
  private eachRound(rounds: Nested['rounds'], number: string, numbers: StepNumbers, where: Where): Told[] {
    const parts = numbers.below(number);
    return rounds.flatMap((nodes, i) => {
      const told = this.tell(nodes, parts, { ...where, isTop: false });
      const at = told.findIndex(({ is }) => is === 'step');
      const first = told[at];
      if (first?.is === 'step') {
        told[at] = { ...first, text: [this.words.operating.round(i + 1, rounds.length), ...first.text] };
      }
      return told;
    });
  }
}

/** Holds no step at all: there is nothing to tell of it. */
const isEmpty = (node: Node): boolean =>
  node.is === 'nested' &&
  (node.syntax.kind === 'repeat' || node.syntax.kind === 'run') &&
  node.rounds.every((nodes) => nodes.every(isEmpty));

const doesNothing = (syntax: StepSyntax): boolean => isLook(syntax) || isProse(syntax);
