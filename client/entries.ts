/** Cuts the reference into pages. */

/** What the whole reference is called as a page. */
export const WHOLE = 'cranknote';

/** The name of the document that shows a page; the ending is one of Markdown that the language server leaves alone. */
export const pageOf = (entry: string): string => `${entry}.mkd`;

/** Chapters that are lists, by the names of their pages, with what they are called. */
export const LISTS = { findings: 'Findings', settings: 'Settings' } as const;

/**
 * The entries of the reference by their heading, each as a page of its own whose links lead to other pages; and its
 * lists, without the entries below them.
 */
export function entriesOf(text: string): Map<string, string> {
  const entries = new Map<string, string>();
  for (const part of text.split(/^(?=##{1,2} )/m)) {
    const heading = /^### ([a-z-]+)$/m.exec(part);
    if (heading && part.startsWith(heading[0])) entries.set(heading[1], `${part.slice(2).trimEnd()}\n`);
    for (const [list, title] of Object.entries(LISTS)) {
      const chapter = new RegExp(`^## \\d+\\. ${title}\\n`).exec(part);
      if (chapter) entries.set(list, `# ${title}\n${withoutMarks(part.slice(chapter[0].length)).trimEnd()}\n`);
    }
  }
  for (const [entry, page] of entries) {
    const link = (_: string, to: string) => (entries.has(to) ? `](${pageOf(to)})` : `](${pageOf(WHOLE)}#${to})`);
    entries.set(entry, page.replace(/\]\(#([\w-]+)\)/g, link));
  }
  return entries;
}

/** Comments say where a table is made anew, to whoever writes the page. */
const withoutMarks = (text: string): string => text.replace(/^<!--.*-->\n+/gm, '');
