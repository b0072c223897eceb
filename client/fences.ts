/** The `crank` fences of a page, and what the server said of them last. */
import type { FencesResult } from './protocol.js';

/** A fence with what stands below it. */
export interface Fence {
  readonly content: string;
  readonly html: string;
}

/** The fences of an answer, of which some are told by their place in the answer before. */
export const fencesOf = ({ fences }: NonNullable<FencesResult>, before: readonly Fence[]): Fence[] =>
  fences.map((fence) => ({
    content: fence.content,
    html: 'html' in fence ? fence.html : (before[fence.same]?.html ?? ''),
  }));

/**
 * What stands below each fence of a text of which the server may not have said anything yet: it keeps what it had, so
 * that nothing comes and goes while somebody writes.
 *
 * @param contents of the fences, from the top
 * @param told what the server said of this text or an older one
 */
export function below(contents: readonly string[], told: readonly Fence[]): string[] {
  // While one fence is written in, all stay in their places.
  if (contents.length === told.length) return told.map(({ html }) => html);
  const shift = told.length - contents.length;
  const isAt = (i: number, at: number): boolean => told[at]?.content === contents[i];
  let fromTop = 0;
  while (fromTop < contents.length && isAt(fromTop, fromTop)) fromTop++;
  let fromEnd = contents.length;
  while (fromEnd > fromTop && isAt(fromEnd - 1, fromEnd - 1 + shift)) fromEnd--;
  const known = new Map(told.map(({ content, html }) => [content, html]));
  return contents.map((content, i) => {
    if (i < fromTop) return told[i].html;
    if (i >= fromEnd) return told[i + shift].html;
    return known.get(content) ?? '';
  });
}
