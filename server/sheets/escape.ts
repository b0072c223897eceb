/**
 * Text made safe for each format that sheets are written in.
 *
 * Invariant: this is the one place where it is done for sheets, one function a format. Text comes from files that
 * anybody may have written; it comes out as text, and nothing in it is hidden or turns what stands around it.
 */

/** What breaks a line, wherever a text goes: each text is one line. */
const BREAKS = /[\t-\r\u0085\u2028\u2029]+/g;

/**
 * What cannot be seen and changes how its neighbours are read, and what no document may hold. The two joiners that
 * scripts need (U+200C, U+200D) stay.
 */
const UNSEEN =
  /[\p{Cc}\p{Cs}\p{Bidi_Control}\p{Noncharacter_Code_Point}\u00ad\u180e\u200b\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]/gu;

/** Text on one line in which nothing is hidden: what is unseen shows as U+FFFD. The first step for every format. */
export const seen = (text: string): string => text.replace(BREAKS, ' ').replace(UNSEEN, '\ufffd');

const XML: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text as text in HTML, XML and SVG: between tags, and within attributes that stand in quotation marks. */
export const escapeXml = (text: string): string => seen(text).replace(/[&<>"']/g, (sign) => XML[sign] ?? sign);

/** The inside of a string in CSS, which may stand in a `style` element: there a `<` could end it. */
export const escapeCss = (text: string): string =>
  seen(text).replace(/[^\p{L}\p{M}\p{N}\p{Join_Control} .,:;()·–—−\u202f\ufffd]/gu, (sign) => {
    // The blank ends the number, and is no part of the text.
    return `\\${(sign.codePointAt(0) ?? 0xfffd).toString(16)} `;
  });

/** Signs that Markdown, its tables, strikings or formulas could take for their own, wherever they stand. */
const MARKS = /[\\`*_[\]<>&|~#$@]/g;

/**
 * Where a page that shows Markdown would make a link, a mention or a picture of mere text: addresses, `@name`, `#12`,
 * `:name:`. A joiner without width behind the sign breaks them up; it shows nowhere.
 */
const LINKS = /(?<=\p{L}):(?=\/)|(?<=mailto|xmpp):|(?<=www)\.|@|#(?=\d)|:(?=[\w+-]+:)/giu;
export const JOINER = '\u2060';

/** Text as text within a line of Markdown; for what begins a line see `lineOfMarkdown`. */
export const escapeMarkdown = (text: string): string =>
  seen(text)
    .replace(LINKS, (sign) => `${sign}${JOINER}`)
    .replace(MARKS, (sign) => `\\${sign}`);

/** Escaped pieces as the beginning of a line: no list, rule, heading or block of code begins with them. */
export const lineOfMarkdown = (escaped: string): string =>
  escaped
    .trim()
    .replace(/^[-+=:]/, '\\$&')
    .replace(/^(\d+)([.)])/, '$1\\$2');

/** A picture in Markdown: a file beside the page, and what is said to whoever does not see it. */
export const pictureInMarkdown = (file: string, alternative: string): string =>
  `![${escapeMarkdown(alternative).trim()}](${addressOf(file)})`;

/** A file's name as the address of a link, with nothing in it that could end the link. */
const addressOf = (file: string): string =>
  encodeURIComponent(file.replace(/\p{Cs}/gu, '\ufffd')).replace(
    /[!'()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`,
  );

/** The longest row of backticks in a text. */
export const longestTicks = (text: string): number =>
  Math.max(0, ...Array.from(text.matchAll(/`+/g), ([ticks]) => ticks.length));

/** Text as code within a line of Markdown; nothing if it is blank. */
export function codeOfMarkdown(text: string): string {
  const inner = seen(text).trim();
  if (inner === '') return '';
  const fence = '`'.repeat(longestTicks(inner) + 1);
  return /^`|`$/.test(inner) ? `${fence} ${inner} ${fence}` : fence + inner + fence;
}
