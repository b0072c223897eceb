import { describe, expect, test } from 'vitest';
import { CancellationToken } from 'vscode-languageserver';
import { codeLenses, resolveLens, resolveLensGradually } from '../../server/service/lens.js';
import { Workspace } from '../../server/service/workspace.js';
import { addressOf, openMarked, reader } from './editor.js';

const OFFICE = 'machine office-6\n  setting 6\n  counter 6\n  result 12\n';
const URI = addressOf('test.crank');

type Wishes = Parameters<typeof reader>[0];

/** The lenses that are there at once, as their lines and titles; those that are always the same left out. */
const titles = (text: string, wishes: Wishes = {}): string[] =>
  codeLenses(openMarked(text).document, reader(wishes)).flatMap(({ range, command }) =>
    command && !/\.open|\.stepThrough/.test(command.command) ? [`${range.start.line}: ${command.title}`] : [],
  );

const BAY = `${OFFICE}sequence bay (a = 3, b = 12) on office-6
  case a = 56, b = 1_2
  case b = 7
  clear all; set b; turn a; shift right
`;

describe('lenses', () => {
  test('above a sequence are its cases and its effort', () => {
    expect(titles(BAY)).toEqual([
      '4: defaults (shown)',
      '4: case 1: a = 56, b = 1_2',
      '4: case 2: b = 7',
      '4: effort 4: 3 turns, 1 shift',
    ]);
  });

  test('follow the chosen case', () => {
    const chosen = titles(BAY, { cases: { bay: 1 } });
    expect(chosen.slice(0, 2)).toEqual(['4: defaults', '4: case 1: a = 56, b = 1_2 (shown)']);
    expect(chosen[3]).toBe('4: effort 57: 56 turns, 1 shift');
    expect(titles(BAY, { settings: { readingsCase: 2 } })[2]).toBe('4: case 2: b = 7 (shown)');
  });

  test('call the commands of the extension', () => {
    const { document } = openMarked(BAY);
    const commands = codeLenses(document, reader({ cases: { bay: 2 } })).flatMap(({ command }) => command ?? []);
    expect(commands.map(({ command, arguments: args }) => [command, args])).toEqual([
      ['cranknote.chooseCase', [URI, 'bay', 0]],
      ['cranknote.chooseCase', [URI, 'bay', 1]],
      ['cranknote.chooseCase', [URI, 'bay', 2]],
      ['cranknote.showTrace', [URI, 'bay', 2]],
      ['cranknote.stepThrough', [URI, 'bay', 2]],
      ['cranknote.openMachine', [URI, 'bay']],
      ['cranknote.openSheet', [URI, 'bay']],
    ]);
  });

  test('lead to stepping, in the case that is shown', () => {
    const step = (locale: string) =>
      codeLenses(openMarked(BAY).document, reader({ locale })).find(
        ({ command }) => command?.command === 'cranknote.stepThrough',
      )?.command?.title;
    expect([step('en'), step('de')]).toEqual(['step', 'schrittweise']);
  });

  test('end with the machine and the sheet', () => {
    const last = (locale: string) =>
      codeLenses(openMarked(BAY).document, reader({ locale }))
        .flatMap(({ command }) => command?.title ?? [])
        .slice(-2);
    expect(last('en')).toEqual(['machine', 'sheet']);
    expect(last('de')).toEqual(['Maschine', 'Blatt']);
  });

  test('without cases are the effort alone, and none where it is not run', () => {
    expect(titles(`${OFFICE}sequence pots on office-6\n  set 1; turn`)).toEqual(['4: effort 1: 1 turn']);
    expect(titles('sequence pots on nobody\n  case a = 1\n  turn')).toEqual([]);
    expect(titles('sequence\n  turn\nmachine\n')).toEqual([]);
  });

  test('tell of every sequence that is run what it moves, and nothing of what it leaves alone', () => {
    const text = `${OFFICE}  subtract lever
sequence still on office-6
  set 1
sequence wide on office-6
  shift right 2
sequence under on office-6
  mode subtract; mode add
sequence whole on office-6
  set 1; turn; shift right; turn 2; mode subtract
sequence by-heart on office-6
  run whole
sequence nowhere on nobody
  turn
`;
    expect(titles(text)).toEqual([
      '5: effort 0',
      '7: effort 2: 2 shifts',
      '9: effort 4: 2 levers',
      '11: effort 6: 3 turns, 1 shift, 1 lever',
      '13: effort 6: 3 turns, 1 shift, 1 lever',
    ]);
    expect(titles(text, { locale: 'de' })).toEqual([
      '5: Aufwand 0',
      '7: Aufwand 2: 2 Stellungen gerückt',
      '9: Aufwand 4: 2 Hebel gestellt',
      '11: Aufwand 6: 3 Kurbelumdrehungen, 1 Stellung gerückt, 1 Hebel gestellt',
      '13: Aufwand 6: 3 Kurbelumdrehungen, 1 Stellung gerückt, 1 Hebel gestellt',
    ]);
  });

  test('tell levers, and a run that breaks off', () => {
    const text = `${OFFICE}  subtract lever\nsequence pots on office-6\n  mode subtract; turn until overdraw\n  turn`;
    expect(titles(text)).toEqual(['5: effort 1002: 1000 turns, 1 lever (the run breaks off)']);
  });

  test('are not more than a line has room for, but the chosen one is among them', () => {
    const cases = Array.from({ length: 40 }, (_, i) => `  case a = ${i}`).join('\n');
    const text = `${OFFICE}sequence bay (a = 3) on office-6\n${cases}\n  turn a\n`;
    const shown = titles(text, { cases: { bay: 33 } });
    expect(shown).toHaveLength(23);
    expect(shown).toContain('4: case 33: a = 32 (shown)');
    const many = Array.from({ length: 20 }, (_, i) => `p${i} = 1234`).join(', ');
    expect(titles(`${OFFICE}sequence bay (${many}) on office-6\n  case ${many}`)[1].length).toBeLessThan(80);
  });

  test('are German for who reads German', () => {
    expect(titles(BAY, { locale: 'de' })).toEqual([
      '4: Vorgaben (angezeigt)',
      '4: Fall 1: a = 56, b = 1_2',
      '4: Fall 2: b = 7',
      '4: Aufwand 4: 3 Kurbelumdrehungen, 1 Stellung gerückt',
    ]);
  });

  test('are off if that is wanted', () => {
    expect(codeLenses(openMarked(BAY).document, reader({ settings: { lenses: false } }))).toEqual([]);
  });
});

