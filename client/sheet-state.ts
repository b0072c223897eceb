/** What is kept of sheets. */
import { field, followingFrom } from './kept.js';
import type { SheetChoices } from './protocol.js';
import type { PanelState } from './sheet-messages.js';

const CHOICES = ['kind', 'language', 'paper', 'figures'] as const satisfies readonly (keyof SheetChoices)[];

export function choicesFrom(kept: unknown): SheetChoices {
  const entries = CHOICES.map((name) => [name, field(kept, name)] as const);
  return Object.fromEntries(entries.filter(([, value]) => typeof value === 'string'));
}

/** The state of a panel; undefined where it can't be told of what it was. */
export function stateFrom(kept: unknown): PanelState | undefined {
  const following = followingFrom(kept);
  return following && { ...following, choices: choicesFrom(field(kept, 'choices')) };
}
