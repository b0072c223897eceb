/** Names that nothing has yet, and paths from one file to another. */
import type { Around } from './subject.js';

/** A name as it is, or with the first number behind it that makes it free. */
export function nextFree(name: string, taken: { has(name: string): boolean }): string {
  if (!taken.has(name)) return name;
  const [, stem, number] = /^(.*?)(?:-(\d{1,6}))?$/u.exec(name) ?? ['', name];
  for (let n = number ? Number(number) + 1 : 2; ; n++) if (!taken.has(`${stem}-${n}`)) return `${stem}-${n}`;
}

/** The machines and sequences that can be seen from the document. */
export function namesTaken({ document }: Pick<Around, 'document'>): Set<string> {
  const scope = document.library.scope(document.file);
  return new Set([...scope.machineNames(), ...scope.sequenceNames()]);
}

/** How `use` names one file in another; undefined where they have no common root. */
export function pathTo(from: string, to: string): string | undefined {
  const rootOf = (file: string) => /^(?:[a-z][a-z0-9+.-]*:\/\/[^/]*)?\/?/i.exec(file)?.[0] ?? '';
  const root = rootOf(from);
  if (root !== rootOf(to)) return undefined;
  const here = from.slice(root.length).split('/').slice(0, -1);
  const there = to.slice(root.length).split('/');
  let common = 0;
  while (common < here.length && common < there.length - 1 && here[common] === there[common]) common++;
  const path = '../'.repeat(here.length - common) + there.slice(common).join('/');
  return /["\\]/.test(path) ? undefined : path;
}
