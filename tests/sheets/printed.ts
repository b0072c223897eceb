/** What came of a sheet on paper, as its PDF tells: which pieces stand on which page, and what each page ends with. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A piece that must not be split, and how often some of it stands on a page: one that is split is counted twice. */
export type Counts = Readonly<Record<'headings' | 'items' | 'rows' | 'figures', number>>;

export interface PrintedPage {
  readonly counts: Counts;
  /** Roles of the lowest line, the outermost first: `Document`, …, `H2`. */
  readonly endsWith: readonly string[];
  /** What is left between the words and the edges of the paper, in points. */
  readonly right: number;
  readonly bottom: number;
}

interface StructNode {
  readonly role?: string;
  readonly type?: string;
  readonly id?: string;
  readonly children?: readonly StructNode[];
}

/** Reads a tagged PDF. The foot of the pages is no content. */
export async function pagesOf(pdf: Uint8Array): Promise<PrintedPage[]> {
  const read = await getDocument({ data: new Uint8Array(pdf) }).promise;
  const pages = Array.from({ length: read.numPages }, async (_, i): Promise<PrintedPage> => {
    const page = await read.getPage(i + 1);
    const counts = { headings: 0, items: 0, rows: 0, figures: 0 };
    const roles = new Map<string, readonly string[]>();
    const isThere = (node: StructNode, path: readonly string[]): boolean => {
      if (node.id !== undefined) roles.set(node.id, path);
      const { role = '', children = [] } = node;
      const within = [...path, role];
      const there = children.map((child) => isThere(child, within));
      const has = (wanted: string): boolean => children.some((child, at) => child.role === wanted && there[at]);
      if (/^H\d$/.test(role) && there.includes(true)) counts.headings++;
      if (role === 'LI' && there.includes(true)) counts.items++;
      if (role === 'TR' && has('TD')) counts.rows++;
      if (role === 'Figure' && has('Figure')) counts.figures++;
      return node.id !== undefined || there.includes(true);
    };
    isThere((await page.getStructTree()) as StructNode, []);
    const [, , width] = page.view;
    let [id, lowest, furthest] = ['', Number.POSITIVE_INFINITY, 0];
    let endsWith: readonly string[] = [];
    const { items } = await page.getTextContent({ includeMarkedContent: true });
    for (const item of items) {
      if (!('str' in item)) {
        // Spans within a piece have no name of their own.
        if (item.type === 'beginMarkedContentProps' && item.id) id = item.id;
        continue;
      }
      const path = roles.get(id);
      if (!path || item.str.trim() === '') continue;
      const [, , , , x, y] = item.transform;
      furthest = Math.max(furthest, x + item.width);
      if (y >= lowest) continue;
      lowest = y;
      endsWith = path;
    }
    return { counts, endsWith, right: width - furthest, bottom: lowest };
  });
  const all = await Promise.all(pages);
  await read.destroy();
  return all;
}
