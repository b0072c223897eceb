/** A file with adapted sequences in the place of the old ones. */
import { crankFences, marginOf } from '../../../grammar/markdown.js';
import { splitLines } from '../../../grammar/sections.js';
import type { SequenceSection } from '../../../grammar/tree.js';
import { isMarkdown } from '../../sequence/library.js';
import { CannotRun } from '../files.js';
import type { Bringing } from '../machines.js';
import { type Adapted, withoutTail } from './adapted.js';

/** Lines `from` to `to`, without `to` itself, become others. */
interface Change {
  readonly from: number;
  readonly to: number;
  readonly lines: readonly string[];
}

/**
 * The text of the file with every adapted sequence in its place, and with what makes the machine visible. All other
 * lines stay to the letter, with their ends; what is new ends as the first line does.
 */
export function rewritten(
  file: string,
  text: string,
  adapted: readonly Adapted[],
  bringing: Bringing | undefined,
): string {
  const bom = text.startsWith('\ufeff') ? '\ufeff' : '';
  const body = text.slice(bom.length);
  const written = splitLines(body);
  const ends: string[] = body.match(/\r\n|\n|\r/g) ?? [];
  const end = ends[0] ?? '\n';
  const margin = marginsOf(file, written);
  const changes = adapted.flatMap(({ placed: { section, line: from }, outcome }): Change[] => {
    if (outcome.is !== 'adapted') return [];
    const to = from + ownLines(section);
    const before = margin(from, to);
    return [{ from, to, lines: withoutTail(outcome.lines).map((line) => before + line) }];
  });
  const [first] = changes;
  const isUse = first && bringing && 'use' in bringing;
  const all = isUse ? [useLine(written, first.from, margin(first.from, first.to), bringing.use), ...changes] : changes;
  let next = 0;
  let out = bom;
  const keep = (to: number) => {
    for (; next < to; next++) out += written[next] + (ends[next] ?? '');
  };
  for (const { from, to, lines } of [...all].sort((a, b) => a.from - b.from || a.to - b.to)) {
    keep(from);
    out += lines.map((line) => line.trimEnd() + end).join('');
    next = to;
  }
  keep(written.length);
  if (!bringing || 'use' in bringing) return out;
  return `${out.replace(/[\r\n]*$/, end)}${end}${bringing.lines.join(end)}${end}`;
}

/**
 * What stands before the lines of a sequence on a page, in a quotation or a list. Throws where a sequence goes on in
 * another block: the page's own text stands between its lines.
 */
function marginsOf(file: string, written: readonly string[]): (from: number, to: number) => string {
  if (!isMarkdown(file)) return () => '';
  const fences = crankFences(written.join('\n'));
  return (from, to) => {
    const fence = fences.find((one) => from >= one.from && from < one.to);
    if (fence && to <= fence.to) return marginOf(written[fence.from - 1]);
    throw new CannotRun(
      `${file}, line ${from + 1}: this sequence goes on in another block, and the page's text would be lost. Put it into one block first.`,
    );
  };
}

/** Lines of a section that are its own: what stands behind them is about what follows. */
const ownLines = ({ lines }: SequenceSection): number => withoutTail(lines.map(({ text }) => text)).length;

/** Behind the last `use` above the first sequence that changes, or right above that one and its comments. */
function useLine(written: readonly string[], first: number, margin: string, use: string): Change {
  const above = written.slice(0, first);
  const last = above.findLastIndex((line) => /^[\s>]*use\s*"/.test(line));
  if (last >= 0) return { from: last + 1, to: last + 1, lines: [margin + use] };
  let at = first;
  while (at > 0 && written[at - 1].slice(margin.length).startsWith('#') && written[at - 1].startsWith(margin)) at--;
  return { from: at, to: at, lines: [margin + use, margin] };
}
