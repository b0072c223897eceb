/** The new section as it grows: pieces of text in order, each with the step of the old section that it stands for. */
import { formatLines } from '../../../grammar/formatter.js';
import { joinItems, print } from '../../../grammar/printer.js';
import { Parser } from '../../../grammar/sections.js';
import type { HeaderSyntax, LineItem, LineSyntax, SequenceSection } from '../../../grammar/tree.js';
import type { Way } from './way.js';

/** A step, a goal, a case or a brace, as text. */
export interface Piece {
  text: string;
  /** The line of the old section from which it comes, and the key of its step there. */
  line: number;
  key: string;
  /** It stands there as it was written; others were made to do the same. */
  readonly isOwn: boolean;
  /** What stood there in the old section. */
  readonly of: LineItem['kind'];
}

/** A line of the old section with what became of it. */
interface Row {
  readonly line: number;
  readonly syntax: LineSyntax;
  pieces: Piece[];
}

/** What becomes of a step, by its key. */
export type Becomes = ReadonlyMap<string, readonly string[]>;

export class Draft {
  private readonly rows: Row[];

  constructor(
    private readonly section: SequenceSection,
    private readonly machine: string,
    becomes: Becomes,
  ) {
    this.rows = section.lines.slice(0, lastLine(section)).map((syntax, line) => {
      const pieces = syntax.items.flatMap((item): Piece[] => {
        const key = `${line}:${item.from}`;
        const own = print(item as LineItem);
        const texts = becomes.get(key) ?? [own];
        return texts.map((text) => ({ text, line, key, isOwn: text === own, of: item.kind as LineItem['kind'] }));
      });
      return { line, syntax, pieces };
    });
  }

  /** All pieces in the order in which they are written. */
  get pieces(): Piece[] {
    return this.rows.flatMap(({ pieces }) => pieces);
  }

  /** Leaves pieces out. */
  remove(left: ReadonlySet<Piece>): void {
    if (left.size === 0) return;
    for (const row of this.rows) row.pieces = row.pieces.filter((piece) => !left.has(piece));
  }

  /** Puts a piece right behind another. */
  insert(piece: Piece, behind: Piece): void {
    for (const row of this.rows) {
      const at = row.pieces.indexOf(behind);
      if (at >= 0) row.pieces.splice(at + 1, 0, piece);
    }
  }

  /** Moves a made piece behind the one that follows it; from then on it belongs to that one's step. */
  postpone(piece: Piece, behind: Piece): void {
    this.remove(new Set([piece]));
    piece.line = behind.line;
    piece.key = behind.key;
    this.insert(piece, behind);
  }

  /** Lines with words beside steps that have changed; 0 is the header, which is beside all of them. */
  reread({ from, to }: Pick<Way, 'from' | 'to'>): number[] {
    const found: number[] = [];
    const words: number[] = [];
    let wasChanged = false;
    let isAny = false;
    for (const { line, syntax, pieces } of this.rows) {
      let inLine = false;
      for (const item of syntax.items as readonly LineItem[]) {
        if (item.kind === 'note' || item.kind === 'caution') {
          words.push(line);
          if (wasChanged) found.push(line);
          continue;
        }
        if (item.kind === 'goal' || item.kind === 'case') continue;
        const own = pieces.filter(({ key }) => key === `${line}:${item.from}`);
        // The lever is moved in another way: by half a place, by lifting the crank.
        const isByOtherHands = item.kind === 'mode' && from.subtract !== to.subtract;
        wasChanged = own.length !== 1 || own[0].text !== print(item) || isByOtherHands;
        if (wasChanged) found.push(...words);
        words.length = 0;
        inLine ||= wasChanged;
      }
      isAny ||= inLine;
      if (!syntax.comment || line === 0) continue;
      if (syntax.items.length > 0) {
        if (inLine) found.push(line);
        continue;
      }
      words.push(line);
      if (wasChanged) found.push(line);
    }
    if (isAny) found.push(0);
    return [...new Set(found)].sort((a, b) => a - b);
  }

  /** The section's lines, formatted, and for each the pieces that stand on it. */
  render(): { lines: string[]; piecesOn: Piece[][] } {
    const lines: string[] = [];
    const piecesOn: Piece[][] = [];
    const put = (text: string, pieces: Piece[]) => {
      lines.push(text);
      piecesOn.push(pieces);
    };
    for (const { line, syntax, pieces } of this.rows) {
      const comment = syntax.comment ? `  ${syntax.comment.text}` : '';
      if (line === 0) {
        const items = pieces.map(({ text }) => text);
        put(joinItems([this.header(), ...items]) + comment, pieces);
      } else if (syntax.items.length === 0) put(syntax.text, []);
      else if (pieces.length === 0) {
        // The step is gone, what was said of it stays.
        if (syntax.comment) put(`${/^\s*/.exec(syntax.text)?.[0] ?? ''}${syntax.comment.text}`, []);
      } else if (syntax.items.length > 1) {
        put(joinItems(pieces.map(({ text }) => text)) + comment, pieces);
      } else {
        const commented = commentedPiece(pieces, syntax);
        for (const piece of pieces) put(piece.text + (piece === commented ? comment : ''), [piece]);
      }
    }
    return { lines: formatLines(new Parser().parseLines(lines)), piecesOn };
  }

  private header(): string {
    const header = this.section.header as HeaderSyntax & { kind: 'sequence' };
    return print({ ...header, on: { kind: 'name', name: this.machine, from: 0, to: 0 } });
  }
}

/** The piece behind which a line's comment goes: what was written there, or what comes nearest to it. */
function commentedPiece(pieces: readonly Piece[], { items }: LineSyntax): Piece | undefined {
  const isAlike = ({ text }: Piece) => text.split(' ')[0] === items[0].kind;
  return (
    pieces.find(({ isOwn }) => isOwn) ?? pieces.find(isAlike) ?? pieces.find(({ text }) => !text.startsWith('note '))
  );
}

/** With one blank line where there were several: where a page's text stood between the steps. */
export const closedUp = (lines: readonly string[]): string[] =>
  lines.filter((line, i) => line.trim() !== '' || i === 0 || lines[i - 1].trim() !== '');

/** How many lines there are without blank ones at the end, and comments at the margin that belong to what follows. */
function lastLine({ lines }: SequenceSection): number {
  let end = lines.length;
  while (end > 1) {
    const { items, comment, text } = lines[end - 1];
    const isOver = items.length === 0 && (text.trim() === '' || comment?.from === 0);
    if (!isOver) break;
    end--;
  }
  return end;
}
