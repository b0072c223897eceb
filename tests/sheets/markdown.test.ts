/** Sheets as Markdown: what it is read as, and that text from files stays text. */
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { describe, expect, test } from 'vitest';
import { lineOfMarkdown } from '../../server/sheets/escape.js';
import { toMarkdown } from '../../server/sheets/markdown.js';
import { type Block, SHEET_KINDS, type Sheet, type Text } from '../../server/sheets/model.js';
import { SHEET_LANGUAGES, sheetWords } from '../../server/sheets/wording/index.js';
import { awkward, seenIn } from './hostile.js';
import { EVERY_SPAN, specimen } from './specimen.js';

/** As pages read it that make links of addresses which begin as such. */
const reader = new MarkdownIt({ html: true, linkify: true });
reader.linkify.set({ fuzzyLink: false, fuzzyEmail: true });

const sheetOf = (blocks: readonly Block[], more: Partial<Sheet> = {}): Sheet => ({
  kind: 'operating',
  language: 'en',
  title: 'Title',
  foot: '',
  blocks,
  ...more,
});
const markdownOf = (sheet: Sheet): string => toMarkdown(sheet, sheetWords(sheet.language));
/** What the blocks become, without title and kind of the sheet. */
const written = (...blocks: readonly Block[]): string =>
  markdownOf(sheetOf(blocks)).replace('# Title\n\n*Operating instructions*\n\n', '').trimEnd();

interface Read {
  /** Kinds of what opens, in order. */
  readonly kinds: readonly string[];
  /** Each run of text with what it stands in. */
  readonly texts: readonly string[];
}
/** What a reader makes of a text. Breaks between words that show nowhere are left out. */
function read(markdown: string): Read {
  const kinds: string[] = [];
  const texts: string[] = [];
  const walk = (tokens: ReturnType<typeof reader.parse>): void => {
    for (const token of tokens) {
      if (token.type === 'inline') {
        const children = token.children ?? [];
        texts.push(
          children
            .map(({ content }) => content)
            .join('')
            .replaceAll('\u2060', ''),
        );
        walk(children);
      } else if (!/_close$|^text$/.test(token.type)) kinds.push(token.type);
    }
  };
  walk(reader.parse(markdown, {}));
  return { kinds, texts };
}
/** Kinds that a text must never turn into. */
const FOREIGN = /^(?:link|image|html|s_open|hr|fence|code_block|blockquote|softbreak|hardbreak)/;

