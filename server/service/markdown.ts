/**
 * Text from a file, made safe in Markdown.
 *
 * Invariant: this is the one place where it is done. Whatever somebody has written into a file comes out as text: no
 * link, no picture, no HTML, no code, and nothing that turns the direction of what stands around it.
 */
import { codeOfMarkdown, JOINER, longestTicks, seen } from '../sheets/escape.js';

const WHITE = /[\s\u0085]+/gu;

/** Everything that Markdown lets a backslash stand before. */
const PUNCTUATION = /[!-/:-@[-`{-~]/g;

/**
 * Where an editor would make a link of text without being asked: `http:` and the like, `www.`, and addresses with an
 * `@`. A joiner without width behind the sign breaks them up; it shows nowhere.
 */
const LINKS = /(?<=\p{L}):(?=\/)|(?<=www)\.|@/giu;

/** Text on one line in which nothing is hidden: for plain text as it is, and the first step to the others. */
export const onOneLine = (text: string): string => seen(text).replace(WHITE, ' ');

/** Text as text, on one line; blanks at both ends are dropped. Stands in a paragraph, a list item or a heading. */
export const plain = (text: string): string =>
  onOneLine(text)
    .trim()
    .replace(LINKS, (sign) => `${sign}${JOINER}`)
    .replace(PUNCTUATION, (sign) => `\\${sign}`);

/** Text as code within a line; nothing if it is blank. */
export const code = (text: string): string => codeOfMarkdown(onOneLine(text));

/**
 * Lines as a block of code, aligned as they are. Has to stand at the start of a line.
 *
 * @param language what the editor colours it as: letters, digits and hyphens; nothing for plain text
 */
export function block(lines: readonly string[], language = ''): string {
  const inner = lines.flatMap((line) => line.split(/\r\n|[\n\r\u0085\u2028\u2029\v\f]/).map(seen));
  const fence = '`'.repeat(Math.max(3, ...inner.map((line) => longestTicks(line) + 1)));
  return [`${fence}${language.replace(/[^\w-]/g, '')}`, ...inner, fence].join('\n');
}

/** What may stand as it is within the text of a picture. */
const NOT_IN_ALTERNATIVE = /[^\p{L}\p{M}\p{N} .,;−→–…]/gu;

/**
 * A picture with what is told of it, in place of a paragraph.
 *
 * An editor takes the text between the brackets as it is written, backslashes and all, and puts it into an attribute:
 * signs that could end it are told by their numbers, which Markdown and HTML both read.
 *
 * @param address of a picture of our own, with nothing in it that Markdown reads; never from a file
 * @param width in px
 */
export function picture(alternative: string, address: string, width: number): string {
  const text = onOneLine(alternative).replace(NOT_IN_ALTERNATIVE, (sign) => `&#${sign.codePointAt(0)};`);
  return `![${text}](${address}|width=${Math.round(width)})`;
}
