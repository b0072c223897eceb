/** Of what a panel shows a sheet, and how that goes with the cursor. Knows no editor and asks nobody. */
import type { SheetAnswer, SheetChoices } from './protocol.js';
import type { PanelState, SheetSubject } from './sheet-messages.js';

/** As much of a document as has to be known where the cursor goes. */
export interface Visited {
  readonly uri: string;
  readonly version: number;
}

type Shown = Pick<SheetAnswer, 'sequence' | 'sequences'>;

export class SheetTarget {
  /** Of what a sequence was found last. */
  private home: SheetSubject | undefined;
  /** The document that the cursor has led to; missing where somebody has asked for what is shown. */
  private visited: string | undefined;
  /** A version of a document that has no sequences. */
  private barren: string | undefined;

  constructor(private now: PanelState) {}

  get state(): PanelState {
    return this.now;
  }

  private get subject(): SheetSubject {
    const { uri, sequence, line } = this.now;
    return { uri, ...(sequence !== undefined && { sequence }), ...(line !== undefined && { line }) };
  }

  private turnTo(subject: SheetSubject): void {
    const { follows, choices } = this.now;
    this.now = { ...subject, follows, choices };
  }

  /** Somebody wants to see this. */
  show(subject: SheetSubject): void {
    this.visited = undefined;
    this.turnTo(subject);
  }

  /** The cursor stands elsewhere; says whether that may be in another sequence than the one that is shown. */
  follow({ uri, version }: Visited, line: number, shown: Shown | undefined): boolean {
    const visited = `${version} ${uri}`;
    const isSame = uri === this.now.uri;
    if (!isSame && visited === this.barren) return false;
    const at = isSame && shown?.sequences.find(({ range }) => range.start.line <= line && line < range.end.line);
    // Between sequences there is nothing to show instead.
    if (isSame && shown && !at) return false;
    this.visited = visited;
    this.turnTo({ uri, line });
    return !at || at.name !== shown?.sequence;
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

  choose(choice: SheetChoices): void {
    this.now = { ...this.now, choices: { ...this.now.choices, ...choice } };
  }

  /** Forgets what was chosen; says whether there was anything. */
  forgetChoices(): boolean {
    const hadSome = Object.keys(this.now.choices).length > 0;
    this.now = { ...this.now, choices: {} };
    return hadSome;
  }

  /**
   * What was found there. Into a file without sequences, such as one of machines, nobody is followed: says whether what was
   * shown before is to be shown again.
   */
  found({ sequence, sequences }: Shown): boolean {
    if (sequence !== undefined) this.home = this.subject;
    if (sequences.length > 0 || !this.home || this.home.uri === this.now.uri || !this.visited) return false;
    this.barren = this.visited;
    this.turnTo(this.home);
    return true;
  }
}
