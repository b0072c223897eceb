/**
 * The written forms of the table of words, such as `set N [at K] [and N [at K]]`, as something that can be followed:
 * which part of a form comes next behind some tokens.
 *
 * A form becomes a small net of states. An edge takes a token, an empty edge takes none: `[ ]` may be gone round, `|`
 * has several edges side by side, `…` leads back.
 */
import { REGISTERS, type RegisterName, wordOf } from '../../../grammar/tokens.js';
import type { Span } from '../../../grammar/tree.js';
import type { Token } from '../spots.js';

/** A word, a sign or a place to be filled in. */
interface Atom extends Span {
  readonly text: string;
  /** The part of the form that it belongs to: missing for `(`, `)` and `,`. */
  part?: number;
}

interface Edge {
  readonly atom: Atom;
  readonly to: number;
}

export interface Form {
  readonly label: string;
  /** The parts behind the first word, as columns of the label: a place to be filled in with the words before it. */
  readonly parts: readonly Span[];
  readonly edges: readonly (readonly Edge[])[];
  readonly empty: readonly (readonly number[])[];
}

const PIECE = /"[^"]*"|[\p{L}-]+|\d+|[[\]|…(),={}]/gu;

const isSign = (text: string): boolean => /^[(),]$/.test(text);
const isPlace = (text: string): boolean => /^(?:[A-Z]+|\d+|".*")$/u.test(text);

export function formOf(label: string): Form {
  // Where a brace opens, the item is at its end.
  const pieces = Array.from(label.matchAll(PIECE), (match): Atom => {
    return { text: match[0], from: match.index, to: match.index + match[0].length };
  });
  const brace = pieces.findIndex(({ text }) => text === '{');
  const written = brace < 0 ? pieces : pieces.slice(0, brace);
  const parts = partsOf(written);
  return { label, parts, ...new Net(written) };
}

/** Gives each piece its part. */
function partsOf(pieces: readonly Atom[]): Span[] {
  const parts: { from: number; to: number }[] = [];
  let isOpen = false;
  for (const [i, piece] of pieces.entries()) {
    const { text, from, to } = piece;
    const isOther = pieces[i - 1]?.text === '|';
    if (i === 0 || /^[[\]…(),]$/.test(text)) {
      isOpen = false;
    } else if (text !== '|') {
      if (!isOpen && !isOther) parts.push({ from, to });
      parts[parts.length - 1].to = to;
      piece.part = parts.length - 1;
      isOpen = !isPlace(text);
    }
  }
  return parts;
}

class Net {
  readonly edges: Edge[][] = [];
  readonly empty: number[][] = [];
  private at = 0;

  constructor(pieces: readonly Atom[]) {
    this.row(pieces, this.state());
  }

  private state(): number {
    this.edges.push([]);
    return this.empty.push([]) - 1;
  }

  /** Pieces one after the other, up to a closing bracket. Returns the last state. */
  private row(pieces: readonly Atom[], start: number): number {
    let now = start;
    const entries: { text: string; state: number }[] = [];
    while (this.at < pieces.length && pieces[this.at].text !== ']') {
      const piece = pieces[this.at++];
      if (piece.text === '[') {
        const end = this.row(pieces, now);
        this.at++;
        const next = this.state();
        this.empty[end].push(next);
        this.empty[now].push(next);
        now = next;
      } else if (piece.text === '…') {
        this.empty[now].push(entries.findLast(({ text }) => text === 'REGISTER')?.state ?? now);
      } else if (piece.text === ',' && pieces[this.at]?.text === '…') {
        this.at++;
        const first = entries.findLastIndex(({ text }) => text === '(');
        const again = entries[first + 1 || 1]?.state ?? now;
        this.edges[now].push({ atom: piece, to: again });
      } else {
        entries.push({ text: piece.text, state: now });
        now = this.choice(pieces, piece, now);
      }
    }
    return now;
  }

  private choice(pieces: readonly Atom[], first: Atom, now: number): number {
    const next = this.state();
    this.edges[now].push({ atom: first, to: next });
    while (pieces[this.at]?.text === '|') {
      this.edges[now].push({ atom: pieces[this.at + 1], to: next });
      this.at += 2;
    }
    // A step or a reckoning may be as long as it likes.
    if (/^(?:STEP|LINE|EXPRESSION)$/.test(first.text)) this.edges[next].push({ atom: first, to: next });
    return next;
  }
}

/** The states in which a form can be behind some tokens; none where they don't fit. */
function statesAfter(form: Form, tokens: readonly Token[]): ReadonlySet<number> {
  let states = closed(form, [0]);
  for (const token of tokens) {
    const next = [...states].flatMap((state) =>
      form.edges[state].filter(({ atom }) => takes(atom, token)).map(({ to }) => to),
    );
    states = closed(form, next);
  }
  return states;
}

function closed({ empty }: Form, states: readonly number[]): Set<number> {
  const all = new Set(states);
  for (const state of all) for (const next of empty[state]) all.add(next);
  return all;
}

function takes({ text }: Atom, token: Token): boolean {
  const isWord = token.kind === 'word';
  switch (text) {
    case 'EXPRESSION':
      return token.kind !== 'text';
    case 'STEP':
    case 'LINE':
      return isWord;
    case 'REGISTER':
      return REGISTERS.includes(token.text as RegisterName);
    case 'NAME':
      return isWord && !wordOf(token.text);
  }
  if (text.startsWith('"')) return token.kind === 'text';
  if (isPlace(text)) return token.kind === 'number' || (isWord && !wordOf(token.text));
  return token.text === text;
}

/** The same for a word that may not be finished yet. */
const mayTake = (atom: Atom, token: Token): boolean =>
  takes(atom, token) ||
  (token.kind === 'word' &&
    (atom.text === 'REGISTER'
      ? REGISTERS.some((register) => register.startsWith(token.text))
      : !isPlace(atom.text) && !isSign(atom.text) && atom.text.startsWith(token.text)));

/** How far a form has been written. */
export type Progress =
  /** Something else is written there. */
  | 'differs'
  /** Nothing can follow. */
  | 'finished'
  /** What comes next or is being written: the number of a part, or undefined for a sign. */
  | {
      readonly part: number | undefined;
      /** What is being written is the beginning of a word of the form. */
      readonly isWord: boolean;
    };

export function progressIn(form: Form, begun: readonly Token[], typed: Token | undefined): Progress {
  const states = statesAfter(form, begun);
  if (states.size === 0) return 'differs';
  const next = [...states].flatMap((state) => form.edges[state]).sort((a, b) => a.atom.from - b.atom.from);
  if (typed) {
    const edge = next.find(({ atom }) => mayTake(atom, typed));
    return edge ? { part: edge.atom.part, isWord: !isPlace(edge.atom.text) } : 'differs';
  }
  if (next.length === 0) return 'finished';
  return { part: next.find(({ atom }) => atom.part !== undefined)?.atom.part, isWord: false };
}
