/** Fixes for names: of machines, sequences, parameters, labels and files. */
import type { TextEdit } from 'vscode-languageserver';
import { nearest } from '../../../grammar/nearest.js';
import type { Assignment, SequenceSection } from '../../../grammar/tree.js';
import { resolveUse } from '../../sequence/uses.js';
import type { ParsedDocument } from '../document.js';
import { isComment } from '../extent.js';
import { Draft, INDENT } from './edits.js';
import { namesTaken, nextFree, pathTo } from './free-names.js';
import type { Around, Fix, Subject } from './subject.js';

/** Files, or machines, that are offered at one name. */
const MOST_OFFERED = 12;
/** Files that are looked through for a name. */
const MOST_FILES = 5_000;

export function unknownNameFixes(subject: Subject<'unknown-name'>): Fix[] {
  const { draft, at, facts, words } = subject;
  const { kind, name, nearest: near } = facts;
  const fixes: Fix[] = [];
  if (near) fixes.push({ title: words.changeTo(near), edits: [draft.replace(at, near)], isPreferred: true });
  if (kind === 'parameter') return [...fixes, ...parameterFixes(subject)];
  if (kind === 'label') return fixes;
  for (const file of declaring(subject, kind, name)) {
    const edits = useEdits(subject, file);
    if (edits) fixes.push({ title: words.useFile(edits.path), edits: [edits.edit], isPreferred: !near });
  }
  if (kind === 'machine') return [...fixes, newMachine(subject, name)];
  const on = (draft.section as SequenceSection).header?.on;
  const header = `sequence ${name}${on ? ` on ${on.name}` : ''}`;
  return [...fixes, { title: words.putBelow(header), edits: [draft.atEnd(['', header])] }];
}

/** A parameter that is not known: `a-b` may have been meant to subtract; else it can be given to the sequence. */
function parameterFixes({ draft, at, facts, words }: Subject<'unknown-name'>): Fix[] {
  const { section } = draft;
  if (section.kind !== 'sequence' || !section.header) return [];
  const { header } = section;
  const { name } = facts;
  const known = new Set(header.parameters.map((parameter) => parameter.name.name));
  const parts = name.split('-');
  const isDifference = parts.length > 1 && parts.every((part) => known.has(part) || /^\d+$/.test(part));
  const inGoal = section.lines[at.line].items.some(
    (item) => item.kind === 'goal' && item.from <= at.syntax.from && at.syntax.to <= item.to,
  );
  if (isDifference && inGoal) {
    const difference = parts.join(' - ');
    return [{ title: words.changeTo(difference), edits: [draft.replace(at, difference)], isPreferred: true }];
  }
  const given = section.lines[at.line].items.flatMap((item) =>
    item.kind === 'case' ? item.assignments.filter((a) => a.name.name === name) : [],
  );
  const value = given[0]?.value.text ?? '1';
  const last = header.parameters.at(-1);
  const edit = last
    ? draft.insert(0, last.to, `, ${name} = ${value}`)
    : draft.insert(0, (header.title ?? header.name).to, ` (${name} = ${value})`);
  return [{ title: words.newParameter(`${name} = ${value}`), edits: [edit] }];
}

/** The known files that declare a machine or sequence of that name and do not use this one in turn. */
function declaring({ document }: Around, kind: 'machine' | 'sequence', name: string): string[] {
  const { library, file } = document;
  const found: string[] = [];
  for (const other of library.fileNames().slice(0, MOST_FILES)) {
    if (other === file) continue;
    const { machines, sequences } = library.declarations(other);
    if (!(kind === 'machine' ? machines : sequences).has(name)) continue;
    if (library.reachable(other).includes(file)) continue;
    found.push(other);
    if (found.length >= MOST_OFFERED) break;
  }
  return found;
}

/** A `use` line for a file, below the others or above the first section. */
function useEdits(subject: Around, target: string): { readonly path: string; readonly edit: TextEdit } | undefined {
  const { document } = subject;
  const path = pathTo(document.file, target);
  if (path === undefined) return undefined;
  const line = `use "${path}"`;
  const { sections } = document.tree;
  const last = sections.findLast(({ section }) => section.kind === 'use');
  if (last) {
    const draft = new Draft(document, last);
    return { path, edit: draft.linesAfter(0, [line], draft.margin(0)) };
  }
  const first = sections.find(({ section }) => section.kind !== 'preamble') ?? subject.placed;
  return { path, edit: aboveSection(document, first.line, [line, '']) };
}

