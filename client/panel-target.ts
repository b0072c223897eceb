/** Of which sequence a panel shows something, and how that goes with the cursor. Knows no editor and asks nobody. */

/** What a panel shows something of. */
export interface Subject {
  readonly uri: string;
  readonly sequence?: string;
  /** Where no sequence is named: that on this line of the document, or above it; counted from 0. */
  readonly line?: number;
  /** The column of the cursor on that line, where what stands there is meant. */
  readonly character?: number;
}

/** As much of the state of a panel as has to do with the cursor. */
export interface Following extends Subject {
  /** The panel goes with the cursor; otherwise it stays with its sequence. */
  readonly follows: boolean;
}

/** As much of a document as has to be known where the cursor goes. */
export interface Visited {
  readonly uri: string;
  readonly version: number;
}

/** What was found in a document: its sequences, and the one that is shown. */
export interface Found {
  readonly sequence?: string;
  readonly sequences: readonly {
    readonly name: string;
    readonly range: { readonly start: { readonly line: number }; readonly end: { readonly line: number } };
  }[];
}

/** In the sequence that is shown; perhaps in another one; where there is nothing to show. */
export type Whereabouts = 'same' | 'other' | 'away';

export class PanelTarget<State extends Following> {
  /** Of what a sequence was found last. */
  private home: Subject | undefined;
  /** The document that the cursor has led to; missing where somebody has asked for what is shown. */
  private visited: string | undefined;
  /** A version of a document that has no sequences. */
  private barren: string | undefined;

  constructor(protected now: State) {}

  get state(): State {
    return this.now;
  }

  private get subject(): Subject {
    const { uri, sequence, line, character } = this.now;
    return {
      uri,
      ...(sequence !== undefined && { sequence }),
      ...(line !== undefined && { line }),
      ...(character !== undefined && { character }),
    };
  }

  protected turnTo(subject: Subject): void {
    const { uri: _, sequence: __, line: ___, character: ____, ...rest } = this.now;
    this.now = { ...rest, ...subject } as State;
  }

  /** Somebody wants to see this. */
  show(subject: Subject): void {
    this.visited = undefined;
    this.turnTo(subject);
  }

  /** The cursor stands elsewhere; says where that is. */
  visit({ uri, version }: Visited, at: Pick<Subject, 'line' | 'character'>, shown: Found | undefined): Whereabouts {
    const { line = 0 } = at;
    const visited = `${version} ${uri}`;
    const isSame = uri === this.now.uri;
    if (!isSame && visited === this.barren) return 'away';
    const there = isSame && shown?.sequences.find(({ range }) => range.start.line <= line && line < range.end.line);
    // Between sequences there is nothing to show instead.
    if (isSame && shown && !there) return 'away';
    this.visited = visited;
    this.turnTo({ uri, ...at });
    return !there || there.name !== shown?.sequence ? 'other' : 'same';
  }

  /** A file, or a folder with all that is in it, has another address now. */
  moved(from: string, to: string): void {
    const { uri } = this.now;
    if (uri === from || uri.startsWith(`${from}/`)) this.now = { ...this.now, uri: to + uri.slice(from.length) };
  }

  /** It goes with the cursor from now on. */
  release(): void {
    this.now = { ...this.now, follows: true };
  }

  /** It stays with a sequence, if there is one; else with its line. */
  hold(sequence: string | undefined): void {
    const name = sequence ?? this.now.sequence;
    if (name !== undefined) this.turnTo({ uri: this.now.uri, sequence: name });
    this.now = { ...this.now, follows: false };
  }

  /**
   * What was found there. Into a file without sequences, such as one of machines, nobody is followed: says whether what was
   * shown before is to be shown again.
   */
  found({ sequence, sequences }: Found): boolean {
    if (sequence !== undefined) this.home = this.subject;
    if (sequences.length > 0 || !this.home || this.home.uri === this.now.uri || !this.visited) return false;
    this.barren = this.visited;
    this.turnTo(this.home);
    return true;
  }
}
