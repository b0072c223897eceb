import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { describe, expect, test } from 'vitest';
import type { Hover, MarkupContent } from 'vscode-languageserver';
import { WORDS } from '../../grammar/tokens.js';
import { hover } from '../../server/service/hover.js';
import { de } from '../../server/service/wording/de.js';
import { openMarked, reader } from './editor.js';

const OFFICE = `machine office-6 "The office machine"
  setting 6
  counter 6
  result 12
  bell
`;
const WORKSHOP = `machine workshop-4
  setting 4
  counter 4 signed
  result 8 dials reach 5
  subtract lever
  count lever
  park left
  auto-clear
  auto-divide
  transfer result at 1
`;

type Wishes = Parameters<typeof reader>[0];

/** What the hover at the cursor says, its thousands parted by `_`; the range is that of the marks, if there are any. */
function said(marked: string, wishes: Wishes = {}, others: Readonly<Record<string, string>> = {}): string {
  const { document, cursor, ranges } = openMarked(marked, others);
  const found = hover(document, cursor, reader(wishes));
  if (ranges.length > 0) expect(found?.range).toEqual(ranges[0]);
  return ((found?.contents as MarkupContent | undefined)?.value ?? '').replaceAll('\u202f', '_');
}

const onOffice = (steps: string, wishes: Wishes = {}, header = '') =>
  said(`${OFFICE}sequence bay "One bay" ${header} on office-6\n${steps}`, wishes);

