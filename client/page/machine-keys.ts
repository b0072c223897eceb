/** What a key does in the panel that shows the machine. */
import type { Move } from '../protocol.js';

export type Deed = Move | 'start' | 'end' | 'up' | 'down';

/** As much of an event of the keyboard as counts. */
export interface Pressed {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly altKey: boolean;
  readonly metaKey: boolean;
}

/** Keys with another key held are the editor's own. */
export function deedOf({ key, shiftKey, ctrlKey, altKey, metaKey }: Pressed): Deed | undefined {
  if (ctrlKey || altKey || metaKey) return undefined;
  const by = shiftKey ? 'turn' : 'step';
  switch (key) {
    case 'ArrowRight':
      return { by, count: 1 };
    case 'ArrowLeft':
      return { by, count: -1 };
  }
  if (shiftKey) return undefined;
  switch (key) {
    case 'PageDown':
      return { by: 'line', count: 1 };
    case 'PageUp':
      return { by: 'line', count: -1 };
    case 'Home':
      return 'start';
    case 'End':
      return 'end';
    case 'ArrowUp':
      return 'up';
    case 'ArrowDown':
      return 'down';
    default:
      return undefined;
  }
}
