/** Fixes for the insets of a page: what is to stand there, put there. Pictures are files, and not made here. */
import type { TextEdit } from 'vscode-languageserver';
import type { Content } from '../../weave/content.js';
import { insetsIn } from '../../weave/findings.js';
import type { WovenInset } from '../../weave/page.js';
import { insetEdit } from '../../weave/written.js';
import type { ParsedDocument } from '../document.js';
import type { Around, Fix, Subject } from './subject.js';

/** A fresh inset changes nothing that the machine does, and takes nothing away that somebody wrote. */
export function staleInsetFixes(subject: Subject<'stale-inset'>): Fix[] {
  const woven = insetOf(subject);
  if (woven?.state.is !== 'stale' || woven.state.content.pictures.length > 0) return [];
  const title = subject.words.fillInset(subject.facts.kind);
  return [{ title, edits: [filled(subject.document, woven, woven.state.content)], isPreferred: true, isSafe: true }];
}

export function badInsetFixes(subject: Subject<'bad-inset'>): Fix[] {
  const { facts, words, document, at, draft } = subject;
  const { why } = facts;
  if (why.is === 'by-hand') {
    const woven = insetOf(subject);
    const content = woven?.state.is === 'bad' ? woven.state.content : undefined;
    if (!woven || !content || content.pictures.length > 0) return [];
    return [{ title: words.overwriteInset, edits: [filled(document, woven, content)] }];
  }
  if (why.is === 'stray-end') return [{ title: words.leaveOutComment, edits: [draft.cut(at.line, at.line)] }];
  const near = 'nearest' in why ? why.nearest : undefined;
  if (near === undefined) return [];
  const wrong = 'word' in why ? why.word : 'name' in why ? why.name : '';
  const text = document.lines[subject.placed.line + at.line] ?? '';
  const from = wordAt(text, wrong, at.syntax.from);
  if (from < 0) return [];
  const edit = draft.replace({ line: at.line, syntax: { from, to: from + wrong.length } }, near);
  return [{ title: words.changeTo(near), edits: [edit], isPreferred: true }];
}

const insetOf = ({ document, placed, at }: Around): WovenInset | undefined =>
  insetsIn(document.report).find(({ inset }) => inset.line === placed.line + at.line);

/** The column of a word that stands by itself in a comment; -1 where it does not. */
function wordAt(text: string, word: string, start: number): number {
  for (let from = text.indexOf(word, start); from >= 0; from = text.indexOf(word, from + 1)) {
    const isWhole = /[\s:]/.test(text[from - 1] ?? '') && /^(?:\s|-->)/.test(text.slice(from + word.length));
    if (isWhole) return from;
  }
  return -1;
}

/** The lines of an inset as an edit of its document. */
export function filled(
  { lines, eol }: ParsedDocument,
  { inset }: Pick<WovenInset, 'inset'>,
  content: Content,
): TextEdit {
  const { from, to, lines: written } = insetEdit({ inset }, content);
  const end = (line: number) => ({ line, character: lines[line]?.length ?? 0 });
  return { range: { start: end(from - 1), end: end(to - 1) }, newText: written.map((line) => eol + line).join('') };
}
