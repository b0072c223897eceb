/** Names that may come next: machines, sequences, parameters, labels. The rules that lead to a name say which. */
import { CompletionItemKind } from 'vscode-languageserver';
import type { NextToken } from '../../../grammar/parser.js';
import { print } from '../../../grammar/printer.js';
import type { MachineSection, SequenceHeader, SequenceSection } from '../../../grammar/tree.js';
import { allSteps } from '../../sequence/names.js';
import type { ParsedDocument } from '../document.js';
import { plain } from '../markdown.js';
import type { Candidate } from './candidate.js';
import { type Context, following, wordsOfItem } from './context.js';

/** The names that one of the tokens that may come next stands for; none where a new name is to be given. */
export function nameCandidates(document: ParsedDocument, context: Context, { rules, calls }: NextToken): Candidate[] {
  const way = rules.slice(-2).join('/');
  const call = calls.at(-1);
  const item = rules[1] ?? rules[0];
  if (item === 'machineHeader') return call === 2 ? machinesToBeLike(document, context) : [];
  if (item === 'sequenceHeader' && way === 'sequenceHeader/name') return call === 2 ? machines(document) : [];
  if (item === 'benchHeader') return call === 2 ? machinesForBench(document, context) : sequencesForBench(document);
  if (way === 'runStep/name') return sequences(document, context);
  if (item === 'caseLine') return unassigned(context);
  if (rules[0] === 'foundLine') return item === 'argument' ? labels(document, context) : [];
  if (way === 'argument/name' || way === 'operand/name') return parameters(context);
  return [];
}

const scopeOf = ({ library, file }: ParsedDocument) => library.scope(file);

function machines(
  document: ParsedDocument,
  isLeftOut: (machine: MachineSection) => boolean = () => false,
): Candidate[] {
  const scope = scopeOf(document);
  return [...new Set(scope.machineNames())].flatMap((name): Candidate[] => {
    const section = scope.machine(name);
    if (!section || isLeftOut(section)) return [];
    const { lines } = document.library.machine(section);
    const registers = (['setting', 'counter', 'result'] as const).flatMap((key) => lines.get(key) ?? []);
    const title = section.header?.title?.value;
    return [
      {
        label: name,
        kind: CompletionItemKind.Class,
        tier: 'first',
        detail: registers.map(print).join(' · '),
        ...(title && { documentation: plain(title) }),
      },
    ];
  });
}

/** Neither the machine itself nor one that is like it. */
function machinesToBeLike(document: ParsedDocument, { begun }: Context): Candidate[] {
  const scope = scopeOf(document);
  const own = begun[1]?.text.normalize('NFC');
  return machines(document, (machine) => {
    if (machine.header?.name.name === own) return true;
    const seen = new Set<MachineSection>();
    for (let next: MachineSection | undefined = machine; next && !seen.has(next); ) {
      seen.add(next);
      const like: string | undefined = next.header?.like?.name;
      if (like === own) return true;
      next = like === undefined ? undefined : scope.machine(like);
    }
    return false;
  });
}

/** The machine for which the sequence is written comes first. */
function machinesForBench(document: ParsedDocument, { begun }: Context): Candidate[] {
  const scope = scopeOf(document);
  const of = begun[begun.findIndex(({ text }) => text === 'of') + 1]?.text.normalize('NFC') ?? '';
  const sequence = scope.sequence(of);
  const written = sequence && scope.machineOf(sequence);
  const all = machines(document);
  const isOwn = ({ label }: Candidate) => written !== undefined && scope.machine(label) === written;
  return all.map((candidate) => (isOwn(candidate) || !written ? candidate : { ...candidate, tier: 'later' }));
}

const parametersText = ({ parameters }: SequenceHeader): string =>
  parameters.length === 0 ? '' : ` (${parameters.map(({ name, value }) => `${name.name} = ${value.text}`).join(', ')})`;

function sequenceCandidate(name: string, header: SequenceHeader): Candidate {
  const given = parametersText(header);
  const title = header.title?.value;
  return {
    label: name,
    kind: CompletionItemKind.Function,
    tier: 'first',
    detail: name + given,
    ...(given && { beside: given }),
    ...(title && { documentation: plain(title) }),
  };
}

function sequencesForBench(document: ParsedDocument): Candidate[] {
  const scope = scopeOf(document);
  return [...new Set(scope.sequenceNames())].flatMap((name) => {
    const header = scope.sequence(name)?.header;
    return header ? [sequenceCandidate(name, header)] : [];
  });
}

/** With places for what the sequence takes; neither the sequence itself nor one that runs it. */
function sequences(document: ParsedDocument, context: Context): Candidate[] {
  const { section } = context.placed;
  const scope = scopeOf(document);
  const names = [...new Set(scope.sequenceNames())];
  const all = names.flatMap((name) => scope.sequence(name) ?? []);
  const around = section.kind === 'sequence' ? runningIt(section, all) : new Set<string>();
  const isGiven = following(context)[0]?.text === '(';
  return all.flatMap((sequence): Candidate[] => {
    const { header } = sequence;
    if (!header || around.has(header.name.name)) return [];
    const name = header.name.name;
    const places = header.parameters.map(({ value }, i) => `\${${i + 1}:${value.text}}`).join(', ');
    const snippet = places && !isGiven ? { snippet: `${name} (${places})` } : {};
    return [{ ...sequenceCandidate(name, header), ...snippet, runs: name }];
  });
}

/** The name of a sequence, and of all that run it, directly or through others. */
function runningIt(own: SequenceSection, all: readonly SequenceSection[]): Set<string> {
  const callers = new Map<string, Set<string>>();
  for (const { header, steps } of all) {
    for (const { syntax } of header ? allSteps(steps) : []) {
      if (syntax.kind !== 'run' || !header) continue;
      callers.set(syntax.name.name, (callers.get(syntax.name.name) ?? new Set<string>()).add(header.name.name));
    }
  }
  const found = new Set(own.header ? [own.header.name.name] : []);
  for (const name of found) for (const caller of callers.get(name) ?? []) found.add(caller);
  return found;
}

function parameters({ placed }: Context): Candidate[] {
  const header = placed.section.kind === 'sequence' ? placed.section.header : undefined;
  return (header?.parameters ?? []).map(({ name, value }) => ({
    label: name.name,
    kind: CompletionItemKind.Variable,
    tier: 'first',
    detail: `${name.name} = ${value.text}`,
  }));
}

/** The parameters to which the `case` has given no number yet. */
function unassigned(context: Context): Candidate[] {
  const given = new Set(wordsOfItem(context).map((word) => word.normalize('NFC')));
  return parameters(context)
    .filter(({ label }) => !given.has(label))
    .map((candidate) => ({ ...candidate, insert: `${candidate.label} = ` }));
}

/** The labels of the sequence that a bench record is about. */
function labels(document: ParsedDocument, { placed }: Context): Candidate[] {
  const of = placed.section.kind === 'bench' ? placed.section.header?.of.name : undefined;
  const sequence = of === undefined ? undefined : scopeOf(document).sequence(of);
  const found = new Map<string, Candidate>();
  for (const { syntax } of sequence ? allSteps(sequence.steps) : []) {
    if (syntax.kind !== 'expect') continue;
    for (const item of syntax.items) {
      if (!item.label || found.has(item.label.name)) continue;
      found.set(item.label.name, {
        label: item.label.name,
        kind: CompletionItemKind.Reference,
        tier: 'first',
        detail: print({ ...syntax, items: [item] }),
      });
    }
  }
  return [...found.values()];
}
