/** What is kept of panels: read again, perhaps from another version, so that whatever makes no sense is left out. */
import type { Following } from './panel-target.js';

export const field = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[name] : undefined;

/** A field that is a whole number from 0, by its name; nothing where it is none. */
export function count<Name extends string>(kept: unknown, name: Name): { readonly [N in Name]?: number } {
  const value = field(kept, name);
  return (Number.isInteger(value) && (value as number) >= 0 ? { [name]: value } : {}) as { [N in Name]?: number };
}

/** Of what a panel shows something; undefined where it can't be told. */
export function followingFrom(kept: unknown): Following | undefined {
  const [uri, sequence] = ['uri', 'sequence'].map((name) => field(kept, name));
  if (typeof uri !== 'string') return undefined;
  return {
    uri,
    ...(typeof sequence === 'string' && { sequence }),
    ...count(kept, 'line'),
    follows: field(kept, 'follows') === true,
  };
}
