/**
 * The tree that everyone else reads.
 *
 * It has two layers. What stands on one line (`…Syntax`) knows its columns but not its line, so that equal lines share
 * one object and are parsed once. A section puts lines together and knows how far each is from the section's first line,
 * so that a section that merely moved down the file stays the same object.
 *
 * Invariant: nothing here is ever changed once it is made; an edit makes new nodes for what it touches and no others.
 */
import type { RegisterName } from './tokens.js';

/** Columns on one line, in UTF-16 units from 0; `to` is just behind the last one. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A number as written. Without a point it is a digit string, with one a value that is aligned to a decimal marker. */
export interface NumberSyntax extends Span {
  readonly kind: 'number';
  readonly text: string;
  /** The digits, without grouping marks and point: `30_250.5` has `302505`. */
  readonly figures: string;
  readonly isValue: boolean;
  /** Digits behind the point; 0 in a digit string. */
  readonly decimals: number;
}
/** A name where it is used or given; compared in Unicode's composed form. */
export interface NameSyntax extends Span {
  readonly kind: 'name';
  readonly name: string;
}
/** Where a number may stand, a parameter may stand. */
export type Argument = NumberSyntax | NameSyntax;
export interface TextSyntax extends Span {
  readonly kind: 'text';
  readonly value: string;
  readonly raw: string;
}

export type BinaryOperator = '+' | '-' | '*' | '/' | '^';
export type Expression =
  | NumberSyntax
  | NameSyntax
  | (Span & {
      readonly kind: 'binary';
      readonly operator: BinaryOperator;
      readonly left: Expression;
      readonly right: Expression;
    })
  | (Span & { readonly kind: 'negative'; readonly of: Expression })
  | (Span & { readonly kind: 'sqrt'; readonly of: Expression })
  | (Span & { readonly kind: 'group'; readonly of: Expression });

/** Figures with their units in a place. */
export interface Part {
  readonly figures: Argument;
  readonly at?: Argument;
}
/** What a register must read; `negative` asks for the complement. */
export interface RegisterReading extends Span {
  readonly kind: 'register';
  readonly register: RegisterName;
  readonly negative: boolean;
  readonly figures: Argument;
  readonly label?: NameSyntax;
}
export interface EventReading extends Span {
  readonly kind: 'bell' | 'overflow' | 'overdraw' | 'parked';
  /** It did not happen, or is not so: only what was `found` says so. */
  readonly isAbsent?: true;
  readonly label?: NameSyntax;
}
export interface CarriageReading extends Span {
  readonly kind: 'carriage';
  readonly position: Argument;
  readonly label?: NameSyntax;
}
export type ExpectItem = RegisterReading | EventReading | CarriageReading;

export interface RegisterSpan extends Span {
  readonly register: RegisterName;
}
export interface PointItem extends RegisterSpan {
  readonly decimals: Argument;
}
export interface Assignment extends Span {
  readonly name: NameSyntax;
  readonly value: NumberSyntax;
}

interface StepOf<K extends string> extends Span {
  readonly kind: K;
}
export interface SetStep extends StepOf<'set'> {
  readonly parts: readonly Part[];
}
export interface TurnStep extends StepOf<'turn'> {
  readonly back: boolean;
  readonly until?: 'overdraw' | 'stop';
  /** Only where there is no `until`. */
  readonly count?: Argument;
}
export interface ShiftStep extends StepOf<'shift'> {
  readonly way: 'right' | 'left' | 'to' | 'out';
  readonly half: boolean;
  /** How many positions, or with `to` which one. */
  readonly count?: Argument;
}
export interface ClearStep extends StepOf<'clear'> {
  readonly registers: readonly RegisterName[];
  readonly all: boolean;
}
export interface TransferStep extends StepOf<'transfer'> {
  readonly register: 'result' | 'counter';
}
export interface DialStep extends StepOf<'dial'> {
  readonly part: Part;
}
export interface ModeStep extends StepOf<'mode'> {
  readonly drive: 'add' | 'subtract';
}
export interface CountStep extends StepOf<'count'> {
  readonly sense: 'plus' | 'minus';
}
export interface SwitchStep extends StepOf<'auto-clear' | 'auto-divide'> {
  readonly on: boolean;
}
export interface PointsStep extends StepOf<'points'> {
  readonly items: readonly PointItem[];
}
export interface ExpectStep extends StepOf<'expect'> {
  readonly items: readonly ExpectItem[];
}
export interface AskStep extends StepOf<'ask'> {
  readonly items: readonly RegisterSpan[];
}
export interface ProseStep extends StepOf<'note' | 'caution'> {
  readonly text: TextSyntax;
}
export interface GoalLine extends StepOf<'goal'> {
  readonly register: RegisterName;
  readonly expression: Expression;
}
export interface CaseLine extends StepOf<'case'> {
  readonly assignments: readonly Assignment[];
}
export interface RepeatStep extends StepOf<'repeat'> {
  readonly count: Argument;
}
export interface RunStep extends StepOf<'run'> {
  readonly name: NameSyntax;
  readonly args: readonly Argument[];
}
export interface MultiplyStep extends StepOf<'multiply'> {
  readonly by: Argument;
  readonly short: boolean;
}
export interface DivideStep extends StepOf<'divide'> {
  readonly downTo?: Argument;
  readonly short: boolean;
}
export interface FoundLine extends StepOf<'found'> {
  /** The label of a reading, or its number counted from 1. */
  readonly which: Argument;
  readonly items: readonly ExpectItem[];
}

/** A step that the runner carries out. */
export type StepSyntax =
  | SetStep
  | TurnStep
  | ShiftStep
  | ClearStep
  | TransferStep
  | DialStep
  | ModeStep
  | CountStep
  | SwitchStep
  | PointsStep
  | ExpectStep
  | AskStep
  | ProseStep
  | RepeatStep
  | RunStep
  | MultiplyStep
  | DivideStep;
