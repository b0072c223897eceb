/** Names in a sequence: parameters, cases, labels, the sequences that it runs. What can be told without running it. */
import { nearest } from '../../grammar/nearest.js';
import type { Argument, Expression, NameSyntax, SequenceSection, Span, Step } from '../../grammar/tree.js';
import { type Facts, type Finding, type NameKind, placeOn } from './findings.js';
import { argumentsOf } from './substitute.js';

/** Findings on the names of a sequence; `sequences` are the names of those that can be run from here. */
export function checkNames(
  section: SequenceSection,
  isSequence: (name: string) => boolean,
  sequences: () => string[],
): Finding[] {
  const findings: Finding[] = [];
  const report = (line: number, span: Span, facts: Facts) => {
    const sequence = section.header?.name.name;
    findings.push({ facts, at: placeOn(section, line, span), ...(sequence && { sequence }) });
  };
  const unknown = (line: number, at: NameSyntax, kind: NameKind, known: Iterable<string>) => {
    const near = nearest(at.name, known);
    report(line, at, { code: 'unknown-name', kind, name: at.name, ...(near && { nearest: near }) });
  };
  const parameters = section.header?.parameters ?? [];
  const used = new Set<string>();
  const known = new Set<string>();
  for (const { name } of parameters) {
    if (known.has(name.name)) report(0, name, { code: 'duplicate-name', kind: 'parameter', name: name.name });
    known.add(name.name);
  }
  const useOf = (line: number, name: NameSyntax) => {
    used.add(name.name);
    if (!known.has(name.name)) unknown(line, name, 'parameter', known);
  };
  for (const { line, syntax } of section.cases) {
    const given = new Set<string>();
    for (const { name } of syntax.assignments) {
      if (!known.has(name.name)) unknown(line, name, 'parameter', known);
      if (given.has(name.name)) report(line, name, { code: 'duplicate-name', kind: 'parameter', name: name.name });
      given.add(name.name);
    }
  }
  for (const { line, syntax } of section.goals) for (const name of namesIn(syntax.expression)) useOf(line, name);
  const labels = new Set<string>();
  for (const { line, syntax } of allSteps(section.steps)) {
    for (const argument of argumentsOf(syntax)) if (isName(argument)) useOf(line, argument);
    if (syntax.kind === 'run' && !isSequence(syntax.name.name)) unknown(line, syntax.name, 'sequence', sequences());
    if (syntax.kind !== 'expect') continue;
    for (const { label } of syntax.items) {
      if (!label) continue;
      if (labels.has(label.name)) report(line, label, { code: 'duplicate-name', kind: 'label', name: label.name });
      labels.add(label.name);
    }
  }
  for (const { name } of parameters) {
    if (!used.has(name.name)) report(0, name, { code: 'unused', kind: 'parameter', name: name.name });
  }
  return findings;
}

const isName = (argument: Argument): argument is NameSyntax => argument.kind === 'name';

/** Every step, those between braces after their `repeat`. */
export function* allSteps(steps: readonly Step[]): Generator<Step> {
  for (const step of steps) {
    yield step;
    if (step.body) yield* allSteps(step.body);
  }
}

/** Every name of an expression, from the left. */
export function namesIn(expression: Expression): NameSyntax[] {
  switch (expression.kind) {
    case 'number':
      return [];
    case 'name':
      return [expression];
    case 'binary':
      return [...namesIn(expression.left), ...namesIn(expression.right)];
    default:
      return namesIn(expression.of);
  }
}
