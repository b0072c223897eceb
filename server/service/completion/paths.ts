/** Files for `use "…"`, folder by folder. */
import { CompletionItemKind } from 'vscode-languageserver';
import { resolveUse } from '../../sequence/uses.js';
import type { ParsedDocument } from '../document.js';
import { targetOf } from '../names.js';
import type { Candidate } from './candidate.js';
import { type Context, isClosed } from './context.js';

/** Whether the cursor stands where the path of a `use` line is written. */
export const isAtPath = ({ rule, begun, typed }: Context): boolean =>
  rule === 'header' && begun.length === 1 && begun[0].text === 'use' && typed?.kind !== 'number';

export function pathCandidates(document: ParsedDocument, context: Context, files: readonly string[]): Candidate[] {
  const { text, typed, character, isInText, placed } = context;
  const quoted = isInText && typed ? text.slice(typed.from + 1, character) : '';
  const folder = quoted.slice(0, quoted.lastIndexOf('/') + 1);
  const from = isInText ? character - quoted.length + folder.length : (typed?.from ?? character);
  const used = new Set(
    document.tree.sections.flatMap(({ section }) =>
      section.kind === 'use' && section !== placed.section ? (targetOf(document.file, section) ?? []) : [],
    ),
  );
  const next = new Map<string, boolean>();
  for (const file of files) {
    const target = resolveUse(document.file, file);
    if ('problem' in target || target.file === document.file || used.has(target.file) || /["\r\n]/.test(file)) continue;
    const path = file.replace(/^\.\//, '');
    const shown = folder.replace(/^\.\//, '');
    if (!path.startsWith(shown)) continue;
    const rest = path.slice(shown.length);
    const end = rest.indexOf('/') + 1;
    next.set(end > 0 ? rest.slice(0, end) : rest, end > 0);
  }
  const closing = isInText && typed && isClosed(typed.text) ? typed.to - 1 : undefined;
  return [...next].map(([name, isFolder]): Candidate => {
    const slash = text.indexOf('/', character) + 1;
    const isWithin = closing !== undefined && slash > 0 && slash <= closing;
    const to = closing === undefined ? character : isFolder && isWithin ? slash : closing;
    const end = isFolder || closing !== undefined ? '' : '"';
    return {
      label: name,
      kind: isFolder ? CompletionItemKind.Folder : CompletionItemKind.File,
      tier: isFolder ? 'later' : 'first',
      insert: `${isInText ? '' : '"'}${name}${end}`,
      from,
      to,
    };
  });
}