describe('a step', () => {
  test('shows the machine before and after, the levers over the wheels that they drive', () => {
    expect(onOffice('clear all\nset 245\nturn 2\nshift right\n⟦tu‸rn⟧ 7')).toContain(
      [
        '```',
        'position 2                               v',
        'setting                        0 0 0 2 4 5',
        'counter     before               0 0 0 0 0 2',
        '            after                0 0 0 0 7 2',
        '                                         ^',
        'result      before   0 0 0 0 0 0 0 0 0 4 9 0',
        '            after    0 0 0 0 0 0 0 1 7 6 4 0',
        '                                   ^ ^ ^ ^',
        '```',
      ].join('\n'),
    );
  });

  test('shows decimal markers and the carriage where it was and is', () => {
    const text = onOffice('points setting 1 counter 1 result 2\nset 24.5\nsh‸ift right 2');
    expect(text).toContain('position 1  before                         v\nposition 3  after                      v\n');
    expect(text).toContain('setting                      0 0 0 2 4.5\n');
    expect(text).toContain('result               0 0 0 0 0 0 0 0 0 0.0 0\n');
  });

  test('shows levers, buttons, the bell, marked figures, and the carriage out of gear', () => {
    const start = `${WORKSHOP}sequence cut on workshop-4\nclear all\nset 42\n`;
    expect(said(`${start}count minus\nmo‸de subtract`)).toContain(
      'drive adds → drive subtracts · count minus · auto-clear off · auto-divide off\n```',
    );
    expect(said(`${start}mode subtract\ntu‸rn 2`)).toContain('  0  0  0 -2\n');
    const parked = said(`${start}sh‸ift left`);
    expect(parked).toMatch(/^out of gear {2}after +v$/m);
    expect(parked).toContain('\nsetting                               0  0  4  2\n');
    expect(parked).toContain('\nresult                 0  0  0  0  0  0  0  0\n');
    expect(onOffice('set 1\ntu‸rn back')).toContain('\nbell\n```');
  });

  describe('for a client that shows pictures', () => {
    const TURN = 'clear all\nset 245\ntu‸rn 2';
    /** The picture's text as it is written, and its drawing. */
    const pictureIn = (text: string) => {
      const [, alternative, base64, width] = PICTURE.exec(text) ?? [];
      const svg = base64 && Buffer.from(base64, 'base64').toString('utf8');
      return { alternative, svg, width: Number(width) };
    };
    const PICTURE = /^!\[([^\]\n]*)\]\(data:image\/svg\+xml;base64,([\w+/]+=*)\|width=(\d+)\)$/m;

    test('is drawn, with all that is seen in it told in words, and what has become what', () => {
      const text = onOffice(TURN, { look: 'light' });
      const { alternative, svg, width } = pictureIn(text);
      expect(alternative).toMatch(/^The carriage stands in position 1\. Levers 1 to 6 drive places 1 to 6/);
      expect(alternative).toContain('Result 490; before 0; changed in places 2 and 3.');
      expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" [^>]* color="#1c2321"/);
      expect(svg).toContain(` width="${width}"`);
      expect(text).toContain('counter 0 → 2 · result 0 → 490\n\n![');
      expect(text).not.toContain('before               0 0 0 0 0 0');
    });

    test('has ink and ground of its own in every theme, and is no wider than a page', () => {
      const inks = (['light', 'dark', 'high-contrast-light', 'high-contrast-dark'] as const).map((look) => {
        const { svg, width } = pictureIn(onOffice(TURN, { look }));
        expect(width).toBeLessThanOrEqual(660);
        const [, ink] = / color="(#\w{6})"/.exec(svg ?? '') ?? [];
        const [, ground] = / fill="(#\w{6})"/.exec(svg ?? '') ?? [];
        return `${ink} on ${ground}`;
      });
      expect(inks).toEqual(['#1c2321 on #fdfcf8', '#e6e9e4 on #161a18', '#000000 on #ffffff', '#ffffff on #000000']);
    });

    test('is in letters and figures where somebody wants that, or the client shows no pictures', () => {
      const wished = onOffice(TURN, { look: 'dark', settings: { hoverFigure: 'text' } });
      expect(wished).toBe(onOffice(TURN));
      expect(wished).toContain('position 1                                 v');
    });

    test('is in the language of the reader', () => {
      const text = onOffice(TURN, { look: 'light', locale: 'de' });
      expect(pictureIn(text).alternative).toContain('Der Schlitten steht in Stellung 1.');
    });

    test('stays below what an editor shows on the largest machine', () => {
      const large =
        'machine large\n  setting 18\n  counter 20 signed\n  result 20 reach 19\n  subtract lever\n  count lever\n  auto-clear\n';
      const steps = 'clear all\npoints setting 2 counter 3 result 5\nset 987654321098765432\nmul‸tiply by 99';
      for (const locale of ['en', 'de']) {
        const text = said(`${large}sequence a on large\n${steps}`, { look: 'dark', locale });
        expect(pictureIn(text).svg).toBeDefined();
        expect(text.length).toBeLessThan(100_000);
      }
    });
  });

  test('sums up what it stands for', () => {
    const text = onOffice('clear all\nset 12\nmulti‸ply by 203');
    expect(text).toContain('Stands for `turn 3; shift right 2; turn 2`\n\n5 turns in all.');
    expect(onOffice('clear all\nset 12\nre‸peat 3 { turn 2; shift right }')).toContain('6 turns in all.');
    expect(onOffice('clear all\nset 12\nrepeat 3 { tu‸rn 2; shift right }')).toContain(
      'Carried out 3 times; this is the last.',
    );
  });

  test('tells numbers for parameters, and the case', () => {
    const text = onOffice('case a = 56\nset ‸a', { cases: { bay: 1 } }, '(a = 34)');
    expect(text).toContain('Carried out as `set 56`.\n\nCase 1: `a = 56`.');
    expect(onOffice('case a = 56\ns‸et a', {}, '(a = 34)')).toContain('Carried out as `set 34`.');
  });

  test('tells expected and found readings', () => {
    const text = onOffice('clear all\nset 12\nturn 2\nexp‸ect result 24 counter 3 bell carriage 1');
    expect(text).toContain(
      [
        '- result: expected `24`, reads 24 ✓',
        '- counter: expected `3`, reads 2 ✗',
        '- bell: expected, but: no bell ✗',
        '- carriage: expected `1`, reads `1` ✓',
      ].join('\n'),
    );
  });

  test('explains what was found on it', () => {
    const text = onOffice('clear all\nset 12345678‸');
    expect(text).toContain('**error** – 12345678 does not fit');
    expect(text).toContain('`setting-too-long`');
    expect(onOffice('clear all\nset 1; tu‸rn back; set 12345678')).not.toContain('setting-too-long');
    expect(onOffice('clear all\nset ‸1234567', { locale: 'de' })).toContain('**Fehler** – 1234567 passt nicht');
  });

  test('tells prose as text and not as Markdown', () => {
    expect(onOffice('note "Turn *slow‸ly* <b>"')).toBe('Turn \\*slowly\\* \\<b\\>');
    expect(onOffice('cau‸tion "No [link](http://x)"')).toContain('**Caution:** No \\[link\\]\\(http\\:');
  });

  test('tells a goal and how it is met', () => {
    expect(onOffice('go‸al result = 12 * 2\nset 12; turn 2')).toContain('Goal 24, reads 24: met exactly ✓');
    expect(onOffice('go‸al result = 25.5\nset 12; turn 2')).toContain('Goal 25.5, reads 24: missed ✗');
    expect(onOffice('go‸al result = 25.5\nset 12; turn 2')).toContain('`goal-missed`');
  });

  test('has no figure where the run never comes', () => {
    const text = onOffice('set 0\nturn back until overdraw\ntur‸n');
    expect(text).toContain('The run does not come to this step.');
    expect(text).not.toContain('position');
  });
});

