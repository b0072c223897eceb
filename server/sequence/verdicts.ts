/**
 * What of a file passes: its text, and each of its sequences with the defaults and with each case.
 *
 * Invariant: there is one notion of it. `check` for other programs and the tests of an editor both say what is said here,
 * so that what passes in one place passes in all.
 */
import type { MachineSection } from '../../grammar/tree.js';
import type { SequenceReport } from './check.js';
import { checkMachine } from './file.js';
import type { FileReport } from './file-report.js';
import { type Finding, rankOf, type Severity, severityOf, syntaxFindings } from './findings.js';
import type { Library } from './library.js';
import { untoldIn } from './report.js';

/** `not-run` is what could not be cranked: there is no machine, it contradicts itself, or the file takes too long. */
export type Outcome = 'passed' | 'failed' | 'not-run';

export interface Verdict {
  readonly outcome: Outcome;
  /** What it failed by, or what stood in its way, which may be in another file. */
  readonly failures: readonly Finding[];
  /** What was noticed besides, and is less grave. */
  readonly rest: readonly Finding[];
}

export interface SequenceVerdict extends Verdict {
  readonly report: SequenceReport;
  readonly name: string;
  /** With the defaults, and then with each case. */
  readonly cases: readonly Verdict[];
}

export interface FileVerdicts {
  /** On all that stands in no sequence, or is no matter of one run: names, machines, records, insets. */
  readonly text: Verdict;
  /** In the order of the file; those without a name are part of the text. */
  readonly sequences: readonly SequenceVerdict[];
}

/** What passes, where all that is as grave as `level`, or graver, is a failure. */
export function verdictsOn(library: Library, report: FileReport, level: Severity): FileVerdicts {
  const bySection = new Map<unknown, Named>();
  const byName = new Map<string, Named>();
  for (const sequence of report.sequences) {
    const name = sequence.section.header?.name.name;
    if (name === undefined) continue;
    const named: Named = { report: sequence, name, findings: [] };
    bySection.set(sequence.section, named);
    if (!byName.has(name)) byName.set(name, named);
  }
  const text: Finding[] = [];
  for (const { findings } of report.sections) {
    for (const finding of findings) {
      const own = bySection.get(finding.at.section);
      const owner = own && own.name === finding.sequence ? own : byName.get(finding.sequence ?? '');
      (owner?.findings ?? text).push(finding);
    }
  }
  const untold = untoldIn(report);
  if (untold) text.push(untold);
  let exceeding: readonly Finding[] | undefined;
  const obstacles = ({ machine }: SequenceReport): readonly Finding[] => {
    const ofMachine = machine ? machineErrors(library, machine) : [];
    if (ofMachine.length > 0) return ofMachine;
    exceeding ??= report.findings.filter(exceedsFile);
    return exceeding;
  };
  return {
    text: verdictOf(text, level),
    sequences: [...bySection.values()].map((named) => sequenceVerdict(named, level, obstacles)),
  };
}

interface Named {
  readonly report: SequenceReport;
  readonly name: string;
  readonly findings: Finding[];
}

function verdictOf(findings: readonly Finding[], level: Severity): Verdict {
  const isGrave = (finding: Finding) => rankOf(severityOf(finding)) <= rankOf(level);
  const failures = findings.filter(isGrave);
  const rest = findings.filter((finding) => !isGrave(finding));
  return { outcome: failures.length > 0 ? 'failed' : 'passed', failures, rest };
}

/** What a file takes was used up by the sequences before. */
const exceedsFile = ({ facts }: Finding): boolean => facts.code === 'too-long' && facts.what.startsWith('file-');

/** @param obstaclesTo why a sequence with nothing against itself was not run: its machine, or those before it */
function sequenceVerdict(
  { report, name, findings }: Named,
  level: Severity,
  obstaclesTo: (report: SequenceReport) => readonly Finding[],
): SequenceVerdict {
  const { section, runs } = report;
  const ofText = findings.filter((finding) => finding.case === undefined);
  const notRun = (verdict: Verdict): Verdict => {
    const isSaid = verdict.failures.some((finding) => severityOf(finding) === 'error');
    const obstacles = isSaid ? [] : obstaclesTo(report);
    return { ...verdict, outcome: 'not-run', failures: [...obstacles, ...verdict.failures] };
  };
  const cases = Array.from({ length: 1 + section.cases.length }, (_, number): Verdict => {
    const run = runs.at(number);
    return run ? verdictOf([...ofText, ...run.findings], level) : notRun(verdictOf(ofText, level));
  });
  const told = verdictOf(findings, level);
  const isRun = runs.length > 0 && (told.outcome === 'failed' || runs.length === cases.length);
  return { ...(isRun ? told : notRun(told)), report, name, cases };
}

/** What is wrong with a machine, or else with the one that it is like. */
function machineErrors(library: Library, machine: MachineSection): Finding[] {
  const seen = new Set<MachineSection>();
  for (let next: MachineSection | undefined = machine; next && !seen.has(next); ) {
    seen.add(next);
    const scope = library.scope(library.fileOf(next) ?? '');
    const found = [...syntaxFindings(next), ...checkMachine(library, next, scope, new Set())];
    const errors = found.filter((finding) => severityOf(finding) === 'error');
    if (errors.length > 0) return errors;
    const like: string | undefined = next.header?.like?.name;
    next = like === undefined ? undefined : scope.machine(like);
  }
  return [];
}
