/** A sequence with its runs: once with the defaults and once for each case. */
import type { Gradual } from '../../grammar/gradual.js';
import type { MachineSection, NumberSyntax, Section, SequenceSection } from '../../grammar/tree.js';
import type { Profile } from '../machine/index.js';
import { type Facts, type Finding, placeOn } from './findings.js';
import { type GoalResult, judgeGoal } from './goals.js';
import { checkNames } from './names.js';
import { type Run, type RunOrder, runGradually } from './run.js';
import { shorterRuns } from './shorter-runs.js';
import type { Values } from './substitute.js';
import type { Shorter } from './written-run.js';

/** A run and how it met the sequence's goals. */
export interface CaseRun extends Run {
  readonly goals: readonly GoalResult[];
  /** What was noticed in this run, whether or not another case shows it too. */
  readonly findings: readonly Finding[];
}

export interface SequenceReport {
  readonly section: SequenceSection;
  readonly machine?: MachineSection;
  readonly profile?: Profile;
  /** In the order of the cases, the defaults first; empty where the sequence can't be run. */
  readonly runs: readonly CaseRun[];
  readonly findings: readonly Finding[];
  /** It runs other sequences, or names some that are not known: it may change when its own section does not. */
  readonly looksAround: boolean;
  /** Whether every sequence that was run, or looked for, is still the same, so that all else is as well. */
  holds(resolve: RunOrder['resolve']): boolean;
}

/** Steps and turns that all the sequences of a file may take together, so that checking a file always ends soon. */
export const MOST_STEPS_IN_A_FILE = 2_000_000;
export const MOST_TURNS_IN_A_FILE = 20_000_000;

/** Steps and turns that runs have taken. */
export interface Spent {
  readonly steps: number;
  readonly turns: number;
}

/** How much of that is used up. */
export class Allowance {
  private steps: number;
  private turns: number;

  constructor({ steps, turns }: Spent = { steps: 0, turns: 0 }) {
    this.steps = steps;
    this.turns = turns;
  }

  get spent(): Spent {
    return { steps: this.steps, turns: this.turns };
  }

  /** That it is used up is told once. */
  isTold = false;

  /** Rounds without a step take time as well. */
  spendOn({ tape, effort }: Run): void {
    this.steps += Math.max(tape.length, tape.frames.length);
    this.turns += effort.turns;
  }

  /** Spends what these runs took, if each of them would still have been begun; otherwise spends nothing. */
  spendAgain(runs: readonly Run[]): boolean {
    const before = { steps: this.steps, turns: this.turns };
    for (const done of runs) {
      if (this.exceeded) {
        Object.assign(this, before);
        return false;
      }
      this.spendOn(done);
    }
    return true;
  }

  get exceeded(): Facts | undefined {
    if (this.steps > MOST_STEPS_IN_A_FILE) return { code: 'too-long', what: 'file-steps', limit: MOST_STEPS_IN_A_FILE };
    if (this.turns > MOST_TURNS_IN_A_FILE) return { code: 'too-long', what: 'file-turns', limit: MOST_TURNS_IN_A_FILE };
    return undefined;
  }
}

/** The name of its sequence; empty where it has none. */
export const nameOf = ({ section }: SequenceReport): string => section.header?.name.name ?? '';

/** What a sequence may want to know of the files around it. */
export interface Surroundings {
  readonly resolve: RunOrder['resolve'];
  /** For the nearest name, where one is not known. */
  readonly sequenceNames: () => string[];
  /** What was found already: on the machine's name. */
  readonly known: readonly Finding[];
  readonly allowance: Allowance;
}

