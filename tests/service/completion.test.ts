/** What is offered while somebody types. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CompletionItem, InsertTextMode } from 'vscode-languageserver';
import { type CompletionOptions, completions, resolveCompletion, wantsFiles } from '../../server/service/completion.js';
import { anyFile } from '../grammar/generate.js';
import { applyEdits, openMarked, reader } from './editor.js';

const DESK = `machine desk "Desk machine in the office"
  setting 6
  counter 5
  result 10
  subtract reverse
`;
const LEVER = `machine lever-8
  setting 8
  counter 6
  result 12 dials
  subtract lever
  count lever
  park left
  bell
  auto-clear
  auto-divide
  transfer result
`;

interface Listed {
  readonly items: readonly CompletionItem[];
  readonly labels: readonly string[];
  readonly of: (label: string) => CompletionItem;
  /** The text with an item accepted. */
  readonly accept: (label: string) => string;
  readonly resolve: (label: string, locale?: string) => CompletionItem;
}

function list(
  marked: string,
  options: CompletionOptions & { others?: Record<string, string>; name?: string } = {},
): Listed {
  const { others = {}, name, ...rest } = options;
  const { document, cursor, text } = openMarked(marked, others, name);
  const found = completions(document, cursor, reader(), rest).items;
  const items = [...found].sort((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1));
  const of = (label: string) => {
    const item = items.find((one) => one.label === label);
    if (!item) throw new Error(`${label} is not offered, but ${items.map((one) => one.label).join(', ')}`);
    return item;
  };
  const accept = (label: string) => {
    const edit = of(label).textEdit;
    if (!edit || !('range' in edit)) throw new Error('no edit');
    return applyEdits(text, [edit]);
  };
  const resolve = (label: string, locale = 'en') => resolveCompletion(document, of(label), reader({ locale }));
  return { items, labels: items.map(({ label }) => label), of, accept, resolve };
}

const documentationOf = ({ documentation }: CompletionItem): string =>
  typeof documentation === 'object' ? documentation.value : (documentation ?? '');

describe('at the start of a line', () => {
  it('of a file: sections', () => {
    expect(list('‸').labels).toEqual(['use', 'machine', 'sequence', 'bench']);
    expect(list('ma‸').accept('machine')).toBe('machine');
  });

  it('of a sequence: what the machine can do, then the rest with the reason', () => {
    const { labels, of } = list(`${DESK}sequence pots on desk\n  ‸`);
    expect(labels.slice(0, 4)).toEqual(['turn', 'set', 'shift', 'expect']);
    expect(labels.indexOf('mode')).toBeGreaterThan(labels.indexOf('goal'));
    expect(labels.slice(-4)).toEqual(['use', 'machine', 'sequence', 'bench']);
    expect(of('mode').detail).toBe('desk has no drive lever.');
    expect(of('turn').detail).toBeUndefined();
    expect(labels.indexOf('dial')).toBeGreaterThan(labels.indexOf('divide'));
  });

  it('of a sequence on a machine with levers: the levers are not last', () => {
    const { labels, of } = list(`${LEVER}sequence pots on lever-8\n  ‸`);
    expect(of('mode').detail).toBeUndefined();
    expect(labels.indexOf('mode')).toBeLessThan(labels.indexOf('goal'));
  });

  it('behind a semicolon or a brace: no sections', () => {
    expect(list(`${DESK}sequence pots\n  turn; ‸`).labels).not.toContain('bench');
    const inBraces = list(`${DESK}sequence pots\n  repeat 2 { tu‸ }`);
    expect(inBraces.labels).toContain('turn');
    expect(inBraces.labels).not.toContain('bench');
    expect(inBraces.accept('turn')).toContain('repeat 2 { turn }');
  });

  it('of a bench record: found', () => {
    expect(list(`${DESK}bench "May" of pots on desk\n  ‸`).labels[0]).toBe('found');
  });

  it('documents a word by its meaning and forms', () => {
    const item = list(`${DESK}sequence pots\n  ‸`).of('shift');
    expect(documentationOf(item)).toContain('Moves the carriage by hand\\.');
    expect(documentationOf(item)).toContain('`shift to N`');
  });
});

