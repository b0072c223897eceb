/** Where `use "…"` leads. Files are known by slash-separated paths or addresses; nothing here touches a disk. */
import type { FileProblem } from './findings.js';

/** The file meant by a path written in another file, or why it can't be one. */
export function resolveUse(from: string, path: string): { readonly file: string } | { readonly problem: FileProblem } {
  if (path === '') return { problem: 'missing' };
  if (path.startsWith('/') || path.includes('\\') || /^[a-z][a-z0-9+.-]*:/i.test(path))
    return { problem: 'not-relative' };
  const root = rootOf(from);
  const segments = from.slice(root.length).split('/').slice(0, -1);
  for (const segment of path.split('/')) {
    if (segment === '' || segment === '.') continue;
    if (segment !== '..') segments.push(segment);
    else if (segments.length === 0 || segments.at(-1) === '..') {
      if (root !== '') return { problem: 'outside' };
      segments.push('..');
    } else segments.pop();
  }
  return { file: root + segments.join('/') };
}

/** Where a file's folders begin: no relative path leads from one root to another. */
export const rootOf = (file: string): string => /^(?:[a-z][a-z0-9+.-]*:\/\/[^/]*)?\/?/i.exec(file)?.[0] ?? '';

/** The way from one file to another of the same root, from the folder of the first. */
export function pathFrom(from: string, to: string): string {
  const here = from.split('/').slice(0, -1);
  const there = to.split('/');
  let common = 0;
  while (common < here.length && common < there.length - 1 && here[common] === there[common]) common++;
  return '../'.repeat(here.length - common) + there.slice(common).join('/');
}
