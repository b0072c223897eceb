import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { describe, expect, test } from 'vitest';
import { block, code, picture, plain } from '../../server/service/markdown.js';

const markdown = new MarkdownIt({ html: true, linkify: true, typographer: false, breaks: true });

/** The kinds of everything in a rendered text, and what can be read of it. */
function rendered(text: string) {
  const kinds = new Set<string>();
  let readable = '';
  const walk = (tokens: ReturnType<typeof markdown.parse>): void => {
    for (const token of tokens) {
      if (token.type !== 'inline') kinds.add(token.type);
      if (token.children) walk(token.children);
      else readable += token.content;
    }
  };
  walk(markdown.parse(text, {}));
  return { kinds: [...kinds], readable };
}

/** Pieces that mean something in Markdown, put together in any order. */
const piece = fc.constantFrom(
  ...['`', '``', '```', '~~~', '[', ']', '](', ')', '(', '!', '<', '>', '&amp;', '&#60;', '|', '#', '# ', '- ', '* '],
  ...['1. ', '+ ', '> ', '=', '---', '===', '\n', '\r\n', '\r', '\n\n', '    ', '\t', '\\', '*', '**', '_', '~~', ':'],
  ...[
    'http://x.de',
    'https://',
    'HTTP://a.b/c',
    'www.x.de',
    'WWW.',
    'a@b.de',
    'mailto:a@b.de',
    'nursery.com',
    '//x.de',
  ],
  ...['<b>', '<script>', '<!--', '-->', '<a@b.de>', '<http://x>', '[a](b)', '![a](b)', '[a]: b', '$(zap)', 'ftp://a.b'],
  ...['\u202e', '\u2066', '\u200b', '\u0000', '\u0007', '\u2028', '\u0085', '\ud800', 'ä', 'bay', '12', '.', ' ', '"'],
);
const awkward = fc.oneof(
  fc.array(piece, { maxLength: 12 }).map((pieces) => pieces.join('')),
  fc.string({ unit: 'binary', maxLength: 40 }),
);

describe('text from a file in Markdown', () => {
  test('comes out as text and nothing else', () => {
    fc.assert(
      fc.property(awkward, (text) => {
        const { kinds } = rendered(plain(text));
        const others = kinds.filter((kind) => !['paragraph_open', 'paragraph_close', 'text'].includes(kind));
        expect(others).toEqual([]);
      }),
      { numRuns: 3000 },
    );
  });

  test('stays within a list item, a heading and bold type', () => {
    fc.assert(
      fc.property(awkward, (text) => {
        const { kinds } = rendered(`### a ${plain(text)}\n\n- b ${plain(text)}\n- **c ${plain(text)}d**`);
        expect(
          kinds.filter((kind) => /^(?:link|image|html|code|fence|hr|table|blockquote|em_|ordered)/.test(kind)),
        ).toEqual([]);
        expect(kinds.filter((kind) => /^list_item|^strong/.test(kind))).toHaveLength(4);
      }),
      { numRuns: 1000 },
    );
  });

  test('reads as it was written', () => {
    const written = '1. *Bay* 3 & [4] <b> `x` a_b | "q" # 5 \\ $(zap) {n} 24.5';
    expect(rendered(plain(written)).readable).toBe(written);
    expect(rendered(plain('two\nlines\r\nhere')).readable).toBe('two lines here');
    expect(plain('')).toBe('');
  });

  test('shows what cannot be seen', () => {
    expect(rendered(plain('a\u202eb\u0007c\u2066d\ud800e')).readable).toBe('a\ufffdb\ufffdc\ufffdd\ufffde');
    expect(code('a\u202eb')).toBe('`a\ufffdb`');
    expect(block(['a\u202eb'])).toBe('```\na\ufffdb\n```');
  });

  test('is code within a line', () => {
    fc.assert(
      fc.property(awkward, (text) => {
        const { kinds, readable } = rendered(`a ${code(text)} b`);
        const others = kinds.filter(
          (kind) => !['paragraph_open', 'paragraph_close', 'text', 'code_inline'].includes(kind),
        );
        expect(others).toEqual([]);
        expect(kinds.includes('code_inline')).toBe(code(text) !== '');
        expect(readable.endsWith(' b')).toBe(true);
      }),
      { numRuns: 2000 },
    );
    expect(code('set 1 `a` ``b``')).toBe('``` set 1 `a` ``b`` ```');
  });

  test('is one block of code, and what follows is none of it', () => {
    fc.assert(
      fc.property(fc.array(awkward, { maxLength: 4 }), (lines) => {
        const { kinds } = rendered(`${block(lines, 'text')}\n\nend`);
        expect(kinds).toEqual(['fence', 'paragraph_open', 'text', 'paragraph_close']);
      }),
      { numRuns: 1000 },
    );
    expect(block(['```', '````'], 'a b`c')).toBe('`````abc\n```\n````\n`````');
  });
});

describe('a picture', () => {
  const ADDRESS = 'data:image/svg+xml;base64,PHN2Zy8+';
  /** Lets pictures be drawings, as the editor does. */
  const pictures = Object.assign(new MarkdownIt({ html: true, linkify: true }), { validateLink: () => true });
  /** As the editor for which pictures are made reads them: the text between the brackets goes into an attribute. */
  const AS_WRITTEN = /^!\[((?:\\.|[^[\]\\])*)\]\(([^\s()]+)\|width=(\d+)\)$/u;

  test('is nothing but a picture, whatever is told of it', () => {
    fc.assert(
      fc.property(awkward, (text) => {
        const written = picture(text, ADDRESS, 320.4);
        const [, inner, address, width] = AS_WRITTEN.exec(written) ?? [];
        expect(address).toBe(ADDRESS);
        expect(width).toBe('320');
        expect(inner).not.toMatch(/[<>"'\\`[\]]|&(?!#\d+;)/);
        const [paragraph, inline, ...rest] = pictures.parse(written, {});
        expect([paragraph.type, inline.children?.map(({ type }) => type), rest.length]).toEqual([
          'paragraph_open',
          ['image'],
          1,
        ]);
      }),
    );
  });

  test('keeps its text for whoever hears it', () => {
    const written = picture('Drive: "add" <b> & [x](y)', ADDRESS, 10);
    const [, inner = ''] = AS_WRITTEN.exec(written) ?? [];
    const heard = inner.replace(/&#(\d+);/g, (_, number) => String.fromCodePoint(Number(number)));
    expect(heard).toBe('Drive: "add" <b> & [x](y)');
  });
});