describe('a machine', () => {
  it('is offered the lines that it does not have', () => {
    const { labels } = list(`machine shed\n  setting 6\n  result 9\n  ‸`);
    expect(labels).toContain('counter');
    expect(labels).not.toContain('setting');
    expect(labels).not.toContain('no');
    expect(list('machine shed\n  setting‸ 6').labels).toContain('setting');
  });

  it('like another: what is taken over comes later and is told', () => {
    const { labels, of } = list(`${LEVER}machine shed like lever-8\n  no bell\n  ‸`);
    expect(labels).not.toContain('bell');
    expect(of('counter').detail).toBe('taken over from lever-8: counter 6');
    expect(labels.indexOf('effort')).toBeLessThan(labels.indexOf('counter'));
  });

  it('drops lines that were taken over, and only those', () => {
    const marked = `${LEVER}machine shed like lever-8\n  no bell\n  no tr‸`;
    expect(list(marked).labels).toEqual([
      'counter',
      'subtract',
      'count',
      'park',
      'auto-clear',
      'auto-divide',
      'transfer result',
    ]);
    expect(list(marked).accept('transfer result')).toMatch(/\n {2}no transfer result$/);
    expect(list(`${LEVER}machine shed like lever-8\n  no transfer re‸`).accept('transfer result')).toMatch(
      /\n {2}no transfer result$/,
    );
  });

  it('drops a wording that was taken over, unless it is written anew', () => {
    const worded = `${LEVER}  phrase turn "Crank"\n  phrase shift right "One on"\n  phrase clear all "Clear"\n`;
    const phrases = (lines: string) =>
      list(`${worded}machine shed like lever-8\n${lines}  no ‸`).labels.filter((label) => label.startsWith('phrase'));
    expect(phrases('')).toEqual(['phrase turn', 'phrase shift right', 'phrase clear all']);
    expect(phrases('  phrase turn "Turn"\n')).toEqual(['phrase shift right', 'phrase clear all']);
    expect(phrases('  phrase turn "Turn"\n  no phrase clear all\n')).toEqual(['phrase shift right']);
    expect(phrases('  phrase shift "On"\n')).toEqual(['phrase turn', 'phrase shift right', 'phrase clear all']);
  });

  it('completes the words of a line', () => {
    expect(list('machine shed\n  counter 5 ‸').labels).toEqual(['carry', 'plain', 'signed']);
    expect(list('machine shed\n  subtract ‸').labels).toEqual(['reverse', 'lever', 'half-step', 'lift', 'none']);
    expect(list('machine shed\n  subtract half-s‸').accept('half-step')).toBe('machine shed\n  subtract half-step');
    expect(list('machine shed\n  transfer result\n  transfer ‸').labels).toEqual(['counter']);
  });

  it('words the steps that it can do', () => {
    const { labels, of } = list(`${DESK}  phrase ‸`);
    expect(labels).toContain('turn');
    expect(labels).not.toContain('goal');
    expect(of('auto-clear').detail).toContain('desk has no');
    expect(list(`${DESK}  phrase shift ‸`).labels).toEqual(['right', 'left', 'to', 'out']);
  });

  it('fills gaps into the wording', () => {
    const marked = `${DESK}  phrase turn "Turn {co‸} times"`;
    expect(list(marked).accept('{count}')).toMatch(/phrase turn "Turn \{count\} times"$/);
    expect(list(`${DESK}  phrase turn "Turn ‸ times"`).labels).toEqual([]);
  });
});

