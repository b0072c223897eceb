/** Names that nothing has yet, and paths from one file to another. */
import { pathFrom, rootOf } from '../../sequence/uses.js';
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
  if (rootOf(from) !== rootOf(to)) return undefined;
  const path = pathFrom(from, to);
  return /["\\]/.test(path) ? undefined : path;
}