/** What may stand in the body of a sequence. */
export type BodySyntax = StepSyntax | GoalLine | CaseLine;

export interface UseHeader extends StepOf<'use'> {
  readonly path: TextSyntax;
}
export interface MachineHeader extends StepOf<'machine'> {
  readonly name: NameSyntax;
  readonly title?: TextSyntax;
  readonly like?: NameSyntax;
}
export interface SequenceHeader extends StepOf<'sequence'> {
  readonly name: NameSyntax;
  readonly title?: TextSyntax;
  readonly parameters: readonly Assignment[];
  readonly on?: NameSyntax;
}
export interface BenchHeader extends StepOf<'bench'> {
  readonly title: TextSyntax;
  readonly of: NameSyntax;
  readonly on: NameSyntax;
}
export type HeaderSyntax = UseHeader | MachineHeader | SequenceHeader | BenchHeader;
export type SectionKind = HeaderSyntax['kind'];

export type CounterCarry = 'carry' | 'plain' | 'signed';
export type SubtractWay = 'reverse' | 'lever' | 'half-step' | 'lift' | 'none';
export type CountWay = 'follow' | 'lever' | 'first';
/** A line of a machine. */
export type ProfileSyntax =
  | (StepOf<'setting'> & { readonly places: NumberSyntax })
  | (StepOf<'carriage'> & { readonly places: NumberSyntax })
  | (StepOf<'counter'> & { readonly places: NumberSyntax; readonly carry?: CounterCarry })
  | (StepOf<'result'> & { readonly places: NumberSyntax; readonly dials: boolean; readonly reach?: NumberSyntax })
  | (StepOf<'subtract'> & { readonly way: SubtractWay })
  | (StepOf<'count'> & { readonly way: CountWay })
  | StepOf<'park' | 'bell' | 'auto-clear' | 'auto-divide'>
  | (StepOf<'transfer'> & { readonly register: 'result' | 'counter'; readonly at?: NumberSyntax })
  | (StepOf<'effort'> & { readonly turn: NumberSyntax; readonly shift: NumberSyntax; readonly lever: NumberSyntax })
  | (StepOf<'phrase'> & { readonly step: string; readonly text: TextSyntax })
  | (StepOf<'no'> & { readonly drops: string });

/** What is wrong with the text itself, in a form that can be put into any language. */
export type SyntaxProblem =
  | {
      readonly is: 'not-a-step' | 'not-a-line' | 'not-a-section' | 'no-section';
      readonly found: string;
      readonly nearest?: string;
    }
  | { readonly is: 'wrong-section'; readonly found: string; readonly belongs: 'machine' | 'sequence' | 'bench' }
  | { readonly is: 'form'; readonly word: string; readonly found: string; readonly forms: readonly string[] }
  | { readonly is: 'keyword-as-name'; readonly found: string }
  | {
      readonly is:
        | 'unclosed-text'
        | 'text-escape'
        | 'unclosed-brace'
        | 'stray-brace'
        | 'line-too-long'
        | 'too-deep'
        | 'number-point';
    };

export interface TextError extends Span {
  readonly problem: SyntaxProblem;
}

export interface CommentSyntax extends Span {
  readonly text: string;
}
/** A closing brace where a step could stand. */
export type CloseBrace = StepOf<'close'>;
export type LineItem = BodySyntax | ProfileSyntax | FoundLine | CloseBrace;

/** One line, read by itself. */
export interface LineSyntax {
  readonly text: string;
  readonly header?: HeaderSyntax;
  readonly items: readonly LineItem[];
  readonly comment?: CommentSyntax;
  readonly errors: readonly TextError[];
}

/** A node on a line, counted from the first line of its section (0). */
export interface OnLine<S> {
  readonly line: number;
  readonly syntax: S;
}
/** A step in its place; `repeat` has a body. */
export interface Step<S extends StepSyntax = StepSyntax> extends OnLine<S> {
  readonly body?: readonly Step[];
  /** Where the closing brace of `repeat` stands; missing if there is none. */
  readonly close?: OnLine<Span>;
}

interface SectionOf<K extends SectionKind, H extends HeaderSyntax> {
  readonly kind: K;
  /** Missing where the header line can't be read. */
  readonly header?: H;
  readonly lines: readonly LineSyntax[];
  readonly errors: readonly OnLine<TextError>[];
}
/** What stands before the first section: comments and blank lines, or what belongs nowhere. */
export interface PreambleSection {
  readonly kind: 'preamble';
  readonly header?: undefined;
  readonly lines: readonly LineSyntax[];
  readonly errors: readonly OnLine<TextError>[];
}
export type UseSection = SectionOf<'use', UseHeader>;
export interface MachineSection extends SectionOf<'machine', MachineHeader> {
  readonly entries: readonly OnLine<ProfileSyntax>[];
}
export interface SequenceSection extends SectionOf<'sequence', SequenceHeader> {
  readonly steps: readonly Step[];
  readonly goals: readonly OnLine<GoalLine>[];
  readonly cases: readonly OnLine<CaseLine>[];
}
export interface BenchSection extends SectionOf<'bench', BenchHeader> {
  readonly found: readonly OnLine<FoundLine>[];
}
export type Section = PreambleSection | UseSection | MachineSection | SequenceSection | BenchSection;

/** A section and the line of the file on which it begins, from 0. */
export interface Placed<S extends Section = Section> {
  readonly section: S;
  readonly line: number;
}

export interface CrankFile {
  readonly sections: readonly Placed[];
  readonly lineCount: number;
}