describe('behind the first words', () => {
  const step = (text: string, machine = DESK) => list(`${machine}sequence pots\n  ${text}`).labels;

  it('the words that the grammar has', () => {
    expect(step('turn ‸')).toEqual(['back', 'until']);
    expect(step('turn back ‸')).toEqual(['until']);
    expect(step('turn until ‸', LEVER)).toEqual(['overdraw', 'stop']);
    expect(step('set 24 ‸')).toEqual(['at', 'and']);
    expect(step('set 24.5 ‸')).toEqual(['and']);
    expect(step('multiply ‸')).toEqual(['by']);
    expect(step('mode ‸', LEVER)).toEqual(['add', 'subtract']);
    expect(step('shift ‸', LEVER)).toEqual(['right', 'left', 'to', 'out']);
    expect(step('divide ‸')).toEqual(['to', 'short']);
    expect(step('divide to 2 ‸')).toEqual(['short']);
    expect(step('multiply by 98 ‸')).toEqual(['short']);
  });

  it('what the machine can not do comes last', () => {
    const { labels, of } = list(`${LEVER}sequence pots\n  turn ‸`);
    expect(labels).toEqual(['until', 'back']);
    expect(of('back').detail).toBe('The crank of lever-8 turns one way only.');
    const desk = list(`${DESK}sequence pots\n  shift ‸`);
    expect(desk.labels.at(-1)).toBe('out');
    expect(desk.of('out').detail).toMatch(/^desk has no/);
  });

  it('registers that are not named yet', () => {
    expect(step('clear ‸')).toEqual(['all', 'setting', 'counter', 'result']);
    expect(step('clear counter ‸')).toEqual(['setting', 'result']);
    expect(step('ask result ‸')).toEqual(['setting', 'counter']);
    expect(step('points result 2 ‸')).toEqual(['setting', 'counter']);
    expect(step('goal result = 5; goal ‸')).toEqual(['setting', 'counter', 'result']);
    expect(step('goal result = 5\n  goal ‸')).toEqual(['setting', 'counter', 'result']);
  });

  it('nothing where a number or a new name is wanted', () => {
    expect(step('multiply by ‸')).toEqual([]);
    expect(step('set 24‸')).toEqual([]);
    expect(step('expect result 5 as ‸')).toEqual([]);
    expect(list('machine ‸').labels).toEqual([]);
  });

  it('nothing in comments, texts and what can not be read', () => {
    expect(step('turn 2 # tu‸')).toEqual([]);
    expect(step('note "tu‸')).toEqual([]);
    expect(step('note "tu‸rn"')).toEqual([]);
    expect(step('turn ? ‸')).toEqual([]);
    expect(step('pots ‸')).toEqual([]);
  });
});

describe('names', () => {
  it('machines, with what they are', () => {
    const { labels, of, accept } = list(`${DESK}${LEVER}sequence pots on lever-‸`);
    expect(labels).toEqual(['desk', 'lever-8']);
    expect(of('desk').detail).toBe('setting 6 · counter 5 · result 10');
    expect(accept('lever-8')).toMatch(/\nsequence pots on lever-8$/);
  });

  it('like neither itself nor what is like it', () => {
    const text = `${DESK}machine old like desk\nmachine shed like old\nmachine old-2 like ‸`;
    expect(list(text).labels).toEqual(['desk', 'old', 'shed']);
    expect(list(`${DESK}machine shed like old\nmachine old like ‸`).labels).toEqual(['desk']);
  });

  it('for a bench, the machine of the sequence first', () => {
    const text = `${DESK}${LEVER}sequence pots on lever-8\n  turn\n`;
    expect(list(`${text}bench "May" of ‸`).labels).toEqual(['pots']);
    expect(list(`${text}bench "May" of pots on ‸`).labels).toEqual(['lever-8', 'desk']);
  });

  it('sequences to run, with places for what they take; none that would run itself', () => {
    const text = `${DESK}sequence area "Area *of* a bay" (a = 34, b = 27) on desk\n  set a\n  multiply by b\nsequence bay on desk\n  run pots\nsequence pots on desk\n  run ‸`;
    const { labels, of, accept } = list(text, { snippets: true });
    expect(labels).toEqual(['area']);
    expect(of('area').detail).toBe('area (a = 34, b = 27)');
    expect(documentationOf(of('area'))).toBe('Area \\*of\\* a bay');
    expect(accept('area')).toMatch(/run area \(\$\{1:34\}, \$\{2:27\}\)$/);
    expect(list(text).accept('area')).toMatch(/run area$/);
    const resolved = list(text).resolve('area');
    expect(resolved.detail).toBe('area (a = 34, b = 27) · 9 turns, 1 shift, effort 10');
    expect(documentationOf(resolved)).toContain('result 918');
  });

  it('parameters where numbers may stand', () => {
    const text = `${DESK}sequence area (a = 34, b = 27) on desk\n  `;
    expect(list(`${text}set ‸`).labels).toEqual(['a', 'b']);
    expect(list(`${text}goal result = a * ‸`).labels).toEqual(['a', 'b', 'sqrt']);
    expect(list(`${text}set ‸`).of('b').detail).toBe('b = 27');
    expect(list(`${text}run x (‸`).labels).toEqual(['a', 'b']);
  });

  it('in a case those that have no number yet', () => {
    const text = `${DESK}sequence area (a = 34, b = 27) on desk\n  case a = 5, ‸`;
    expect(list(text).labels).toEqual(['b']);
    expect(list(text).accept('b')).toMatch(/case a = 5, b = $/);
  });

  it('labels of the sequence in a record', () => {
    const text = `${DESK}sequence pots on desk\n  expect result 0 as start\n  expect counter 0 as end\nbench "May" of pots on desk\n  found ‸`;
    expect(list(text).labels).toEqual(['start', 'end']);
    expect(list(text).of('end').detail).toBe('expect counter 0 as end');
  });
});

