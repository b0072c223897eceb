/** From the lines of a machine to its profile: `like` takes lines over, `no` drops them. */

import { wordsOf } from '../../grammar/tokens.js';
import type { MachineSection, NumberSyntax, OnLine, ProfileSyntax, Span } from '../../grammar/tree.js';
import { contradictions, DEFAULT_EFFORT, type Profile } from '../machine/index.js';
import { type Facts, type Finding, type ProfileProblem, placeOn } from './findings.js';

/** A machine as written, after `like` and `no`. */
export interface Machine {
  readonly section: MachineSection;
  readonly lines: ReadonlyMap<string, ProfileSyntax>;
  /** Missing if the machine contradicts itself: sequences on it are not run. */
  readonly profile?: Profile;
  readonly findings: readonly Finding[];
}

/** Builds a machine; `parent` is the one named by `like`, if it was found. */
export function buildMachine(section: MachineSection, parent: Machine | undefined): Machine {
  const findings: Finding[] = [];
  const report = (entry: OnLine<Span>, problem: ProfileProblem) => {
    const facts: Facts = { code: 'bad-profile', problem };
    findings.push({ facts, at: placeOn(section, entry.line, entry.syntax) });
  };
  const lines = new Map(parent?.lines);
  const own = new Map<string, OnLine<ProfileSyntax>>();
  for (const entry of section.entries) {
    const key = keyOf(entry.syntax);
    if (own.has(key)) report(entry, { is: 'twice', line: key });
    else if (entry.syntax.kind === 'no' && !isLine(key)) report(entry, { is: 'no-such-line', line: key });
    else {
      own.set(key, entry);
      if (entry.syntax.kind === 'no') lines.delete(key);
      else lines.set(key, entry.syntax);
    }
  }
  const header: OnLine<Span> = { line: 0, syntax: section.header?.name ?? { from: 0, to: 1 } };
  const profile = profileOf(section, lines);
  const problems: ProfileProblem[] = [];
  // What is wrong with the other machine is said there.
  const isOrphan = section.header?.like !== undefined && parent?.profile === undefined;
  if (isOrphan) return { section, lines, findings };
  for (const line of ['setting', 'result'] as const) if (!lines.has(line)) problems.push({ is: 'missing', line });
  if (problems.length === 0) {
    const numbers = numberProblems(lines);
    const others = contradictions(profile).filter(
      ({ line }) => numbers.length === 0 || line !== 'carriage' || own.has(line),
    );
    problems.push(...numbers, ...others);
  }
  const reported = new Set<string>();
  for (const problem of problems) {
    const entry = own.get(problem.line) ?? header;
    if (!reported.has(problem.line)) report(entry, problem);
    reported.add(problem.line);
  }
  return { section, lines, ...(findings.length === 0 && { profile }), findings };
}

/**
 * What a line of a machine is about, as in the keys of `Machine.lines`: a machine says each but once. What is dropped is
 * said too.
 */
export function keyOf(line: ProfileSyntax): string {
  switch (line.kind) {
    case 'no':
      return line.drops === 'park left' ? 'park' : line.drops;
    case 'transfer':
      return `transfer ${line.register}`;
    case 'phrase':
      return `phrase ${line.step}`;
    default:
      return line.kind;
  }
}

function isLine(key: string): boolean {
  const [first, ...rest] = key.split(' ');
  if (first === 'phrase') return rest.length > 0;
  if (first === 'transfer') return rest.length === 1;
  return rest.length === 0 && first !== 'no' && wordsOf('machine').includes(first);
}

/** Numbers of a machine are whole: NaN stands for one that is not, which no range allows. */
const whole = (n: NumberSyntax): number => (n.isValue || n.figures.length > 9 ? Number.NaN : Number(n.figures));

function profileOf(section: MachineSection, lines: ReadonlyMap<string, ProfileSyntax>): Profile {
  const line = <K extends ProfileSyntax['kind']>(key: K | 'transfer result' | 'transfer counter') =>
    lines.get(key) as Extract<ProfileSyntax, { kind: K }> | undefined;
  const setting = whole(line<'setting'>('setting')?.places ?? ZERO);
  const resultLine = line<'result'>('result');
  const result = whole(resultLine?.places ?? ZERO);
  const counterLine = line<'counter'>('counter');
  const counter = whole(counterLine?.places ?? ZERO);
  const carriageLine = line<'carriage'>('carriage');
  const subtract = line<'subtract'>('subtract')?.way ?? 'reverse';
  const transfer = line<'transfer'>('transfer result');
  const effort = line<'effort'>('effort');
  const phrases: Record<string, string> = {};
  for (const syntax of lines.values()) if (syntax.kind === 'phrase') phrases[syntax.step] = syntax.text.value;
  const title = section.header?.title?.value;
  return {
    name: section.header?.name.name ?? '',
    ...(title !== undefined && { title }),
    setting,
    counter,
    counterCarry: counterLine?.carry ?? 'carry',
    result,
    dials: resultLine?.dials ?? false,
    ...(resultLine?.reach && { reach: whole(resultLine.reach) }),
    carriage: carriageLine ? whole(carriageLine.places) : counterLine ? counter : result - setting + 1,
    subtract,
    count: line<'count'>('count')?.way ?? 'follow',
    park: lines.has('park') || subtract === 'half-step',
    bell: lines.has('bell'),
    autoClear: lines.has('auto-clear'),
    autoDivide: lines.has('auto-divide'),
    transferResult: !transfer ? 'none' : transfer.at ? 'at 1' : 'anywhere',
    transferCounter: lines.has('transfer counter'),
    effort: effort
      ? { turn: whole(effort.turn), shift: whole(effort.shift), lever: whole(effort.lever) }
      : DEFAULT_EFFORT,
    phrases,
  };
}

const ZERO: NumberSyntax = { kind: 'number', text: '0', figures: '0', isValue: false, decimals: 0, from: 0, to: 0 };

/** Numbers that the profile does not check by itself. */
function numberProblems(lines: ReadonlyMap<string, ProfileSyntax>): ProfileProblem[] {
  const problems: ProfileProblem[] = [];
  for (const [key, line] of lines) {
    const outOfRange = (n: NumberSyntax | undefined, lowest: number, highest: number) => {
      if (!n) return;
      const number = whole(n);
      if (!(number >= lowest && number <= highest)) problems.push({ is: 'out-of-range', line: key, lowest, highest });
    };
    if (line.kind === 'counter') outOfRange(line.places, 1, 20);
    if (line.kind === 'result') outOfRange(line.reach, 1, 20);
    if (line.kind === 'transfer') outOfRange(line.at, 1, 1);
    if (line.kind === 'effort') for (const n of [line.turn, line.shift, line.lever]) outOfRange(n, 0, 1_000_000);
  }
  return problems;
}
