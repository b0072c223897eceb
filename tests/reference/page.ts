/** Reads REFERENCE.md as the tests need it: its sections, its entries, and the examples in them. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import MarkdownIt from 'markdown-it';

/** The page, from the folder of the tests. */
export const PAGE_PATH = '../../grammar/REFERENCE.md';
export const pageText = (): string => readFileSync(fileURLToPath(new URL(PAGE_PATH, import.meta.url)), 'utf8');

/** What a fence is: something right, something wrong, or the machines that both may use. */
export type FenceKind = 'example' | 'mistake' | 'machines';

export interface Fence {
  readonly kind: FenceKind;
  /** The name of the file that it is; examples without one are the file that is checked. */
  readonly file?: string;
  /** It stands by itself, without the machines of the page. */
  readonly isAlone: boolean;
  /** It is a Markdown page. */
  readonly isPage: boolean;
  readonly text: string;
  /** Line of the page on which it opens, from 1. */
  readonly line: number;
  /** The headings it stands under. */
  readonly section: string;
  readonly entry: string;
}

/** What stands under a heading of the second or third level, up to the next one. */
export interface Entry {
  readonly section: string;
  /** The heading of the third level; empty for what stands before the first one. */
  readonly title: string;
  readonly text: string;
  readonly fences: readonly Fence[];
}

export interface Page {
  readonly entries: readonly Entry[];
  readonly fences: readonly Fence[];
}

const markdown = new MarkdownIt('commonmark', { html: true });

export function readPage(text: string): Page {
  const lines = text.split('\n');
  const entries: { section: string; title: string; from: number; fences: Fence[] }[] = [
    { section: '', title: '', from: 0, fences: [] },
  ];
  const tokens = markdown.parse(text, {});
  tokens.forEach((token, i) => {
    const last = entries[entries.length - 1];
    const from = token.map?.[0] ?? 0;
    if (token.type === 'heading_open' && (token.tag === 'h2' || token.tag === 'h3')) {
      const title = tokens[i + 1].content;
      entries.push({
        section: token.tag === 'h2' ? title : last.section,
        title: token.tag === 'h2' ? '' : title,
        from,
        fences: [],
      });
    }
    if (token.type !== 'fence') return;
    const [kind, ...details] = token.info.trim().split(/\s+/);
    const named = /^crank-(example|mistake|machines)$/.exec(kind)?.[1];
    if (!named) return;
    const file = details.find((detail) => detail.startsWith('file='))?.slice('file='.length);
    last.fences.push({
      kind: named as FenceKind,
      ...(file !== undefined && { file }),
      isAlone: details.includes('alone'),
      isPage: details.includes('page'),
      text: token.content,
      line: from + 1,
      section: last.section,
      entry: last.title,
    });
  });
  const finished = entries.map(({ section, title, from, fences }, i) => {
    const to = entries[i + 1]?.from ?? lines.length;
    return { section, title, text: lines.slice(from, to).join('\n'), fences };
  });
  return { entries: finished, fences: finished.flatMap(({ fences }) => fences) };
}

/** The name under which the machines of the page are known to the examples. */
const MACHINES = 'machines.crank';

/** An example as a file of its own, and the other files that it may use. */
export function asFiles(page: Page, fence: Fence): { text: string; others: Record<string, string> } {
  const use = `use "${MACHINES}"\n`;
  const machines = page.fences.filter(({ kind }) => kind === 'machines').map(({ text }) => text);
  if (machines.length !== 1) throw new Error(`The page has ${machines.length} fences with machines, not one`);
  const others: Record<string, string> = { [MACHINES]: machines[0] };
  for (const { kind, file, text, section, entry } of page.fences) {
    const isBeside = kind === fence.kind && section === fence.section && entry === fence.entry;
    if (isBeside && file !== undefined) others[file] = use + text;
  }
  const before = fence.isAlone ? '' : fence.isPage ? `\`\`\`crank\n${use}\`\`\`\n\n` : use;
  return { text: before + fence.text, others };
}
