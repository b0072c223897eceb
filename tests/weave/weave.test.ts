/** Insets: where they are filled, where they are left alone, and that nothing else of a page is touched. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { INSET_KINDS, MOST_INSETS } from '../../grammar/insets.js';
import { crankFences, formatMarkdown, readPage } from '../../grammar/markdown.js';
import { splitLines } from '../../grammar/sections.js';
import { Library } from '../../server/sequence/library.js';
import { withInsets } from '../../server/weave/findings.js';
import { readOf, sealOf } from '../../server/weave/seal.js';
import { awkward } from '../sheets/hostile.js';
import { BAY, pageOf, woven } from './woven.js';

const TABLE = `**Area of one bay, on Machine on the desk (width = 17.2)**

| Step | Setting | Counter | Result | Position | Besides |
| --- | ---: | ---: | ---: | ---: | --- |
| \`clear all\` |  |  |  |  |  |
| \`points setting 1 counter 1 result 2\` |  |  |  |  |  |
| \`set 24.5\` | 24.5 |  |  |  |  |
| \`multiply by width\` |  | 17.2 | 421.40 | 3 | 10 turns |
| \`ask result\` |  |  | **421.40** |  |  |`;
const END = `<!-- crank: end ${sealOf(readOf([TABLE]))} -->`;
const FILLED = `<!-- crank: readings -->\n\n${TABLE}\n\n${END}`;
const behind = (margin: string, text: string): string =>
  text.replace(/^.*$/gm, (line) => (line === '' ? margin.trimEnd() : margin + line));

describe('an inset is filled', () => {
  test.each([
    ['where there is only the opening comment', '<!-- crank: readings -->\n\nMore.\n', `${FILLED}\n\nMore.\n`],
    ['at the very end', '<!-- crank: readings -->', FILLED],
    ['between its comments', '<!-- crank: readings -->\n<!-- crank: end -->\nMore.', `${FILLED}\nMore.`],
    [
      'written without blanks',
      '<!--crank:readings-->',
      FILLED.replace('<!-- crank: readings -->', '<!--crank:readings-->'),
    ],
    ['in a quotation', '> <!-- crank: readings -->\n>\n> More.\n', `${behind('> ', FILLED)}\n>\n> More.\n`],
    [
      'in a list',
      '1. Look:\n\n   <!-- crank: readings -->\n\n2. More\n',
      `1. Look:\n\n${behind('   ', FILLED)}\n\n2. More\n`,
    ],
    ['behind a bullet', '- <!-- crank: readings -->\n', `- ${behind('  ', FILLED).trimStart()}\n`],
    [
      'of a sequence that is named',
      '<!-- crank: readings of bay case 0 -->',
      FILLED.replace('readings', 'readings of bay case 0'),
    ],
  ])('%s', (_, below, after) => {
    expect(woven(pageOf(below)).text).toBe(pageOf(after));
    expect(woven(pageOf(after)).text).toBe(pageOf(after));
    expect(woven(pageOf(after)).insets.map(({ state }) => state.is)).toEqual(['fresh']);
  });

  test.each(['\r\n', '\r', '\n'])('with the page’s ends of lines: %j', (end) => {
    const page = `\ufeff${pageOf('<!-- crank: readings -->\n<!-- crank: steps -->\n\nMore.')}`.replaceAll('\n', end);
    const { text } = woven(page);
    expect(text.replaceAll(end, '\n')).toContain(FILLED);
    expect(text.replaceAll(end, '')).not.toMatch(/[\r\n]/);
    expect(woven(text).text).toBe(text);
  });

  test('above its sequence, if that is named', () => {
    const page = `<!-- crank: cases of bay -->\n\n${pageOf('')}`;
    expect(woven(page).text).toContain('| 2 | 4.5 | **110.25** |');
    expect(woven(page.replace(' of bay', '')).faults).toEqual(['no-sequence']);
  });

  test('afresh when the sequence has changed, and only then', () => {
    const old = woven(pageOf('<!-- crank: readings -->\n\n<!-- crank: cautions -->')).text;
    const page = old.replace('set 24.5', 'set 24.6');
    const again = woven(page);
    expect(again.insets.map(({ state }) => state.is)).toEqual(['stale', 'fresh']);
    expect(again.text).toContain('| 423.12 |');
    expect(
      again.text
        .replaceAll('423.12', '421.40')
        .replaceAll('24.6', '24.5')
        .replace(/end \w+ -->/, ''),
    ).toBe(old.replace(/end \w+ -->/, ''));
  });

  test('and stays fresh when another program aligns its table and changes its signs', () => {
    const page = pageOf(FILLED.replace(/ \| /g, '   |  ').replaceAll('---', '-----').replaceAll('**', '__'));
    expect(woven(page)).toMatchObject({ text: page, insets: [{ state: { is: 'fresh' } }] });
  });

  test('in each kind and language, and each is another', () => {
    const asked = INSET_KINDS.flatMap((kind) =>
      ['en', 'de'].map((language) => `<!-- crank: ${kind} in ${language} -->`),
    );
    const { text, insets, faults } = woven(pageOf(asked.join('\n\n')));
    expect(faults).toEqual([]);
    const contents = insets.map(({ state }) => (state.is === 'stale' ? state.content.lines.join('\n') : ''));
    expect(new Set(contents).size).toBe(asked.length);
    expect(
      insets.flatMap(({ state }) => (state.is === 'stale' ? state.content.pictures : [])).map(({ file }) => file),
    ).toEqual(['page.bay.svg', 'page.bay.de.svg']);
    expect(text).toContain('](page.bay.de.svg)');
  });

  test('with pictures among the steps', () => {
    const [{ state }] = woven(pageOf('<!-- crank: steps case 1 figures all -->'), 'a b (c).md').insets;
    const pictures = state.is === 'stale' ? state.content.pictures : [];
    expect(pictures.length).toBeGreaterThan(3);
    expect(pictures[0].file).toBe('a b (c).bay.case-1.all-1.svg');
    expect(state.is === 'stale' && state.content.lines.join('\n')).toContain('](a%20b%20%28c%29.bay.case-1.all-1.svg)');
    for (const { svg } of pictures) expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg".*<\/svg>$/s);
  });
});

describe('a page is left as it is', () => {
  const bad = pageOf('', BAY.replace('set 24.5', 'set 24.55'));
  test.each([
    ['no-kind', '<!-- crank: -->'],
    ['unknown-kind', '<!-- crank: reading -->'],
    ['unknown-word', '<!-- crank: readings off bay -->'],
    ['no-value', '<!-- crank: readings of -->'],
    ['twice', '<!-- crank: readings in de in en -->'],
    ['bad-case', '<!-- crank: readings case first -->'],
    ['bad-figures', '<!-- crank: steps figures many -->'],
    ['unknown-language', '<!-- crank: readings in la -->'],
    ['unknown-sequence', '<!-- crank: readings of bai -->'],
    ['no-case', '<!-- crank: readings case 2 -->'],
    ['not-alone', '<!-- crank: readings --> here'],
    ['not-alone', '<div> <!-- crank: readings -->'],
    ['not-alone', '<!-- crank: readings\nof bay -->'],
    ['in-html', '<div>\n<!-- crank: readings -->\n</div>'],
    ['text-below', '<!-- crank: readings -->\nText that is the author’s.'],
    ['stray-end', 'Text.\n\n<!-- crank: end abc -->\n'],
    ['unknown-word', '<!-- crank: readings -->\n<!-- crank: end abc def -->'],
    ['by-hand', '<!-- crank: readings -->\n\nText that is the author’s.\n\n<!-- crank: end -->'],
    ['by-hand', `<!-- crank: readings -->\n\n${TABLE}\n\nText that is the author’s.\n\n${END}`],
    ['lost-end', `<!-- crank: readings -->\n\n${TABLE}\n\nText that is the author’s.`],
    ['too-long', ''],
    ['has-errors', '<!-- crank: readings -->'],
    ['has-errors', '<!-- crank: steps case 1 -->'],
  ])('%s: %j', (fault, below) => {
    const page =
      fault === 'has-errors'
        ? bad + below
        : fault === 'too-long'
          ? pageOf('<!-- crank: steps -->', `sequence bay on desk\n${'  set 1\n  set 2\n'.repeat(1_001)}`)
          : pageOf(below);
    expect(woven(page).faults).toEqual([fault]);
    expect(woven(page).text).toBe(page);
  });

  test('nested: the outer one, while the inner one is filled', () => {
    const page = pageOf(
      '<!-- crank: steps -->\n\n<!-- crank: readings -->\n\n<!-- crank: end -->\n\n<!-- crank: end -->\n',
    );
    const { text, faults } = woven(page);
    expect(faults).toEqual(['nested']);
    expect(text).toBe(pageOf(`<!-- crank: steps -->\n\n${FILLED}\n\n<!-- crank: end -->\n`));
  });

  test('where the closing comment lies in another list or quotation', () => {
    const page = pageOf('- <!-- crank: readings -->\n\n<!-- crank: end -->\n');
    expect(woven(page).faults).toEqual(['stray-end']);
    expect(woven(page).text).toContain(`- ${behind('  ', FILLED).trimStart()}\n\n<!-- crank: end -->\n`);
  });

  test('beyond so many insets', () => {
    const page = pageOf('<!-- crank: cautions -->\n\n'.repeat(MOST_INSETS + 20));
    const { insets, faults } = woven(page);
    expect(insets).toHaveLength(MOST_INSETS + 1);
    expect(faults).toEqual(['too-many']);
  });

  test('where comments are shown and not meant', () => {
    const shown = [
      '    <!-- crank: readings -->',
      '```\n<!-- crank: readings -->\n```',
      'The `<!-- crank: readings -->`.',
    ];
    for (const below of [...shown, '<!-- crank readings -->', '<!-- end -->']) {
      expect(woven(pageOf(below))).toEqual({ text: pageOf(below), insets: [], faults: [] });
    }
  });
});

test('a page without insets has the very report that its check gives', () => {
  const library = new Library();
  library.set('page.md', pageOf('Text.'));
  const report = library.check('page.md');
  expect(finish(withInsets(library, report))).toBe(report);
});

test('a report with findings of insets is made once, and follows the page', () => {
  const library = new Library();
  library.set('page.md', pageOf('<!-- crank: readings -->'));
  const found = () => finish(withInsets(library, library.check('page.md')));
  expect(found()).toBe(found());
  expect(found().findings.map(({ facts }) => facts.code)).toEqual(['stale-inset']);
  library.set('page.md', pageOf(FILLED));
  expect(found().findings).toEqual([]);
});

test('the insets of the handbook among the samples are fresh', () => {
  const library = new Library();
  for (const file of ['handbook.md', 'machines.crank']) {
    library.set(file, readFileSync(new URL(`../../samples/${file}`, import.meta.url), 'utf8'));
  }
  const { sections } = finish(withInsets(library, library.check('handbook.md')));
  expect(library.insets('handbook.md')).toHaveLength(2);
  expect(sections.flatMap(({ findings }) => findings)).toEqual([]);
});

// --- any page ---------------------------------------------------------------------------------------------------

const piece = fc.constantFrom(
  ...[
    'Text of the author.',
    '',
    '- item',
    '> quoted',
    '1. step',
    '| a | b |',
    '| --- | --- |',
    '***',
    '<div>',
    '</div>',
  ],
  ...[
    '<!-- crank: readings -->',
    '<!-- crank: steps of bay -->',
    '<!-- crank: cases -->',
    '<!-- crank: figure case 1 -->',
  ],
  ...['<!-- crank: readings case 7 -->', '<!-- crank: nothing -->', '<!-- crank: end -->', '<!-- crank: end abc -->'],
  ...['> <!-- crank: readings -->', '> <!-- crank: end -->', '- <!-- crank: cautions -->', '  <!-- crank: end -->'],
  ...['  <!-- crank: readings in de -->', '```crank', '```', 'sequence other on desk', '  set 12', '  turn', '<!-- x'],
);
const ending = fc.constantFrom('\n', '\r\n', '\r');
const anyPage = fc
  .array(fc.tuple(piece, ending), { maxLength: 24 })
  .map((lines) => pageOf('') + lines.map((line) => line.join('')).join(''));

/** The lines of a page but for what stands in its insets. */
function outside(text: string): string[] {
  const lines = splitLines(text);
  const gone = new Set<number>();
  for (const { line, content } of readPage(text).insets) {
    if (content) for (let i = line + 1; i <= content.line; i++) gone.add(i);
  }
  return lines.filter((_, i) => !gone.has(i));
}

