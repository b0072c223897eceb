/** A sequence with its runs: once with the defaults and once for each case. */
import type { MachineSection, NumberSyntax, Section, SequenceSection } from '../../grammar/tree.js';
import type { Profile } from '../machine/index.js';
import type { Finding } from './findings.js';
import { type GoalResult, judgeGoal } from './goals.js';
import { type Run, type RunOrder, run } from './run.js';
import type { Values } from './substitute.js';

/** A run and how it met the sequence's goals. */
export interface CaseRun extends Run {
  readonly goals: readonly GoalResult[];
}

export interface SequenceReport {
  readonly section: SequenceSection;
  readonly machine?: MachineSection;
  readonly profile?: Profile;
  /** In the order of the cases, the defaults first; empty where the sequence can't be run. */
  readonly runs: readonly CaseRun[];
  readonly findings: readonly Finding[];
  /** Whether every sequence that was run, or looked for, is still the same. */
  holds(resolve: RunOrder['resolve']): boolean;
}

/** Runs a sequence; `known` are the findings on its names. */
export function checkSequence(
  section: SequenceSection,
  machine: MachineSection | undefined,
  profile: Profile | undefined,
  resolve: RunOrder['resolve'],
  known: readonly Finding[],
): SequenceReport {
  const looked = new Map<Section, Map<string, SequenceSection | undefined>>();
  const look: RunOrder['resolve'] = (name, from) => {
    const found = resolve(name, from);
    const names = looked.get(from) ?? new Map<string, SequenceSection | undefined>();
    looked.set(from, names.set(name, found));
    return found;
  };
  const findings = [...known];
  const runs: CaseRun[] = [];
  const name = section.header?.name.name;
  if (profile && name !== undefined) {
    for (const [i, values] of valuesOf(section).entries()) {
      const done = run({ section, profile, values, case: i, resolve: look });
      const goals: GoalResult[] = [];
      findings.push(...done.notices.findings(section, name, i), ...judge(done, name, goals));
      runs.push({ ...done, goals });
    }
  }
  return {
    section,
    ...(machine && { machine }),
    ...(profile && { profile }),
    runs,
    findings: onceAStep(findings),
    holds: (resolveNow) =>
      [...looked].every(([from, names]) => [...names].every(([n, found]) => resolveNow(n, from) === found)),
  };
}

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

function judge(done: Run, sequence: string, goals: GoalResult[]): Finding[] {
  if (done.brokeOff) return [];
  const { section, values, profile, case: runCase } = done.order;
  return section.goals.flatMap(({ line, syntax }): Finding[] => {
    const result = judgeGoal(syntax, values, done.state, profile);
    const at = { section, line, from: syntax.from, to: syntax.to };
    const base = { at, sequence, case: runCase };
    const { register } = syntax;
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