/** Checks a sequence's names and runs it, if there is a machine to run it on. */
export function* checkSequence(
  section: SequenceSection,
  machine: MachineSection | undefined,
  profile: Profile | undefined,
  { resolve, sequenceNames, known, allowance }: Surroundings,
): Gradual<SequenceReport> {
  const looked = new Map<Section, Map<string, SequenceSection | undefined>>();
  const look: RunOrder['resolve'] = (name, from) => {
    const found = resolve(name, from);
    const names = looked.get(from) ?? new Map<string, SequenceSection | undefined>();
    looked.set(from, names.set(name, found));
    return found;
  };
  const isSequence = (name: string) => look(name, section) !== undefined;
  let findings: readonly Finding[] = [...known, ...checkNames(section, isSequence, sequenceNames)];
  // What is said of an unknown name depends on every name around it: that is told afresh each time.
  let isLasting = !findings.some(({ facts }) => facts.code === 'unknown-name' || facts.code === 'no-machine');
  const runs: CaseRun[] = [];
  let cheaper: readonly Finding[] = [];
  const name = section.header?.name;
  if (profile && name) {
    const cranked: CaseRun[] = [];
    let isComplete = true;
    for (const [i, values] of valuesOf(section).entries()) {
      const exceeded = allowance.exceeded;
      if (exceeded) {
        isLasting = false;
        const finding: Finding = { facts: exceeded, at: placeOn(section, 0, name), sequence: name.name };
        if (!allowance.isTold) findings = findings.concat(finding);
        allowance.isTold = true;
        isComplete = false;
        break;
      }
      const done = yield* runGradually({ section, profile, values, case: i, resolve: look });
      allowance.spendOn(done);
      const goals: GoalResult[] = [];
      const noticed = [...done.notices.findings(section, name.name, i), ...judge(done, name.name, goals)];
      cranked.push({ ...done, goals, findings: noticed });
    }
    const shorter = isComplete ? yield* shorterRuns(cranked) : [];
    for (const [i, done] of cranked.entries()) {
      const told = (shorter[i] ?? []).map((one) => shorterAt(section, name.name, i, one));
      findings = findings.concat(done.findings);
      runs.push(told.length > 0 ? { ...done, findings: done.findings.concat(told) } : done);
      // Every case shows the same ones, each at a step of its own.
      if (i === 0) cheaper = told;
    }
  }
  return {
    section,
    ...(machine && { machine }),
    ...(profile && { profile }),
    runs,
    findings: onceAStep(findings).concat(cheaper),
    looksAround: looked.size > 0,
    holds: (resolveNow) =>
      isLasting &&
      [...looked].every(([from, names]) => [...names].every(([n, found]) => resolveNow(n, from) === found)),
  };
}

/** The same for a sequence that stands by itself: nothing was found of it yet, and what it may take is all its own. */
export const checkAlone = (
  section: SequenceSection,
  profile: Profile,
  resolve: RunOrder['resolve'] = () => undefined,
): Gradual<SequenceReport> =>
  checkSequence(section, undefined, profile, {
    resolve,
    sequenceNames: () => [],
    known: [],
    allowance: new Allowance(),
  });

/** Steps, frames and turns of all runs: what running the sequence again takes. */
export const workOf = ({ runs }: { readonly runs: readonly Run[] }): number =>
  runs.reduce((sum, { tape, effort }) => sum + tape.length + tape.frames.length + effort.turns, 0);

/** The parameters' values for each run, the defaults first. */
export function valuesOf(section: SequenceSection): Values[] {
  const defaults = new Map<string, NumberSyntax>();
  for (const { name, value } of section.header?.parameters ?? []) {
    if (!defaults.has(name.name)) defaults.set(name.name, value);
  }
  const cases = section.cases.map(({ syntax }) => {
    const values = new Map(defaults);
    for (const { name, value } of syntax.assignments) if (values.has(name.name)) values.set(name.name, value);
    return values;
  });
  return [defaults, ...cases];
}

/** A run of steps that could be shorter, as a finding at its first one. */
function shorterAt(section: SequenceSection, sequence: string, runCase: number, shorter: Shorter): Finding {
  const { at, count, effort, steps } = shorter;
  const { line, syntax } = section.steps[at];
  const facts: Facts = { code: 'shorter-sequence', count, effort, steps, shorter: shorter.shorter };
  return { facts, at: placeOn(section, line, syntax), sequence, case: runCase };
}

/** Goals that a run has missed, as findings; how each came out is put into `goals`. None where it broke off. */
export function judge(done: Run, sequence: string, goals: GoalResult[] = []): Finding[] {
  if (done.brokeOff) return [];
  const { section, values, profile, case: runCase } = done.order;
  return section.goals.flatMap(({ line, syntax }): Finding[] => {
    const base = { at: placeOn(section, line, syntax), sequence, case: runCase };
    const { register } = syntax;
    if (register === 'counter' && profile.counter === 0) {
      return [{ ...base, facts: { code: 'not-on-this-machine', device: 'counter', machine: profile.name } }];
    }
    const result = judgeGoal(syntax, values, done.state, profile);
    if (typeof result === 'string') {
      return result === 'unknown-name'
        ? []
        : [{ ...base, facts: { code: 'goal-missed', register, why: { is: result } } }];
    }
    goals.push(result);
    if (result.met) return [];
    const { goal, reading } = result;
    return [{ ...base, facts: { code: 'goal-missed', register, why: { is: 'differs', goal, reading } } }];
  });
}

/** What several cases show at one step is told once, for the first of them. */
function onceAStep(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter(({ facts, at }) => {
    const key = `${at.line} ${at.from} ${facts.code}`;
    const isName = facts.code === 'unknown-name' || facts.code === 'duplicate-name' || facts.code === 'unused';
    if (isName || !seen.has(key)) return seen.add(key) !== undefined;
    return false;
  });
}
