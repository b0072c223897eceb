/** Texts that somebody might write to make more of them than text. */
import fc from 'fast-check';

const piece = fc.constantFrom(
  ...['<script>alert(1)</script>', '</style>', '</title>', '<!--', '-->', ']]>', '<b>', '<img src=x onerror=a()>'],
  ...[
    '<svg onload=a()>',
    '&amp;',
    '&#60;',
    '&lt',
    '&',
    '<',
    '>',
    '"',
    "'",
    '"}',
    '\\',
    '\\22 ',
    '\\"',
    ';}',
    '*/',
    '/*',
  ],
  ...[
    '`',
    '``',
    '```',
    '~~~',
    '[',
    ']',
    '](',
    ')',
    '(',
    '!',
    '|',
    '||',
    '#',
    '# ',
    '- ',
    '* ',
    '1. ',
    '2) ',
    '+ ',
    '> ',
  ],
  ...['=', '---', '===', '***', '___', '*', '**', '_', '__', '~~', ':', '    ', '\t', '[a](b)', '![a](b)', '[a]: b'],
  ...[
    '<http://x>',
    '<a@b.de>',
    'http://x.de',
    'https://',
    'www.x.de',
    'a@b.de',
    'mailto:a@b.de',
    '@name',
    '#12',
    ':tick:',
  ],
  ...['$x$', '$$', '[^1]', '[ ] ', '\n', '\r\n', '\n\n', '\f', '\u0085', '\u2028', '\u0000', '\u0007', '\u001b[31m'],
  ...['\u202e', '\u2066', '\u200f', '\u200b', '\u00ad', '\ud800', '\ufffe', '\u{1fffe}', '\u{e0041}', '\u2060'],
  ...['ä', 'א', 'بيت', '🌱', 'bay', '12', '24.5', '.', ',', ' ', '\u00a0', '\u202f', 'a\u200db'],
);

export const awkward = fc.oneof(
  fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join('')),
  fc.string({ unit: 'binary', maxLength: 40 }),
);

/** Code points that must not come out as they are, told one by one: a second opinion to the code's own. */
function isUnseen(code: number): boolean {
  const isControl = code < 0x20 || (code >= 0x7f && code < 0xa0);
  const isHalf = code >= 0xd800 && code <= 0xdfff;
  const isNone = (code & 0xfffe) === 0xfffe || (code >= 0xfdd0 && code <= 0xfdef);
  const isMark =
    [0xad, 0x61c, 0x180e, 0x200b, 0x200e, 0x200f, 0xfeff].includes(code) ||
    (code >= 0x202a && code <= 0x202e) ||
    (code >= 0x2060 && code <= 0x206f) ||
    (code >= 0xfff9 && code <= 0xfffb) ||
    (code >= 0xe0000 && code <= 0xe007f);
  return isControl || isHalf || isNone || isMark;
}

/** What is to be seen of a text: breaks as blanks, and U+FFFD for what would be hidden. */
export const seenIn = (text: string): string =>
  Array.from(text.replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/g, ' '), (sign) =>
    isUnseen(sign.codePointAt(0) ?? 0) ? '\ufffd' : sign,
  ).join('');