describe('a figure of a number', () => {
  test.each([
    ['set 4‸72.5', '7 tens: lever 3. In position 2 it drives place 4 of the result.'],
    ['set 472.‸5', '5 tenths: lever 1. In position 2 it drives place 2 of the result.'],
    ['set 472.5‸', '5 tenths: lever 1. In position 2 it drives place 2 of the result.'],
    ['set ‸1 at 4 and 2', '1 hundred: lever 4. In position 2 it drives place 5 of the result.'],
    ['set 12; expect result ‸1.25', '1 unit: place 3 of the result.'],
    ['set 12; multiply by ‸3.1', '3 units: 3 turns in position 3.'],
    ['set 12; multiply by ‸0.1', '0 units: no turn in position 3.'],
  ])('%s', (step, sentence) => {
    expect(onOffice(`points setting 1 counter 1 result 2\nshift right\n${step}`)).toContain(sentence);
  });

  test('has its range, and German words', () => {
    const text = `${OFFICE}sequence bay on office-6\nset ⟦4‸72⟧`;
    expect(said(text, { locale: 'de' })).toContain(
      '7 Zehner: Einstellhebel 2. In Stellung 1 treibt er die Stelle 2 des Resultatwerks.',
    );
  });
});

describe('a word', () => {
  test('is told with its meaning, and how it is written', () => {
    const text = onOffice('⟦tu‸rn⟧ 3');
    expect(text).toMatch(/^\*\*turn\*\* – Turns the crank\./);
    expect(text).toContain('```crank\nturn [back] [N]\nturn [back] until overdraw\nturn until stop\n```');
    expect(said('machine a\n  ⟦coun‸ter⟧ 8 plain')).toContain('```crank\ncounter N [carry | plain | signed]\n```');
    expect(said('machine a\n  counter 8 ⟦pla‸in⟧')).toMatch(/^\*\*plain\*\* – A counter without carry[^`]*$/);
  });

  test('is told even where the line can not be read', () => {
    expect(onOffice('turn ba‸ck back back')).toContain('**back** – The other way round.');
    expect(said('tu‸rn')).toContain('Turns the crank.');
  });

  test('is told in German, none is missing and none is made up', () => {
    expect(onOffice('tu‸rn', { locale: 'de' })).toContain('**turn** – Dreht die Kurbel.');
    expect(Object.keys(de.meanings)).toEqual(WORDS.map(({ word }) => word));
    for (const meaning of Object.values(de.meanings)) expect(meaning).toMatch(/^\p{Lu}.*\.$/u);
  });

  test('within a comment or a text is none', () => {
    expect(said('# tu‸rn')).toBe('');
    expect(onOffice('note "tu‸rn"')).not.toContain('crank');
  });
});

describe('a name', () => {
  test('of a machine has its properties in words', () => {
    for (const header of ['machine ‸office-6', 'sequence bay on ⟦off‸ice-6⟧', 'machine other like ⟦off‸ice-6⟧\n']) {
      const text = header.startsWith('machine ‸')
        ? said(OFFICE.replace('machine office-6', header))
        : said(`${OFFICE}${header}`);
      expect(text).toContain('`machine office-6 "The office machine"`\n\n**The office machine**');
      expect(text).toContain(
        '- 6 setting levers, 6 places in the counter, 12 places in the result, 6 carriage positions.',
      );
      expect(text).toContain('- A bell rings');
    }
    const text = said(WORKSHOP.replace('shop-4', '‸shop-4'));
    for (const property of [
      'negative figures marked',
      'the count lever turns this round',
      'ends 5 places from where the carriage stands',
      'a lever puts the drive to subtract',
      'result wheels can be set by hand',
      'out of gear',
      'returns the levers to zero',
      'divides by itself',
      'In position 1 the result can be passed back',
      'Effort: 1 a turn, 1 a position shifted, 2 a lever moved.',
    ]) {
      expect(text).toContain(property);
    }
    expect(said(OFFICE.replace('office-6', 'off‸ice-6'), { locale: 'de' })).toContain('- 6 Einstellhebel,');
  });

  test('of a machine that can not be built says so', () => {
    expect(said('machine wro‸ng\n  setting 4')).toContain('contradict');
    expect(said('sequence bay on nob‸ody')).toBe('Nothing called `nobody` is known here.');
  });

  test('of a sequence has its signature, machine, effort and cases', () => {
    const text = `${OFFICE}sequence bay "One *bay*" (a = 3, b = 12) on office-6
  case a = 5
  goal result = a * b
  clear all; set b; turn a; shift right
sequence other on office-6
  run `;
    for (const marked of [`${text}⟦b‸ay⟧`, `${text.replace('sequence bay', '‸sequence bay')}bay`]) {
      const found = said(marked);
      expect(found).toContain('`sequence bay "One *bay*" (a = 3, b = 12) on office-6`\n\n**One \\*bay\\***');
      expect(found).toContain('- On `office-6` (The office machine).');
      expect(found).toContain('- Effort 4: 3 turns, 1 shift.');
      expect(found).toContain('- 1 case beside the defaults.');
      expect(found).toContain('- `goal result = a * b`');
    }
    expect(said(`${text}b‸ay`, { cases: { bay: 1 } })).toContain('Case 1: Effort 6: 5 turns');
  });

  test('of a sequence in which somebody looks says what that would catch, by parts of the machine', () => {
    const text = `${OFFICE}sequence b‸ay on office-6\n  clear all; set 111111; turn\n  expect result 111111\n`;
    const line =
      '- catches 12 of 129 faults: levers 12 of 60, tens carry 0 of 33, counter 0 of 11, clearing 0 of 24, bell 0 of 1';
    expect(said(text).split('\n')).toContain(line);
    expect(said(text, { locale: 'de' })).toContain('findet 12 von 129 möglichen Fehlern: Einstellhebel 12 von 60');
    expect(said(text, { settings: { coverage: false } })).not.toContain('catches');
    expect(said(text.replace(/ {2}expect.*/, ''))).not.toContain('catches');
  });

  test('of a sequence in another file has its effort too', () => {
    const others = { 'stores.crank': `${OFFICE}sequence pots on office-6\n  set 2; turn 4` };
    expect(said('use "stores.crank"\nsequence bay on office-6\n  run po‸ts', {}, others)).toContain(
      'Effort 4: 4 turns',
    );
  });

  test('of a parameter has its default and cases', () => {
    const text = `${OFFICE}sequence bay (a = 3, b = 1) on office-6\n  case a = 5\n  case b = 2\n  case b = 4, a = 7\n  turn `;
    expect(said(`${text}⟦‸a⟧`)).toContain(
      '`a` is a parameter of `bay`.\n\n- By default `3`\n- Case 1: `5`\n- Case 3: `7`',
    );
    expect(said(`${text}‸c`)).toContain('Nothing called `c` is known here.');
  });

  test('of a reading has the reading', () => {
    const text = `${OFFICE}sequence bay on office-6\n  set 12; turn 2\n  expect result 24 as ⟦to‸tal⟧ counter 2 as turns`;
    expect(said(text)).toContain('`total` is a reading of `bay`.\n\n- result: expected `24`, reads 24 ✓');
  });

  test('of a file has what it declares, or why it can not be read', () => {
    const others = { 'stores.crank': `${OFFICE}sequence pots on office-6\nsequence beds on office-6\n` };
    expect(said('use "⟦sto‸res.crank⟧"', {}, others)).toBe(
      '`stores.crank`\n\n- Machines: `office-6`\n- Sequences: `pots`, `beds`',
    );
    expect(said('us‸e "stores.crank"', {}, others)).toContain('- Machines: `office-6`');
    expect(said('use "mis‸sing.crank"')).toContain('There is no file “missing\\.crank”');
    expect(said('use "emp‸ty.crank"', {}, { 'empty.crank': '' })).toContain('It declares nothing.');
  });
});

describe('whatever the text', () => {
  const markdown = new MarkdownIt({ html: true, linkify: true });
  const nasty = '<img src=x> [a](http://x.de) ![b](c) `d` www.e.de ### *f*';

  test('of a title or a note, it makes no link, picture or HTML', () => {
    const title = nasty.replaceAll('"', '');
    const text = `machine ‸m-6 "${title}"\n  setting 6\n  result 6\nsequence s "${title}" on m-6\n  note "${title}"\n  run s\n`;
    for (const [line, character] of [
      [0, 9],
      [3, 10],
      [3, 1],
      [4, 10],
      [5, 7],
    ]) {
      const { document } = openMarked(text);
      const found = hover(document, { line, character }, reader());
      expect(found).toBeDefined();
      const { value } = (found as Hover).contents as MarkupContent;
      const kinds = markdown
        .parse(value, {})
        .flatMap(({ type, children }) => [type, ...(children ?? []).map((c) => c.type)]);
      expect(kinds.filter((kind) => /^(?:link|image|html|em_|heading)/.test(kind))).toEqual([]);
    }
  });

  test('and wherever the pointer is, it never throws', () => {
    const text = `${OFFICE}sequence bay (a = 3) on office-6\n  case a = 4\n  goal result = a / 0\n  repeat 3 { turn a\n  run bay\n  }}\n  set 99 at 0\n  expect counter -1 as x\nbench "x" of bay on office-6\n  found x result 3\nuse "../.."\n  turn\n`;
    const { document } = openMarked(text);
    fc.assert(
      fc.property(fc.integer({ min: -1, max: 30 }), fc.integer({ min: -1, max: 60 }), (line, character) => {
        const found = hover(document, { line, character }, reader({ locale: 'de' }));
        expect(found === undefined || (found.contents as MarkupContent).value.length > 0).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('a bench record', () => {
  const record = (lines: string, wishes: Wishes = {}) =>
    said(
      `${OFFICE}sequence proof on office-6
  clear all
  set 1
  turn
  clear result
  turn back
  expect overdraw bell result 999999999999 as nines
  turn
  expect overflow bell result 0 as noughts
${lines}`,
      wishes,
    );
  test('says over its header what is wrong with the machine, and where to look', () => {
    const text = record(
      'be‸nch "Before <b>oiling</b>" of proof on office-6\n found nines bell\n found noughts result 999990000000',
    );
    expect(text).toContain('Not a pass');
    expect(text).toMatch(/- `carry-lost result 7 add`: .*place 7 to 8/);
    expect(text).not.toContain('<b>');
  });
  test('says the same over what was found, and proposes what to try next', () => {
    const text = record('bench "A" of proof on office-6\n found nines no be‸ll');
    expect(text).toContain('bell-dead');
    expect(text).toMatch(/note the result at reading 1 \\\(nines\\\)/);
    expect(text).toMatch(/- result 99: `carry-lost result 2 subtract`/);
  });
  test('in German', () => {
    expect(record('bench "A" of proof on office-6\n found nou‸ghts result 0', { locale: 'de' })).toContain('Bestanden');
  });
});