describe('any page', () => {
  test('is woven once and for all', () => {
    fc.assert(
      fc.property(anyPage, (page) => {
        const once = woven(page);
        const twice = woven(once.text);
        expect(twice.text).toBe(once.text);
        expect(twice.insets.map(({ state }) => state.is)).toEqual(
          once.insets.map(({ state }) => (state.is === 'stale' ? 'fresh' : state.is)),
        );
        expect(twice.faults).toEqual(once.faults);
      }),
      { numRuns: 300 },
    );
  });

  test('keeps every line outside its insets, and its fences', () => {
    fc.assert(
      fc.property(anyPage, (page) => {
        const { text } = woven(page);
        expect(outside(text)).toEqual(outside(page));
        expect(crankFences(text)).toHaveLength(crankFences(page).length);
        expect(formatMarkdown(text).replace(/[ \t]+/g, ' ')).toContain(
          splitLines(text)
            .slice(-1)[0]
            .replace(/[ \t]+/g, ' '),
        );
      }),
      { numRuns: 300 },
    );
  });

  test('keeps what somebody writes into an inset', () => {
    fc.assert(
      fc.property(fc.constantFrom(...INSET_KINDS), fc.nat(30), fc.string({ unit: 'grapheme' }), (kind, at, written) => {
        const text = `x${written.replace(/[\r\n<`~]/g, '')}`;
        const filled = woven(pageOf(`<!-- crank: ${kind} -->\n`)).text;
        const lines = filled.split('\n');
        const first = lines.findIndex((line) => line.startsWith('<!-- crank:')) + 2;
        const last = lines.findIndex((line) => line.startsWith('<!-- crank: end'));
        lines.splice(first + (at % (last - first)), 0, text);
        const page = lines.join('\n');
        expect(woven(page)).toMatchObject({ text: page, faults: ['by-hand'] });
      }),
    );
  });
});

// --- hostile texts ----------------------------------------------------------------------------------------------

const quoted = (text: string): string =>
  `"${text.replace(/[\n\r\0\u2028\u2029]/g, ' ').replace(/["\\]/g, (sign) => `\\${sign}`)}"`;
const MARKDOWN = new MarkdownIt({ html: true });

describe('a hostile text', () => {
  test('never breaks out of its inset, its table or its page', () => {
    fc.assert(
      fc.property(awkward, awkward, awkward, fc.constantFrom('', '> ', '- '), (title, note, machine, lead) => {
        const sequence = `sequence bay ${quoted(title)} (w = 3) on odd\n  case w = 4\n  note ${quoted(note)}\n  caution ${quoted(title)}\n  clear all\n  set 12\n  repeat 2 { note ${quoted(note)}; turn }\n  multiply by w\n  ask result\nmachine odd ${quoted(machine)} like desk\n`;
        const asked = INSET_KINDS.map((kind, i) => `${i === 0 ? lead : lead.replace('-', ' ')}<!-- crank: ${kind} -->`);
        const page = pageOf(`${asked.join(`\n${lead.replace('-', ' ').trimEnd()}\n`)}\n\nText.\n`, sequence);
        const { text, faults } = woven(page);
        fc.pre(!faults.includes('has-errors'));
        expect(faults).toEqual([]);
        expect(woven(text)).toMatchObject({ text, faults: [] });
        expect(readPage(text).insets).toHaveLength(INSET_KINDS.length);
        expect(crankFences(text)).toHaveLength(1);
        expect(outside(text)).toEqual(outside(page));
        const tokens = MARKDOWN.parse(text, {}).flatMap((token) => [token, ...(token.children ?? [])]);
        const html = tokens.filter(({ type }) => type === 'html_block' || type === 'html_inline');
        expect(
          html.map(({ content }) => content.trim()).filter((one) => !/^<!-- crank: [\w ]+ -->$/.test(one)),
        ).toEqual([]);
        expect(html).toHaveLength(2 * INSET_KINDS.length);
        expect(tokens.filter(({ type }) => type === 'table_open')).toHaveLength(2);
        expect(tokens.filter(({ type }) => type === 'image')).toHaveLength(1);
        expect(tokens.filter(({ type }) => type === 'link_open' || type === 'fence')).toHaveLength(1);
        expect(tokens.filter(({ type, content }) => type === 'inline' && content === 'Text.')).toHaveLength(1);
      }),
      { numRuns: 400 },
    );
  });
});