describe('a sheet as Markdown', () => {
  test('has its title, its kind and its foot', () => {
    const sheet = sheetOf([], {
      title: 'Area',
      subtitle: 'of a bay',
      foot: 'bay.crank',
      kind: 'bench',
      language: 'de',
    });
    expect(markdownOf(sheet)).toBe('# Area\n\n*Werkstattblatt*\n\n**of a bay**\n\n---\n\nbay.crank\n');
  });

  test('writes every piece of a line', () => {
    expect(written({ is: 'paragraph', text: EVERY_SPAN })).toBe(
      'Set **24.5** by **levers 1 to 3** (`set 24.5`) and note \\_\\_\\_\\_\\_\\_.',
    );
  });

  test('numbers steps by the list where they count up, and by hand where they do not', () => {
    const step = (number: string, text: string) => ({
      number,
      text: [text],
      readings: [['result ', { reading: '7' }]],
    });
    expect(written({ is: 'steps', steps: [step('9', 'Set.'), step('10', 'Turn.')] })).toBe(
      '9. Set.\n\n   result **7**\n\n10. Turn.\n\n    result **7**',
    );
    expect(written({ is: 'steps', steps: [step('9', 'Set.'), step('9a', 'Turn.'), step('', 'Read.')] })).toBe(
      '- **9** Set.\n\n  result **7**\n\n- **9a** Turn.\n\n  result **7**\n\n- Read.\n\n  result **7**',
    );
  });

  test('tells cautions before a step’s readings, its figure in words, notes at the end', () => {
    const [, , step] = (specimen().blocks.find((block) => block.is === 'steps') as Extract<Block, { is: 'steps' }>)
      .steps;
    const remarks = [
      { is: 'note', text: ['Slowly.'] },
      { is: 'caution', text: ['Springs.'] },
    ] as const;
    const lines = written({ is: 'steps', steps: [{ ...step, number: '1', remarks }] }).split('\n\n');
    expect(lines[1]).toBe('   > **Caution:** Springs.');
    expect(lines[2]).toBe('   setting **24.5**');
    expect(lines[3]).toMatch(/^ {3}\*[^*]*24\.5[^*]*\*$/);
    expect(lines[4]).toBe('   > **Note:** Slowly.');
  });

  test('writes tables, with boxes to tick and lines to write on', () => {
    const table: Block = {
      is: 'table',
      caption: 'Proof',
      columns: [
        { head: 'a|b' },
        { head: 'Reading', isFigures: true },
        { head: 'Seen', blank: 20 },
        { head: 'Right', blank: 8 },
      ],
      rows: [
        [['x | y ', { code: 'p|q' }], [{ reading: '421.40' }]],
        [['z'], [], ['as set']],
      ],
    };
    expect(written(table)).toBe(
      [
        '**Proof**',
        '',
        '| a\\|b | Reading | Seen | Right |',
        '| --- | ---: | --- | --- |',
        '| x \\| y `p\\|q` | **421.40** | \\_\\_\\_\\_\\_ | ☐ |',
        '| z |  | as set | ☐ |',
      ].join('\n'),
    );
    const cells = read(written(table)).texts;
    expect(cells.slice(1)).toEqual([
      'a|b',
      'Reading',
      'Seen',
      'Right',
      'x | y p|q',
      '421.40',
      '_____',
      '☐',
      'z',
      '',
      'as set',
      '☐',
    ]);
  });

  test('keeps lists that follow one another apart', () => {
    const list: Block = { is: 'list', items: [['a'], ['b']] };
    const steps: Block = { is: 'steps', steps: [{ number: '1', text: ['a'] }] };
    expect(read(written(list, list, list)).kinds.filter((kind) => kind === 'bullet_list_open')).toHaveLength(3);
    expect(read(written(steps, steps)).kinds.filter((kind) => kind === 'ordered_list_open')).toHaveLength(2);
  });

  test.each([
    [[{ strong: 'a' }, { strong: 'b' }], 'ab', 2],
    [['a', { strong: '(b)' }, 'c'], 'a(b)c', 0],
    [['a ', { strong: '(b)' }, ' c'], 'a (b) c', 1],
    [[{ strong: '*' }, { reading: '*' }], '**', 1],
    [['the ', { strong: ' gap ' }, 'stays'], 'the  gap stays', 1],
    [['x', { reading: '7' }, 'y'], 'x7y', 1],
    [[{ reading: '−7' }, { code: 'x' }], '−7x', 1],
    [[{ strong: '' }, { code: ' ' }], '', 0],
  ] as [Text, string, number][])('makes bold what Markdown can make bold: %j', (text, readable, bold) => {
    const { kinds, texts } = read(written({ is: 'list', items: [['\u00a0'], text] }));
    expect(texts.at(-1) ?? '').toBe(readable);
    expect(kinds.filter((kind) => kind === 'strong_open')).toHaveLength(bold);
  });

  test.each(SHEET_LANGUAGES.flatMap((language) => SHEET_KINDS.map((kind) => [kind, language] as const)))(
    'is read as it is meant: %s in %s',
    (kind, language) => {
      const { kinds, texts } = read(markdownOf({ ...specimen(kind), language }));
      const count = (name: string): number => kinds.filter((one) => one === name).length;
      expect(kinds.filter((one) => /^(?:link|image|html|fence|code_block)/.test(one))).toEqual([]);
      expect(count('heading_open')).toBe(6);
      expect(count('table_open')).toBe(2);
      expect(count('blockquote_open')).toBe(5);
      expect(count('hr')).toBe(1);
      // Each figure is a paragraph in italics, and so is the kind.
      expect(count('em_open')).toBe(8);
      expect(texts).toContain('Readings to be taken at the machine');
    },
  );
});

