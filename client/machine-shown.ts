/** What is known of the machine that a panel shows: the last answer, and the last machine where that has none. */
import { l10n } from 'vscode';
import type { MachineState, MachineTrouble, MachineView } from './machine-messages.js';
import { placeText } from './places.js';
import type { MachineAnswer, MachineFrame } from './protocol.js';
import { unreadable } from './sheet-out.js';

export class MachineShown {
  private now: MachineAnswer | undefined;
  /** The document that was asked for last. */
  private uri: string | undefined;
  /** The last machine that could be shown, with the answer that brought it. */
  private last: { readonly of: MachineAnswer; readonly frame: MachineFrame } | undefined;
  private trouble: MachineTrouble | undefined;

  get answer(): MachineAnswer | undefined {
    return this.now;
  }

  /** The same, if it is of this document. */
  of(uri: string): MachineAnswer | undefined {
    return this.uri === uri ? this.now : undefined;
  }

  /** @param answer null where the document can't be read any more: what was shown of it stays */
  take(answer: MachineAnswer | null, uri: string): void {
    this.now = answer ?? this.of(uri);
    this.uri = uri;
    if (answer?.frame) this.last = { of: answer, frame: answer.frame };
    this.trouble = answer ? this.troubleIn(answer) : this.withLast(unreadable());
  }

  failed(error: unknown): void {
    this.trouble = this.withLast(error instanceof Error ? error.message : String(error));
  }

  private troubleIn({ trouble, frame, uri }: MachineAnswer): MachineTrouble | undefined {
    if (!trouble) return undefined;
    const { message, at } = trouble;
    const place = at && { place: placeText(at, uri) };
    return { ...(frame ? { message } : this.withLast(message)), ...place };
  }

  private withLast(message: string): MachineTrouble {
    if (!this.frame) return { message };
    return { message, shown: l10n.t('Below is the machine as it could be shown last.') };
  }

  /** An older one stands in for one that there is not, as long as it is of the same sequence. */
  get frame(): MachineFrame | undefined {
    const { now, last } = this;
    const isSame = now && last && last.of.uri === now.uri && last.of.sequence === now.sequence;
    return isSame ? last.frame : undefined;
  }

  view(state: MachineState): MachineView {
    const { now, frame, trouble } = this;
    return {
      state,
      sequence: now?.sequence,
      sequences: now?.sequences ?? [],
      cases: now?.cases ?? [],
      case: now?.case ?? 0,
      trouble,
      frame,
    };
  }
}
