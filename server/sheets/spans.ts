/** Pieces of a line, put together. */
import type { Span, Text } from './model.js';

/** The same line with neighbouring strings as one, and nothing empty in it. */
export function tidy(text: Text): Text {
  const spans: Span[] = [];
  for (const span of text) {
    const last = spans.at(-1);
    if (span === '') continue;
    if (typeof span === 'string' && typeof last === 'string') spans[spans.length - 1] = last + span;
    else spans.push(span);
  }
  return spans;
}

/** Items behind one another: `a, b and c`; `and` is what stands before the last, with its blanks. */
export const listed = (items: readonly Text[], and: string): Text =>
  items.flatMap((item, i) => [i === 0 ? '' : i === items.length - 1 ? and : ', ', ...item]);

/** What is to be read of a line, without what it is; a blank is its label. */
export const plainText = (text: Text): string =>
  text
    .map((span) => {
      if (typeof span === 'string') return span;
      if ('strong' in span) return span.strong;
      if ('reading' in span) return span.reading;
      return 'code' in span ? span.code : span.label;
    })
    .join('');