describe('files for use', () => {
  const files = ['machines.crank', 'test.crank', 'stores/list.crank', 'stores/old/more.crank', '../office.crank'];
  const at = (text: string) => list(text, { files });

  it('folder by folder, without the file itself', () => {
    expect(at('use "‸').labels).toEqual(['machines.crank', 'stores/', '../']);
    expect(at('use "stores/‸').labels).toEqual(['list.crank', 'old/']);
    expect(at('use "../‸').labels).toEqual(['office.crank']);
    expect(at('use "machines.crank"\nuse "‸').labels).not.toContain('machines.crank');
  });

  it('with quotation marks as they are needed', () => {
    expect(at('use ‸').accept('machines.crank')).toBe('use "machines.crank"');
    expect(at('use ma‸').accept('machines.crank')).toBe('use "machines.crank"');
    expect(at('use "ma‸').accept('machines.crank')).toBe('use "machines.crank"');
    expect(at('use "ma‸ch"').accept('machines.crank')).toBe('use "machines.crank"');
    expect(at('use "sto‸').accept('stores/')).toBe('use "stores/');
    expect(at('use "st‸ock/list.crank"').accept('stores/')).toBe('use "stores/list.crank"');
  });

  it('are asked for only there', () => {
    const wants = (marked: string) => {
      const { document, cursor } = openMarked(marked);
      return wantsFiles(document, cursor);
    };
    expect(wants('use "‸"')).toBe(true);
    expect(wants('use ‸')).toBe(true);
    expect(wants('use "a" ‸')).toBe(false);
    expect(wants('note "‸"')).toBe(false);
  });
});

