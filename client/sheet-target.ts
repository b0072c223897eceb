/** Of what a panel shows a sheet, and how that goes with the cursor. */
import { type Found, PanelTarget, type Visited } from './panel-target.js';
import type { SheetChoices } from './protocol.js';
import type { PanelState } from './sheet-messages.js';

export class SheetTarget extends PanelTarget<PanelState> {
  /** The cursor stands elsewhere; says whether that may be in another sequence than the one that is shown. */
  follow(visited: Visited, line: number, shown: Found | undefined): boolean {
    return this.visit(visited, { line }, shown) === 'other';
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
}