describe('the lens above a machine', () => {
  const other = 'use "test.crank"\nsequence beds on ⟦office-6⟧\n  turn\n';

  test('tells when it is resolved which sequences are cranked on it, in other files too', () => {
    const stores = openMarked(other);
    const { document, ranges } = openMarked(
      `machine ⟦office-6⟧\n  setting 6\n  result 12\nsequence ⟦bay⟧\n  turn\nsequence pots on ⟦office-6⟧\n  turn`,
      { 'stores.crank': stores.text },
    );
    const [lens] = codeLenses(document, reader());
    expect(lens.command).toBeUndefined();
    expect(lens.range).toEqual(ranges[0]);
    expect(resolveLens(document, lens, reader()).command).toEqual({
      title: '3 sequences',
      command: 'cranknote.showReferences',
      arguments: [
        URI,
        ranges[0].start,
        [
          { uri: URI, range: ranges[1] },
          { uri: URI, range: ranges[2] },
          { uri: addressOf('stores.crank'), range: stores.ranges[0] },
        ],
      ],
    });
  });

  test('has no command where there is no such sequence', () => {
    const { document } = openMarked(OFFICE);
    const [lens] = codeLenses(document, reader());
    expect(resolveLens(document, lens, reader()).command).toEqual({
      title: 'no sequence is cranked on it',
      command: '',
    });
    expect(resolveLens(document, lens, reader({ locale: 'de' })).command?.title).toBe(
      'kein Rechengang auf dieser Maschine',
    );
  });

  test('lives with whatever a client sends back', () => {
    const { document } = openMarked(BAY);
    const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } };
    for (const data of [undefined, null, 5, { line: 'x' }, { line: 99 }, { line: -1 }, { line: 4 }]) {
      expect(resolveLens(document, { range, data }, reader()).command?.command).toBe('');
    }
  });
});

