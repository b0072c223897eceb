/** What is kept of sheets: read again, perhaps from another version, so that whatever makes no sense is left out. */
import type { SheetChoices } from './protocol.js';
import type { PanelState } from './sheet-messages.js';

const CHOICES = ['kind', 'language', 'paper', 'figures'] as const satisfies readonly (keyof SheetChoices)[];

const field = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[name] : undefined;

export function choicesFrom(kept: unknown): SheetChoices {
  const entries = CHOICES.map((name) => [name, field(kept, name)] as const);
  return Object.fromEntries(entries.filter(([, value]) => typeof value === 'string'));
}

/** The state of a panel; undefined where it can't be told of what it was. */
export function stateFrom(kept: unknown): PanelState | undefined {
  const [uri, sequence, line] = ['uri', 'sequence', 'line'].map((name) => field(kept, name));
  if (typeof uri !== 'string') return undefined;
  return {
    uri,
    ...(typeof sequence === 'string' && { sequence }),
    ...(typeof line === 'number' && Number.isInteger(line) && line >= 0 && { line }),
    follows: field(kept, 'follows') === true,
    choices: choicesFrom(field(kept, 'choices')),
  };
}