describe('text from a file in Markdown', () => {
  const trimmed = (text: string): string => seenIn(text).trim();

  test('comes out as text wherever it stands', () => {
    fc.assert(
      fc.property(awkward, (text) => {
        const line: Text = [text];
        const blocks: Block[] = [
          { is: 'heading', level: 2, text: ['h ', text] },
          { is: 'paragraph', text: line },
          { is: 'list', items: [line, ['then ', text, { strong: text }, text, { reading: text }]] },
          { is: 'steps', steps: [{ number: '1', text: line, readings: [line] }] },
          {
            is: 'table',
            caption: `c ${text}`,
            columns: [{ head: text }, { head: 'b' }],
            rows: [[line, [{ strong: text }]]],
          },
          { is: 'fields', fields: [{ label: text, value: text }] },
        ];
        const { kinds, texts } = read(markdownOf(sheetOf(blocks, { title: `t ${text}` })));
        expect(kinds.filter((kind) => FOREIGN.test(kind))).toEqual([]);
        expect(kinds.filter((kind) => /^(?:ordered|bullet)_list|^table|^heading|^em_/.test(kind))).toEqual([
          'heading_open',
          'em_open',
          'heading_open',
          'bullet_list_open',
          'ordered_list_open',
          'table_open',
          'bullet_list_open',
        ]);
        const told = trimmed(text);
        const expected = [
          trimmed(`t ${text}`),
          'Operating instructions',
          trimmed(`h ${text}`),
          told,
          told,
          trimmed(`then ${text}${text}${text}${text}`),
          told,
          told,
          trimmed(`c ${text}`),
          told,
          'b',
          told,
          told,
          trimmed(`${text}: ${told}`),
        ];
        // Markdown reads rows of blanks as one, and leaves out a paragraph that is blank.
        const flat = (lines: readonly string[]): string[] => lines.map((one) => one.replace(/\s+/g, ' ').trim());
        expect(flat(texts).filter((one) => one !== '')).toEqual(flat(expected).filter((one) => one !== ''));
      }),
      { numRuns: 1000 },
    );
  });

  test('is code where it is code, in tables as well', () => {
    fc.assert(
      fc.property(awkward, (text) => {
        const code: Text = ['a ', { code: text }, ' z'];
        const table: Block = {
          is: 'table',
          caption: '',
          columns: [{ head: 'b' }, { head: 'c' }],
          rows: [[code, ['end']]],
        };
        const { kinds, texts } = read(written({ is: 'paragraph', text: code }, table));
        expect(kinds.filter((kind) => FOREIGN.test(kind))).toEqual([]);
        const told = trimmed(text);
        const flat = (one: string): string => one.replace(/\s+/g, ' ');
        expect(texts.map(flat)).toEqual([`a ${told} z`, 'b', 'c', `a ${told} z`, 'end'].map(flat));
        expect(kinds.filter((kind) => kind === 'code_inline')).toHaveLength(told === '' ? 0 : 2);
      }),
      { numRuns: 1000 },
    );
  });

  test.each(['# a', '- a', '+ a', '* a', '1. a', '12) a', '---', '===', '> a', '| a |', '```', '    a', ': a', '~~~'])(
    'begins nothing at the start of a line: %s',
    (text) => {
      for (const markdown of [
        written({ is: 'paragraph', text: [text] }),
        written({ is: 'paragraph', text: ['', text] }),
      ]) {
        expect(read(markdown)).toEqual({ kinds: ['paragraph_open'], texts: [text.trim()] });
        expect(read(`before\n${markdown}`).kinds).toEqual(['paragraph_open', 'softbreak']);
      }
    },
  );

  test('begins nothing either when two pieces meet', () => {
    expect(written({ is: 'paragraph', text: ['1', '. a'] })).toBe('1\\. a');
    expect(lineOfMarkdown('')).toBe('');
  });

  test('stays as it is where nothing in it could be taken for a sign', () => {
    const text = 'Shift right by 2, to position 3: 1 234.50 (not −7) – done! 50 % "so" it’s 24.5-17.2';
    expect(written({ is: 'paragraph', text: [text] })).toBe(text);
  });
});
