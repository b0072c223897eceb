/**
 * Findings: what is wrong with a text or noticed in a run.
 *
 * A finding carries facts, not sentences: wording/ puts them into a language. Codes are stable, for scripts filter on
 * them; a code is never given another meaning.
 */
import type { InsetKind, InsetProblem } from '../../grammar/insets.js';
import type { Section, Span, SyntaxProblem } from '../../grammar/tree.js';
import type { Contradiction, Register } from '../machine/index.js';
import type { Effort } from './effort.js';
import type { Looked, Told } from './looks.js';

/** From what must be mended to what might be better. */
export const SEVERITIES = ['error', 'warning', 'information', 'hint'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** Every code and how grave it is, in the order of the reference. */
export const CODES = {
  syntax: 'error',
  'unknown-name': 'error',
  'duplicate-name': 'error',
  'no-machine': 'error',
  'file-not-found': 'error',
  'sequence-cycle': 'error',
  'bad-profile': 'error',
  'wrong-arguments': 'error',
  'setting-too-long': 'error',
  'dial-too-long': 'error',
  'places-overlap': 'error',
  'no-such-place': 'error',
  'too-many-decimals': 'error',
  'not-on-this-machine': 'error',
  'one-way-crank': 'error',
  'carriage-end': 'error',
  'carriage-parked': 'error',
  'result-overflow': 'error',
  'result-overdraw': 'error',
  'overflow-restored': 'information',
  'overdraw-restored': 'information',
  'digits-off-end': 'error',
  'carry-short': 'error',
  'counter-overflow': 'error',
  'counter-underflow': 'warning',
  'turn-not-counted': 'warning',
  'divide-in-add-mode': 'warning',
  'auto-clear-repeat': 'warning',
  'never-overdraws': 'error',
  'never-stops': 'error',
  'too-long': 'error',
  'transfer-position': 'error',
  'transfer-onto-setting': 'error',
  'transfer-loses-digits': 'warning',
  'quotient-as-complement': 'warning',
  'points-disagree': 'warning',
  'reading-differs': 'error',
  'goal-missed': 'error',
  'no-such-reading': 'error',
  'found-impossible': 'error',
  'found-twice': 'warning',
  'found-differs': 'information',
  'idle-turn': 'hint',
  'many-turns': 'hint',
  'assumes-clear': 'hint',
  'left-engaged': 'hint',
  unused: 'hint',
  'shorter-sequence': 'hint',
  'stale-inset': 'warning',
  'bad-inset': 'error',
} as const satisfies Record<string, Severity>;
export type Code = keyof typeof CODES;

/** What a name stands for. */
export type NameKind = 'machine' | 'sequence' | 'parameter' | 'label';
/** A thing that not every machine has. */
export type Device =
  | 'mode'
  | 'count'
  | 'auto-clear'
  | 'auto-divide'
  | 'dial'
  | 'transfer result'
  | 'transfer counter'
  | 'shift out'
  | 'half steps'
  | 'counter'
  | 'bell'
  | 'subtract';

export type ProfileProblem = Contradiction | { readonly is: 'twice' | 'no-such-line'; readonly line: string };
export type FileProblem = 'missing' | 'outside' | 'not-relative' | 'folder' | 'unreadable' | 'too-large' | 'not-text';
export type GoalProblem = 'divides-by-zero' | 'root-of-negative' | 'power-not-whole' | 'too-large' | 'unknown-name';
/** Why an inset of a page can't be filled. */
export type InsetFault =
  | InsetProblem
  | { readonly is: 'no-sequence' }
  | { readonly is: 'unknown-sequence'; readonly name: string; readonly nearest?: string }
  | { readonly is: 'no-case'; readonly name: string; readonly number: number; readonly cases: number }
  | { readonly is: 'unknown-language'; readonly language: string; readonly known: readonly string[] }
  /** The sequence has an error, can't be run or not to its end, or has more steps than a page is given. */
  | { readonly is: 'has-errors' | 'not-run' | 'too-long'; readonly name: string }
  /** What stands there is not what was put there, or an inset has lost its closing comment. */
  | { readonly is: 'by-hand' | 'lost-end' };
/** How a goal is met. */
export type GoalMet = 'exact' | 'cut off' | 'rounded';

/** What each finding says, by its code. */
export type Facts =
  | { readonly code: 'syntax'; readonly problem: SyntaxProblem }
  | { readonly code: 'unknown-name'; readonly kind: NameKind; readonly name: string; readonly nearest?: string }
  | { readonly code: 'duplicate-name'; readonly kind: NameKind; readonly name: string }
  | { readonly code: 'no-machine'; readonly visible: number }
  | { readonly code: 'file-not-found'; readonly path: string; readonly why: FileProblem }
  | { readonly code: 'sequence-cycle'; readonly by: 'run' | 'use' | 'like'; readonly name: string }
  | { readonly code: 'bad-profile'; readonly problem: ProfileProblem }
  | {
      readonly code: 'wrong-arguments';
      readonly why:
        | { readonly is: 'too-many'; readonly name: string; readonly takes: number; readonly given: number }
        | { readonly is: 'not-whole' | 'value-with-at'; readonly number: string }
        | { readonly is: 'out-of-range'; readonly number: string; readonly lowest: number; readonly highest: number }
        | { readonly is: 'divide-to'; readonly position: number; readonly to: number };
    }
  | {
      readonly code: 'setting-too-long' | 'dial-too-long';
      readonly figures: string;
      readonly at: number;
      readonly places: number;
    }
  | { readonly code: 'places-overlap'; readonly place: number }
  | {
      readonly code: 'no-such-place';
      readonly register: Register | 'carriage';
      readonly place: string;
      readonly places: number;
      /** It is no place but a number of decimals, which begin at 0. */
      readonly isDecimals?: true;
    }
  | {
      readonly code: 'too-many-decimals';
      readonly register: Register;
      readonly number: string;
      readonly marker: number;
    }
  | { readonly code: 'not-on-this-machine'; readonly device: Device; readonly machine: string }
  | { readonly code: 'one-way-crank'; readonly machine: string; readonly subtracts: boolean }
  | { readonly code: 'carriage-end'; readonly at: number; readonly positions: number; readonly wanted: string }
  /** `times` is 0 where a step that stands for others was not begun. */
  | { readonly code: 'carriage-parked'; readonly times: number }
  | WrapFacts<'result-overflow' | 'result-overdraw'>
  | WrapFacts<'overflow-restored' | 'overdraw-restored'>
  | { readonly code: 'digits-off-end'; readonly times: number; readonly position: number; readonly places: number }
  | { readonly code: 'carry-short'; readonly turn: number; readonly times: number; readonly place: number }
  | {
      readonly code: 'counter-overflow' | 'counter-underflow';
      readonly turn: number;
      readonly times: number;
      readonly places: number;
      readonly wheel?: number;
    }
  | { readonly code: 'turn-not-counted'; readonly times: number; readonly position: number; readonly places: number }
  | { readonly code: 'divide-in-add-mode' | 'auto-clear-repeat'; readonly times: number }
  | { readonly code: 'never-overdraws'; readonly why: 'adds' | 'too-many' | 'stays-below' }
  | { readonly code: 'never-stops'; readonly why: 'off' | 'too-many' }
  | {
      readonly code: 'too-long';
      readonly what: 'steps' | 'turns' | 'nesting' | 'findings' | 'file-steps' | 'file-turns';
      readonly limit: number;
    }
  | { readonly code: 'transfer-position'; readonly position: number }
  | { readonly code: 'transfer-onto-setting'; readonly setting: string }
  | { readonly code: 'transfer-loses-digits'; readonly register: Register; readonly reading: string }
  | { readonly code: 'quotient-as-complement' }
  | { readonly code: 'points-disagree'; readonly setting: number; readonly counter: number; readonly result: number }
  | { readonly code: 'reading-differs'; readonly differs: Differs }
  | {
      readonly code: 'goal-missed';
      readonly register: Register;
      readonly why:
        | { readonly is: 'differs'; readonly goal: string; readonly reading: string }
        | { readonly is: GoalProblem };
    }
  | { readonly code: 'no-such-reading'; readonly number: string; readonly readings: number }
  | {
      readonly code: 'found-impossible';
      readonly what: Register | 'carriage';
      readonly number: string;
      readonly places: number;
    }
  | { readonly code: 'found-twice'; readonly what: Looked }
  | {
      readonly code: 'found-differs';
      readonly what: Looked;
      readonly found: Told;
      readonly sound: Told;
    }
  | { readonly code: 'idle-turn' | 'many-turns'; readonly times: number }
  | { readonly code: 'assumes-clear'; readonly registers: readonly Register[] }
  | { readonly code: 'left-engaged'; readonly what: readonly ('subtract' | 'minus' | 'auto-clear' | 'auto-divide')[] }
  | { readonly code: 'unused'; readonly kind: 'machine' | 'parameter'; readonly name: string }
  | {
      readonly code: 'shorter-sequence';
      /** How many steps the run has, the first of them being that at which it is told. */
      readonly count: number;
      readonly effort: Effort;
      /** The cheapest steps with the same outcome, as they are written, and what they cost. */
      readonly steps: readonly string[];
      readonly shorter: Effort;
    }
  /** `name` is that of the sequence, where it speaks of one. */
  | {
      readonly code: 'stale-inset';
      readonly kind: InsetKind;
      readonly name?: string;
      readonly isEmpty: boolean;
      /** Pictures belong to it, which are files. */
      readonly hasPictures: boolean;
    }
  | { readonly code: 'bad-inset'; readonly why: InsetFault };

/** What a finding of some code says. */
export type FactsOf<C extends Code, F extends Facts = Facts> = F extends Facts
  ? C extends F['code']
    ? F
    : never
  : never;

interface WrapFacts<C extends Code> {
  readonly code: C;
  /** The turn of the step in which it happened first, from 1; 0 where the step stands for others. */
  readonly turn: number;
  readonly times: number;
  /** Places of the result register. */
  readonly places: number;
}

/** How a reading differs from what was expected. */
export type Differs =
  | {
      readonly is: 'register';
      readonly register: Register;
      readonly expected: string;
      readonly reading: string;
      readonly place?: number;
    }
  | { readonly is: 'carriage'; readonly expected: string; readonly reading: number }
  | { readonly is: 'bell' | 'overflow' | 'overdraw' | 'parked' };

/** A place in a section, in the section's own lines (from 0); columns in UTF-16 units from 0. */
export interface Place {
  readonly section: Section;
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

/** Where a span of a line of a section stands. */
export const placeOn = (section: Section, line: number, { from, to }: Span): Place => ({ section, line, from, to });

export interface Related {
  readonly at: Place;
  readonly why: 'switched-on' | 'out-of-gear' | 'in-the-sequence';
}

export interface Finding {
  readonly facts: Facts;
  readonly at: Place;
  /** The sequence in whose run it was noticed. */
  readonly sequence?: string;
  /** With which case, 0 for the defaults; missing where it does not come from a run. */
  readonly case?: number;
  /** In how many rounds it was noticed, where that is more than one and the facts do not count by themselves. */
  readonly rounds?: number;
  readonly related?: readonly Related[];
}

/** What can't be read in a section; the sequence is named where it has a name. */
export function syntaxFindings(section: Section): Finding[] {
  const own = section.kind === 'sequence' && section.header ? { sequence: section.header.name.name } : {};
  return section.errors.map(({ line, syntax }): Finding => {
    const facts: Facts = { code: 'syntax', problem: syntax.problem };
    return { facts, at: placeOn(section, line, syntax), ...own };
  });
}

export const severityOf = (finding: Finding): Severity => CODES[finding.facts.code];
/** 0 for an error … 3 for a hint. */
export const rankOf = (severity: Severity): number => SEVERITIES.indexOf(severity);