/** Lines above a section and the comment that speaks of it. */
function aboveSection(document: ParsedDocument, line: number, lines: readonly string[]): TextEdit {
  let top = line;
  while (top > 0 && /^[\s>]*#/.test(document.lines[top - 1] ?? '')) top--;
  const margin = /^(?:[ \t]*>)*[ \t]*/.exec(document.lines[line] ?? '')?.[0] ?? '';
  const text = lines.map((one) => (one === '' ? margin.trimEnd() : margin + one) + document.eol).join('');
  const start = { line: top, character: 0 };
  return { range: { start, end: start }, newText: text };
}

/** A machine to begin with: its lines have to be filled in. */
function newMachine({ document, placed, words }: Around, name: string): Fix {
  const lines = [`machine ${name}`, 'setting 9', 'counter 8', 'result 13'];
  const written = [...lines.map((line, i) => (i === 0 ? line : INDENT + line)), ''];
  return { title: words.putAbove(lines[0]), edits: [aboveSection(document, placed.line, written)] };
}

export function duplicateNameFixes(subject: Subject<'duplicate-name'>): Fix[] {
  const { draft, at, facts, words, document } = subject;
  const { section } = draft;
  const { kind, name } = facts;
  // The names of two files that are used together: they are changed there.
  if (section.kind === 'use') return [];
  if (kind === 'parameter') return repeatedParameter(subject);
  const free = nextFree(name, kind === 'label' ? labelsOf(section as SequenceSection) : namesTaken(subject));
  const edits = [draft.replace(at, free)];
  if (kind === 'label') return [{ title: words.changeTo(free), edits, isPreferred: true }];
  // Where the other stands in a file that is used, this one is what the name means here.
  const { machines, sequences } = document.library.declarations(document.file);
  const isFirst = (kind === 'machine' ? machines : sequences).get(name) === section;
  return [{ title: words.changeTo(free), edits, isPreferred: !isFirst }];
}

const labelsOf = (section: SequenceSection): Set<string> =>
  new Set(
    section.lines.flatMap(({ items }) =>
      items.flatMap((item) => (item.kind === 'expect' ? item.items.flatMap(({ label }) => label?.name ?? []) : [])),
    ),
  );

/** In a header it may be another one; in a case it is given twice. */
function repeatedParameter({ draft, at, facts, words }: Subject<'duplicate-name'>): Fix[] {
  const section = draft.section as SequenceSection;
  const { line, syntax } = at;
  const parameters = section.header?.parameters ?? [];
  if (line === 0) {
    const free = nextFree(facts.name, new Set(parameters.map(({ name }) => name.name)));
    return [{ title: words.changeTo(free), edits: [draft.replace(at, free)] }];
  }
  for (const item of section.lines[line].items) {
    if (item.kind !== 'case') continue;
    const index = item.assignments.findIndex(({ name }) => name.from === syntax.from);
    const repeated = item.assignments[index];
    if (!repeated) continue;
    const title = words.leaveOut(draft.text(line).slice(repeated.from, repeated.to));
    return [{ title, edits: [listEdit(draft, line, item.assignments, index)] }];
  }
  return [];
}

/** Takes one of several out of a list parted by commas. */
function listEdit(draft: Draft, line: number, list: readonly Assignment[], index: number): TextEdit {
  const { from, to } = list[index];
  if (index > 0) return draft.replace({ line, syntax: { from: list[index - 1].to, to } }, '');
  return draft.replace({ line, syntax: { from, to: list[index + 1]?.from ?? to } }, '');
}

export function noMachineFixes(subject: Subject<'no-machine'>): Fix[] {
  const { draft, words, document, placed } = subject;
  const { library, file } = document;
  const { header } = placed.section;
  if (header?.kind !== 'sequence') return [];
  const on = (machine: string) => draft.insert(0, header.to, ` on ${machine}`);
  const visible = library.scope(file).machineNames();
  if (visible.length > 0) {
    return [...new Set(visible)]
      .slice(0, MOST_OFFERED)
      .map((machine) => ({ title: words.crankOn(machine), edits: [on(machine)] }));
  }
  const fixes: Fix[] = [];
  for (const other of library.fileNames().slice(0, MOST_FILES)) {
    for (const machine of library.declarations(other).machines.keys()) {
      if (fixes.length >= MOST_OFFERED) break;
      const use = library.reachable(other).includes(file) ? undefined : useEdits(subject, other);
      if (use) fixes.push({ title: words.crankOnFrom(machine, use.path), edits: [use.edit, on(machine)] });
    }
  }
  return [...fixes, newMachine(subject, nextFree(words.machineName, namesTaken(subject)))];
}

/** A path that nearly is that of a known file, or one with the strokes of another system. */
export function fileFixes({ draft, at, facts, words, document }: Subject<'file-not-found'>): Fix[] {
  const { library, file } = document;
  const fix = (path: string): Fix => ({
    title: words.changeTo(`"${path}"`),
    edits: [draft.replace(at, `"${path}"`)],
    isPreferred: true,
  });
  const turned = facts.path.replaceAll('\\', '/');
  const target = resolveUse(file, turned);
  if (turned !== facts.path && 'file' in target && library.problemOf(target.file) === undefined) return [fix(turned)];
  if (facts.why !== 'missing') return [];
  const paths = library
    .fileNames()
    .slice(0, MOST_FILES)
    .filter((other) => library.problemOf(other) === undefined && !library.reachable(other).includes(file))
    .flatMap((other) => pathTo(file, other) ?? []);
  const near = nearest(facts.path, paths);
  return near ? [fix(near)] : [];
}

export function unusedFixes(subject: Subject<'unused'>): Fix[] {
  return subject.facts.kind === 'machine' ? unusedMachine(subject) : unusedParameter(subject);
}

/** The whole section goes, with the comment above it. */
function unusedMachine({ draft, document, placed, facts, words }: Subject<'unused'>): Fix[] {
  const { lines } = placed.section;
  let last = 0;
  for (const [i, line] of lines.entries()) if (line.header || line.items.length > 0 || line.errors.length > 0) last = i;
  if (draft.hasProse(0, last)) return [];
  if (!document.isMarkdown && lines[last + 1]?.text.trim() === '') last++;
  const above = document.tree.sections.find(({ line, section }) => line + section.lines.length === placed.line);
  let first = 0;
  for (let i = (above?.section.lines.length ?? 0) - 1; above && i >= 0 && isComment(above.section.lines[i]); i--)
    first--;
  return [{ title: words.leaveOut(`machine ${facts.name}`), edits: [draft.cut(first, last)] }];
}

/** It goes from the header, from the cases, and from the lines that run the sequence with a number for it. */
function unusedParameter({ draft, document, facts, words }: Subject<'unused'>): Fix[] {
  const { section } = draft;
  if (section.kind !== 'sequence' || !section.header) return [];
  const { parameters, name: own, title, on } = section.header;
  const index = parameters.findIndex(({ name }) => name.name === facts.name);
  if (index < 0 || parameters.filter(({ name }) => name.name === facts.name).length > 1) return [];
  if (isGivenIn(document, own.name, index)) return [];
  const start = (title ?? own).to;
  const edits: TextEdit[] = [
    parameters.length > 1
      ? listEdit(draft, 0, parameters, index)
      : draft.replace({ line: 0, syntax: { from: start, to: closing(draft.text(0), parameters[0].to) } }, ''),
  ];
  if (on && on.from < start) return [];
  for (const { line, syntax } of section.cases) {
    const at = syntax.assignments.findIndex(({ name }) => name.name === facts.name);
    if (at < 0) continue;
    const isAlone = syntax.assignments.length === 1;
    edits.push(isAlone ? draft.remove({ line, syntax }) : listEdit(draft, line, syntax.assignments, at));
  }
  return [{ title: words.leaveOut(facts.name), edits }];
}

const closing = (text: string, from: number): number => text.indexOf(')', from) + 1;

/** Whether somebody runs the sequence with a number for that parameter, or one behind it. */
function isGivenIn({ library }: ParsedDocument, name: string, index: number): boolean {
  for (const file of library.fileNames().slice(0, MOST_FILES)) {
    for (const { section } of library.tree(file)?.sections ?? []) {
      if (section.kind !== 'sequence') continue;
      for (const { items } of section.lines) {
        if (items.some((item) => item.kind === 'run' && item.name.name === name && item.args.length > index))
          return true;
      }
    }
  }
  return false;
}