describe('readings', () => {
  const below = (steps: string, machine = DESK) => `${machine}sequence pots\n  clear all\n  ${steps}`;

  it('is what the machine shows', () => {
    expect(list(below('set 245; turn 3\n  expect result ‸')).labels[0]).toBe('735');
    expect(list(below('points result 2\n  set 245; turn 3\n  expect result ‸')).labels[0]).toBe('7.35');
    expect(list(below('set 245; turn 3\n  expect result ‸\n  turn 7')).accept('735')).toContain('expect result 735\n');
    expect(list(below('set 245; turn 3\n  expect result 7‸')).accept('735')).toMatch(/expect result 735$/);
    expect(list(below('shift right 2\n  expect carriage ‸')).labels[0]).toBe('3');
  });

  it('is a complement below zero', () => {
    const read = list(below('set 42; turn back\n  expect result ‸'));
    expect(read.labels).toEqual(['-42', '9999999958']);
    expect(list(below('set 42; turn back\n  expect result -‸')).accept('42')).toMatch(/expect result -42$/);
    const signed = DESK.replace('counter 5', 'counter 5 signed');
    expect(list(below('set 42; turn back 3\n  expect counter ‸', signed)).labels).toEqual(['-3']);
  });

  it('is that of the first round between braces, and of the chosen case', () => {
    expect(list(below('set 5\n  repeat 4 {\n    turn\n    expect result ‸\n  }')).labels[0]).toBe('5');
    const { document, cursor } = openMarked(
      `${DESK}sequence area (a = 34) on desk\n  case a = 56\n  clear all\n  set a; turn\n  expect result ‸`,
    );
    const labels = (cases: Record<string, number>) =>
      completions(document, cursor, reader({ cases })).items.map(({ label }) => label);
    expect(labels({})).toContain('34');
    expect(labels({ area: 1 })).toContain('56');
    expect(labels({ area: 7 })).toContain('34');
  });

  it('are told beside the registers, and what happened comes before what did not', () => {
    const { labels, of } = list(below('set 42; mode subtract; turn\n  expect ‸', LEVER));
    expect(of('counter').detail).toContain('(−1)');
    expect(labels.slice(0, 3)).toEqual(['setting', 'counter', 'result']);
    expect(labels.indexOf('overdraw')).toBeLessThan(labels.indexOf('overflow'));
    expect(labels.indexOf('bell')).toBeLessThan(labels.indexOf('parked'));
  });

  it('meet the very expectation that they complete', () => {
    const number = fc.integer({ min: 0, max: 999_999 });
    const step = fc.oneof(
      number.map((n) => `set ${n}`),
      fc.tuple(fc.constantFrom('', 'back '), fc.integer({ min: 1, max: 12 })).map(([back, n]) => `turn ${back}${n}`),
      fc.constantFrom('shift right', 'shift left', 'clear result', 'clear counter', 'points result 3 counter 1'),
    );
    const register = fc.constantFrom('setting', 'counter', 'result');
    const carry = fc.constantFrom('', ' plain', ' signed');
    fc.assert(
      fc.property(fc.array(step, { maxLength: 8 }), register, carry, (steps, name, kind) => {
        const above = `${DESK.replace('counter 5', `counter 5${kind}`)}sequence pots\n  ${steps.join('\n  ')}\n  expect ${name} `;
        const { labels, accept } = list(`${above}‸`);
        const readings = labels.filter((label) => /^-?\d/.test(label));
        expect(readings.length).toBeGreaterThan(0);
        for (const reading of readings) {
          const { document } = openMarked(accept(reading));
          expect(document.report.findings.map(({ facts }) => facts.code)).not.toContain('reading-differs');
          expect(document.report.findings.map(({ facts }) => facts.code)).not.toContain('syntax');
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe('filled in', () => {
  it('a step says what the machine would then show', () => {
    const text = `${DESK}sequence pots\n  clear all\n  set 24; turn 2\n  ‸\n  turn 5`;
    expect(list(text).resolve('turn').detail).toBe('then: counter 3 · result 72');
    expect(list(text).resolve('turn', 'de').detail).toBe('danach: Zählwerk 3 · Resultat 72');
    expect(list(text).resolve('set').detail).toBeUndefined();
    expect(list(text.replace('‸', 'shift ‸')).resolve('right').detail).toBe('then: position 2');
    expect(list(text.replace('‸', 'clear ‸')).resolve('counter').detail).toBe('then: counter 0');
    expect(list(text.replace('‸', 'tu‸')).resolve('turn').detail).toBe('then: counter 3 · result 72');
  });

  it('and what would be wrong with it', () => {
    const left = list(`${DESK}sequence pots\n  clear all\n  shift ‸`).resolve('left');
    expect(left.detail).toContain('The carriage comes to its end');
    const back = list(`${DESK}sequence pots\n  clear all\n  set 5\n  turn ‸`).resolve('back');
    expect(documentationOf(back)).toContain('takes the result below zero');
    const until = list(`${DESK}sequence pots\n  clear all\n  set 5\n  turn back until ‸`).resolve('overdraw');
    expect(documentationOf(until)).not.toContain('takes the result below zero');
  });

  it('a parameter by the value that it has', () => {
    const text = `${DESK}sequence pots (a = 34)\n  clear all\n  set ‸`;
    expect(documentationOf(list(text).resolve('a'))).toBe('then\\: setting 34');
  });

  it('leaves alone what it does not know', () => {
    const { document } = openMarked(`${DESK}sequence pots\n  turn`);
    for (const data of [undefined, 7, 'x', {}, { uri: '', line: 1e9, start: 0, step: 'turn' }, { line: -1 }]) {
      const item = { label: 'turn', data };
      expect(resolveCompletion(document, item, reader())).toEqual(item);
    }
  });

  it('does without a reading where the run is long', () => {
    const text = `${DESK}sequence pots\n  clear all\n  repeat 900 { repeat 900 { note "again" } }\n  ‸`;
    expect(list(text).resolve('turn').detail).toBeUndefined();
    expect(list(`${text.slice(0, -1)}expect result ‸`).labels).not.toContain('0');
  });
});

describe('typing a sign', () => {
  it('brings nothing up where the line could end', () => {
    const labels = (text: string) => list(`${DESK}sequence pots\n  ${text}`, { trigger: ' ' }).labels;
    expect(labels('turn ‸')).toEqual([]);
    expect(labels('set 5 ‸')).toEqual([]);
    expect(labels(' ‸')).toEqual([]);
    expect(labels('shift ‸')).not.toEqual([]);
    expect(labels('multiply ‸')).toEqual(['by']);
    expect(list('machine shed ‸', { trigger: ' ' }).labels).toEqual([]);
    expect(list('machine shed "Shed"‸', { trigger: '"' }).labels).toEqual([]);
  });

  it('replaces a word to its end where the client can tell', () => {
    const { of } = list(`${DESK}sequence pots\n  tu‸rn`, { insertReplace: true });
    expect(of('turn').textEdit).toEqual({
      newText: 'turn',
      insert: { start: { line: 6, character: 2 }, end: { line: 6, character: 4 } },
      replace: { start: { line: 6, character: 2 }, end: { line: 6, character: 6 } },
    });
  });
});

describe('in a Markdown page', () => {
  const page = (inside: string, outside = '') =>
    `# Pots\n${outside}\n\n\`\`\`crank\n${DESK}sequence pots\n  ${inside}\n\`\`\`\n`;

  it('only in fences', () => {
    expect(list(page('‸'), { name: 'page.md' }).labels).toContain('turn');
    expect(list(page('turn', '‸'), { name: 'page.md' }).labels).toEqual([]);
    expect(list(page('turn', 'tu‸'), { name: 'page.md' }).labels).toEqual([]);
  });
});

describe('anywhere', () => {
  /** Asks at every column of a line that is cut off there, with what is above and below it. */
  function askAlong(lines: readonly string[], line: number, name = 'test.crank'): number {
    let offered = 0;
    for (let end = 0; end <= lines[line].length; end++) {
      const text = [...lines.slice(0, line), lines[line].slice(0, end), ...lines.slice(line + 1)].join('\n');
      const { document } = openMarked(text, {}, name);
      const { items } = completions(document, { line, character: end }, reader(), {
        files: ['a/b.crank'],
        snippets: true,
      });
      offered += items.length;
      for (const item of items) {
        const edit = item.textEdit;
        if (!edit || !('range' in edit)) throw new Error('no edit');
        expect(edit.range.start.line).toBe(line);
        expect(edit.range.end.line).toBe(line);
        expect(edit.range.start.character).toBeLessThanOrEqual(end);
        expect(edit.range.end.character).toBeGreaterThanOrEqual(end);
      }
      const some = items.at(end % Math.max(1, items.length));
      if (some) resolveCompletion(document, some, reader());
    }
    return offered;
  }

  const ROOT = fileURLToPath(new URL('../../samples/', import.meta.url));
  const samples = readdirSync(ROOT).filter((file) => /\.(?:crank|md)$/.test(file));

  it.each(samples)('in %s it answers, however much of a line is written', (file) => {
    const lines = readFileSync(ROOT + file, 'utf8').split('\n');
    // A line in so many, each time others in each file: the rest differ in numbers alone.
    const every = Math.max(1, Math.floor(lines.length / 12));
    let offered = 0;
    for (let line = file.length % every; line < lines.length; line += every) offered += askAlong(lines, line, file);
    expect(offered).toBeGreaterThan(0);
  });

  it('it answers in any text', () => {
    fc.assert(
      fc.property(anyFile, fc.nat(), ({ lines }, at) => {
        if (lines.length > 0) askAlong(lines, at % lines.length);
      }),
      { numRuns: 60 },
    );
    const odd = fc.string({
      unit: fc.constantFrom(...' \t"#;{}()=,.-+*/^ax9_\\é', 'turn ', 'expect ', 'result ', 'use "'),
    });
    fc.assert(
      fc.property(fc.array(odd, { maxLength: 3 }), fc.constantFrom('', DESK, 'sequence x on desk'), (lines, above) => {
        const all = [...above.split('\n'), ...lines];
        askAlong(all, all.length - 1);
      }),
      { numRuns: 60 },
    );
  });

  it('it takes odd positions', () => {
    const { document } = openMarked(`${DESK}sequence pots\n  turn`);
    for (const position of [
      { line: -1, character: -5 },
      { line: 99, character: 99 },
      { line: Number.NaN, character: 0 },
    ]) {
      expect(completions(document, position, reader()).isIncomplete).toBe(false);
    }
    expect(completions(openMarked('').document, { line: 0, character: 0 }, reader()).items).toHaveLength(4);
  });

  it('a long line costs little', () => {
    for (const piece of ['3 + ', '(', '3 ^ ', '- ']) {
      const { document, cursor } = openMarked(`sequence pots\n  goal result = ${piece.repeat(900)}‸`);
      expect(completions(document, cursor, reader()).items).toEqual([]);
    }
  });
});

describe('the steps of a goal', () => {
  const GLASS = `${DESK}sequence glass on desk
  goal result = 24 * 98
`;
  const steps = ['clear all', 'set 98', 'turn 4', 'shift right', 'turn 2', 'expect result 2352'];

  it('come first below it, with the reading and the effort', () => {
    const { items, of, labels, accept } = list(`${GLASS}  ‸`);
    expect(labels[0]).toBe('write the steps');
    expect(items[0]?.detail).toBe('2352 · effort 7');
    expect(labels[1]).toBe('turn');
    const text = accept('write the steps');
    expect(text).toBe(`${GLASS}  ${steps.join('\n  ')}`);
    expect(of('write the steps').insertTextMode).toBe(InsertTextMode.asIs);
    expect(openMarked(text).document.report.findings).toEqual([]);
  });

  it('are indented as the sequence is', () => {
    expect(list(`${GLASS}‸`).accept('write the steps')).toBe(`${GLASS}  ${steps.join('\n  ')}`);
    expect(list(`${GLASS}    ‸`).accept('write the steps')).toBe(`${GLASS}    ${steps.join('\n    ')}`);
    const page = (text: string) => `\`\`\`crank\n${text}\n\`\`\`\n`.replace(/^(?=.)/gm, '> ');
    expect(list(page(`${GLASS}  ‸`), { name: 'page.md' }).accept('write the steps')).toBe(
      page(`${GLASS}  ${steps.join('\n  ')}`),
    );
  });

  it('take the place of the word that is begun', () => {
    expect(list(`${GLASS}  wri‸`).accept('write the steps')).toBe(`${GLASS}  ${steps.join('\n  ')}`);
    expect(list(`${GLASS}  se‸`).labels).not.toContain('write the steps');
  });

  it('are called so in the language of the reader', () => {
    const { document, cursor } = openMarked(`${GLASS}  ‸`);
    const [first] = completions(document, cursor, reader({ locale: 'de' })).items;
    expect(first).toMatchObject({
      label: 'Schritte schreiben',
      detail: '2352 · Aufwand 7',
    });
  });

  it('are not offered elsewhere', () => {
    const isOffered = (text: string) => list(text).labels.includes('write the steps');
    expect(isOffered(`${GLASS}  clear all\n  ‸`)).toBe(false);
    expect(isOffered(`${GLASS}  ‸\n  clear all\n`)).toBe(false);
    expect(isOffered(`${DESK}sequence glass on desk\n  ‸\n  goal result = 24 * 98\n`)).toBe(false);
    expect(isOffered(`${GLASS}  goal counter = 24\n  ‸`)).toBe(false);
    expect(isOffered(`${GLASS}  ‸# the steps`)).toBe(false);
    expect(isOffered(`${GLASS}  turn; ‸`)).toBe(false);
    expect(isOffered(`${GLASS.replace('on desk', 'on no-such')}  ‸`)).toBe(false);
    expect(isOffered(`${GLASS.replace('24', '123456789')}  ‸`)).toBe(false);
  });
});