describe('the lens that says what a sequence would catch', () => {
  const text = `${OFFICE}sequence ones on office-6
  clear all; set 111111; turn
  expect result 111111
sequence quiet on office-6
  clear all; set 1; turn
sequence inside on office-6
  clear all; set 5
  repeat 2 { turn; ask result }
sequence endless on office-6
  clear all
  turn back until overdraw
  expect result 3
`;
  const resolved = (wishes: Wishes = {}) => {
    const { document } = openMarked(text);
    return codeLenses(document, reader(wishes)).flatMap((lens) => {
      if (lens.command) return [];
      const { range, command } = resolveLens(document, lens, reader(wishes));
      return range.start.line === 0 ? [] : [`${range.start.line}: ${command?.title} ${command?.command}`];
    });
  };

  test('stands over those in which somebody looks, and is worked out when it is wanted', () => {
    expect(resolved()).toEqual(['4: catches 12 of 128 faults ', '9: catches 3 of 128 faults ']);
    expect(resolved({ locale: 'de' })[0]).toBe('4: findet 12 von 128 möglichen Fehlern ');
  });

  test('is off if that is wanted', () => {
    expect(resolved({ settings: { coverage: false } })).toEqual([]);
  });

  test('is worked out once, as long as the sequence stays as it is', () => {
    const { document } = openMarked(text);
    const [, lens] = codeLenses(document, reader()).filter(({ command }) => command === undefined);
    expect(lens.command).toBeUndefined();
    const work = resolveLensGradually(document, lens, reader());
    let pauses = 0;
    while (!work.next().done) pauses++;
    expect(pauses).toBeGreaterThan(50);
    expect(resolveLensGradually(document, lens, reader()).next().done).toBe(true);
  });
});

describe('the lens above a machine that a closed file uses', () => {
  const FILES: Readonly<Record<string, string>> = {
    'm.crank': 'machine desk\n  setting 4\n  counter 4\n  result 8\n',
    's.crank': 'use "m.crank"\nsequence s on desk\n  clear all\n',
  };
  const address = (name: string) => `file:///nursery/${name}`;

  test.each([
    ['finds its files at once', () => Object.keys(FILES)],
    ['finds none yet', (asked: number) => (asked === 1 ? [] : Object.keys(FILES))],
    [
      'can not look yet',
      (asked: number) => {
        if (asked === 1) throw new Error('not yet');
        return Object.keys(FILES);
      },
    ],
  ])('counts it, though the client %s', async (_, find) => {
    let asked = 0;
    const workspace = new Workspace(
      { now: () => 0, pause: () => Promise.resolve() },
      {
        read: async (uri) => ({ text: FILES[uri.split('/').at(-1) ?? ''] }),
        find: async () => find(++asked).map(address),
      },
      () => [address('').replace(/\/$/, '')],
    );
    workspace.didOpen(address('m.crank'), 1, FILES['m.crank']);
    await workspace.loadAll();
    await workspace.loadAll();
    const document = await workspace.analysed(address('m.crank'), CancellationToken.None);
    if (!document) throw new Error('The document is not known.');
    expect(resolveLens(document, codeLenses(document, reader())[0], reader()).command?.title).toBe('1 sequence');
    expect(asked).toBeLessThanOrEqual(2);
  });
});
