/** Fixes for items that can't be read. A repair is offered only if the item, or the line, can be read with it. */
import type { TextEdit } from 'vscode-languageserver';
import { LineReader } from '../../../grammar/lines.js';
import { nearest } from '../../../grammar/nearest.js';
import { wordOf } from '../../../grammar/tokens.js';
import { isBlank, lastLineOf } from '../extent.js';
import { indentOf } from './edits.js';
import { namesTaken, nextFree } from './free-names.js';
import type { Around, Fix, Subject } from './subject.js';
import { redrafted } from './trial.js';

export function syntaxFixes(subject: Subject<'syntax'>): Fix[] {
  const { draft, at, facts, words } = subject;
  const { problem } = facts;
  const { line } = at;
  const { from, to } = at.syntax;
  const text = draft.text(line);
  const put = (start: number, end: number, newText: string): TextEdit =>
    draft.replace({ line, syntax: { from: start, to: end } }, newText);
  switch (problem.is) {
    case 'not-a-step':
    case 'not-a-line':
    case 'not-a-section': {
      const near = 'nearest' in problem ? problem.nearest : undefined;
      if (near) return [{ title: words.changeTo(near), edits: [put(from, to, near)], isPreferred: true }];
      return ownLine(subject);
    }
    case 'no-section':
      return newSection(subject, problem.found);
    case 'form':
      return repairs(subject, problem.forms);
    case 'keyword-as-name': {
      const name = nextFree(`${problem.found}-1`, namesTaken(subject));
      return [{ title: words.changeTo(name), edits: [put(from, to, name)], isPreferred: true }];
    }
    case 'unclosed-text':
      return closedText(subject);
    case 'text-escape': {
      const isPath = draft.section.kind === 'use';
      const written = text.slice(from, to);
      const escaped = written.replace(/\\(["\\])|\\/g, (pair, second) => (second ? pair : isPath ? '/' : '\\\\'));
      const mended = isPath ? escaped.replaceAll('\\\\', '/') : escaped;
      return readable(subject, {
        title: words.changeTo(mended),
        edits: [put(from, to, mended)],
        isPreferred: true,
        isSafe: true,
      });
    }
    case 'stray-brace':
      return [{ title: words.leaveOut('}'), edits: [draft.remove(at)], isPreferred: true }];
    case 'unclosed-brace':
      return closedBrace(subject);
    case 'number-point':
      return points(subject);
    case 'wrong-section':
    case 'line-too-long':
    case 'too-deep':
      return [];
  }
}

/** Keeps a fix of one line if fewer items of the line are unreadable with it. */
function readable({ draft, placed }: Around, ...fixes: Fix[]): Fix[] {
  const reader = new LineReader();
  return fixes.filter(({ edits: [edit] }) => {
    const line = edit.range.start.line - placed.line;
    const text = draft.text(line);
    const written = text.slice(0, edit.range.start.character) + edit.newText + text.slice(edit.range.end.character);
    const { errors } = placed.section.lines[line];
    return reader.read(written, placed.section.kind).errors.length < errors.length;
  });
}

/** Longer sections are not read again on trial. */
const MOST_LINES = 10_000;

/** Keeps a fix if fewer items of the section, or of those that it becomes, are unreadable with it. */
function readableAsWhole({ document, placed }: Around, fix: Fix): Fix[] {
  const { errors, lines } = placed.section;
  if (lines.length > MOST_LINES) return [fix];
  const after = redrafted(document, placed, fix.edits).reduce((sum, section) => sum + section.errors.length, 0);
  return after < errors.length ? [fix] : [];
}

/** What is wrong in the form of a step, and what it was meant to be: the first repairs that can be read. */
function repairs(subject: Subject<'syntax'>, forms: readonly string[]): Fix[] {
  const { draft, at, words } = subject;
  const { line, syntax } = at;
  const text = draft.text(line);
  const found = text.slice(syntax.from, syntax.to);
  const fix = (from: number, to: number, newText: string, isPreferred: boolean): Fix => {
    const item = `${text.slice(Math.max(0, from - 12), from)}${newText}${text.slice(to, to + 8)}`.trim();
    const title = newText === '' ? words.leaveOut(text.slice(from, to).trim()) : words.changeTo(newText.trim() || item);
    return { title, edits: [draft.replace({ line, syntax: { from, to } }, newText)], isPreferred };
  };
  const tried: Fix[] = [];
  const known = new Set(forms.join(' ').match(/[a-z][a-z-]*/g) ?? []);
  const near = nearest(found, known);
  if (near && near !== found) tried.push(fix(syntax.from, syntax.to, near, true));
  // A comma for the point, as much of Europe writes it.
  const comma = /(\d[\d_']*),(\d[\d_']*)/g;
  for (const match of text.matchAll(comma)) {
    const end = match.index + match[0].length;
    if (match.index <= syntax.to && end >= syntax.from) {
      tried.push(fix(match.index, end, `${match[1]}.${match[2]}`, true));
    }
  }
  for (const word of ['by', '=', 'to']) {
    if (forms.some((form) => form.includes(` ${word} `))) tried.push(fix(syntax.from, syntax.from, `${word} `, true));
  }
  const surplus = /^[^;{}#]*/.exec(text.slice(syntax.from))?.[0].trimEnd().length ?? 0;
  const blanks = /\s*$/.exec(text.slice(0, syntax.from))?.[0].length ?? 0;
  if (found.length > 0 && surplus > 0) tried.push(fix(syntax.from - blanks, syntax.from + surplus, '', false));
  return readable(subject, ...tried).slice(0, 2);
}

/** A section that is opened behind other items goes to a line of its own. */
function ownLine(subject: Subject<'syntax'>): Fix[] {
  const { draft, at, words, document } = subject;
  const { line, syntax } = at;
  const text = draft.text(line);
  const ahead = /\s*;\s*$/.exec(text.slice(0, syntax.from))?.[0].length;
  if (ahead === undefined) return [];
  const glue = document.eol + draft.margin(line).trimEnd();
  const edit = draft.replace({ line, syntax: { from: syntax.from - ahead, to: syntax.from } }, glue);
  return readableAsWhole(subject, { title: words.onOwnLine, edits: [edit], isPreferred: true });
}

/** Steps that stand in no section get a header above them, on a machine that is known here. */
function newSection(subject: Subject<'syntax'>, found: string): Fix[] {
  const { draft, at, words, document } = subject;
  if (!wordOf(found)?.kinds.includes('step') || !draft.isFirst(at)) return [];
  const scope = document.library.scope(document.file);
  const machines = scope.machineNames().slice(0, MOST_CHOICES);
  const name = nextFree(words.sequenceName, new Set(scope.sequenceNames()));
  return machines.map((machine) => {
    const header = `sequence ${name} on ${machine}`;
    const edits = [draft.linesBefore(at.line, [header], draft.margin(at.line).trimEnd())];
    return { title: words.putAbove(header), edits, isPreferred: machines.length === 1 };
  });
}
const MOST_CHOICES = 12;

/** The mark goes to the end of the item, or of the line, wherever more can be read with it. */
function closedText(subject: Subject<'syntax'>): Fix[] {
  const { draft, at, words, placed } = subject;
  const { line } = at;
  const text = draft.text(line);
  const reader = new LineReader();
  const errors = (end: number) =>
    reader.read(`${text.slice(0, end)}"${text.slice(end)}`, placed.section.kind).errors.length;
  const ends = [at.syntax.to, text.trimEnd().length];
  const best = errors(ends[1]) < errors(ends[0]) ? ends[1] : ends[0];
  return readable(subject, { title: words.closeText, edits: [draft.insert(line, best, '"')], isPreferred: true });
}

/** The brace goes behind the lines that are written further in than their `repeat`, or behind the last step. */
function closedBrace(subject: Subject<'syntax'>): Fix[] {
  const { draft, at, words, placed } = subject;
  const { lines } = placed.section;
  const { line } = at;
  const fix = (edit: TextEdit): Fix[] =>
    readableAsWhole(subject, { title: words.closeBrace, edits: [edit], isPreferred: true });
  const code = lines[line].comment ? lines[line].text.slice(0, lines[line].comment.from) : lines[line].text;
  if (
    code
      .slice(at.syntax.to)
      .replace(/^\s*\{/, '')
      .trim() !== ''
  )
    return fix(draft.insert(line, code.trimEnd().length, ' }'));
  const own = indentOf(lines[line].text);
  const last = lastLineOf(placed.section);
  let end = line;
  for (let next = line + 1; next <= last; next++) {
    if (draft.isProse(next)) break;
    if (isBlank(lines[next])) continue;
    if (indentOf(lines[next].text) <= own) break;
    end = next;
  }
  if (end === line) end = Math.max(line, last);
  return fix(draft.linesAfter(end, ['}'], draft.margin(line)));
}

/** A point that has figures on one side only. */
function points(subject: Subject<'syntax'>): Fix[] {
  const { draft, at, words } = subject;
  const { line, syntax } = at;
  const text = draft.text(line);
  const ahead = /[\d_']*$/.exec(text.slice(0, syntax.from))?.[0] ?? '';
  const behind = /^[\d_']*/.exec(text.slice(syntax.to))?.[0] ?? '';
  if (ahead === '' && behind !== '') {
    const edits = [draft.insert(line, syntax.from, '0')];
    return readable(subject, { title: words.changeTo(`0.${behind}`), edits, isPreferred: true, isSafe: true });
  }
  if (ahead === '' || behind !== '') return [];
  return readable(
    subject,
    { title: words.changeTo(ahead), edits: [draft.replace(at, '')], isPreferred: true },
    { title: words.changeTo(`${ahead}.0`), edits: [draft.insert(line, syntax.to, '0')] },
  );
}
