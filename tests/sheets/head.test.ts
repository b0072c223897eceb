/** What stands at the head of every sheet. */
import { describe, expect, test } from 'vitest';
import type { Profile } from '../../server/machine/index.js';
import { SHEET_KINDS, type Text } from '../../server/sheets/model.js';
import { machineTable, timeEstimate, usualCautions } from '../../server/sheets/sentences.js';
import { listed, plainText, tidy } from '../../server/sheets/spans.js';
import { SHEET_LANGUAGES, sheetWords } from '../../server/sheets/wording/index.js';
import { checkText } from '../marked.js';

const profileOf = (...lines: string[]): Profile => {
  const text = `machine stores\n${lines.join('\n')}\nsequence trial on stores\n  clear all\n`;
  const profile = checkText(text).report.sequences[0].profile;
  if (!profile) throw new Error('There is no machine');
  return profile;
};
const table = (profile: Profile, language: string): string[] =>
  machineTable(profile, sheetWords(language)).map(([what, how]) => `${plainText(what)}: ${plainText(how)}`);

describe('cautions', () => {
  const all = (kind: (typeof SHEET_KINDS)[number], language: string): string[] =>
    usualCautions(kind, sheetWords(language)).map(plainText);

  test('every kind of sheet has some, whole sentences, none twice, in every language as many', () => {
    for (const kind of SHEET_KINDS) {
      for (const language of SHEET_LANGUAGES) {
        const cautions = all(kind, language);
        expect(cautions.length).toBeGreaterThan(0);
        expect(cautions.length).toBe(all(kind, 'en').length);
        expect(new Set(cautions).size).toBe(cautions.length);
        for (const caution of cautions) expect(caution).toMatch(/^[A-ZÄÖÜ].*\.$/);
      }
    }
  });

  test('each defers to the manual, the rules of the place and people who know', () => {
    for (const kind of SHEET_KINDS) {
      expect(all(kind, 'en').join(' ')).toMatch(/own manual/);
      expect(all(kind, 'en').join(' ')).toMatch(/\brules\b/);
      expect(all(kind, 'en').join(' ')).toMatch(/trained/);
      expect(all(kind, 'de').join(' ')).toMatch(/Anleitung der Maschine/);
      expect(all(kind, 'de').join(' ')).toMatch(/vorschriften/i);
      expect(all(kind, 'de').join(' ')).toMatch(/ausgebildet/i);
    }
  });

  test('at the bench: fingers, force, springs, solvents, old lubricants, heat', () => {
    const en = [/fingers/i, /force/, /Springs/, /solvent/, /Old oil/, /heat/];
    const de = [/Finger/, /Gewalt/, /Federn/, /Lösungsmittel/, /Altes Öl/, /erwärmen/];
    for (const word of en) expect(all('bench', 'en').join(' ')).toMatch(word);
    for (const word of de) expect(all('bench', 'de').join(' ')).toMatch(word);
  });
});

describe("the machine's data", () => {
  test('a machine that has everything', () => {
    const profile = profileOf(
      'setting 10',
      'counter 8',
      'result 16 dials',
      'subtract half-step',
      'count lever',
      'bell',
      'auto-clear',
      'auto-divide',
      'transfer result at 1',
      'transfer counter',
    );
    expect(table(profile, 'en')).toEqual([
      'Setting: 10 levers',
      'Counter: 8 places, with a tens carry through all of them',
      'Result: 16 places, with a tens carry through all of them',
      'Carriage: 8 positions',
      'Subtracting: the crank turns one way; half a place further to the right the carriage is driven in reverse',
      'Counting: a turn that adds counts one up, a turn that subtracts one down; a lever changes this over',
      'Besides: result wheels that can be set by hand; a place out of gear to the left of position 1; a bell that rings when the result runs over or goes below zero; a button that returns the levers to 0 after each turn; automatic division; back transfer from the result to the levers, in position 1; back transfer from the counter to the levers',
    ]);
  });

  test('a machine that has as little as can be', () => {
    const profile = profileOf('setting 1', 'result 1', 'subtract none');
    expect(table(profile, 'en')).toEqual([
      'Setting: 1 lever',
      'Counter: none',
      'Result: 1 place, with a tens carry through all of them',
      'Carriage: 1 position',
      'Subtracting: the machine only adds',
    ]);
    expect(table(profile, 'de')).toEqual([
      'Einstellwerk: 1 Einstellhebel',
      'Umdrehungszählwerk: keines',
      'Resultatwerk: 1 Stelle, mit Zehnerübertragung durch alle Stellen',
      'Schlitten: 1 Stellung',
      'Subtrahieren: die Maschine addiert nur',
    ]);
  });

  test('a machine that has words of its own for a step', () => {
    const lines = ['setting 8', 'counter 7', 'result 15'];
    expect(table(profileOf(...lines, 'phrase turn "Crank {count}"'), 'en').at(-1)).toBe(
      "Wording: some steps are put in this machine's own words",
    );
    expect(table(profileOf(...lines, 'phrase turn "Crank {count}"'), 'de').at(-1)).toBe(
      'Wortlaut: einige Schritte stehen in den eigenen Worten dieser Maschine',
    );
    expect(table(profileOf(...lines), 'en').join()).not.toContain('Wording');
  });

  test('carries, counters and ways of subtracting', () => {
    const rows = (...lines: string[]) => table(profileOf('setting 8', ...lines), 'en');
    expect(rows('counter 7 plain', 'result 15 reach 10', 'subtract lift', 'count first')).toEqual([
      'Setting: 8 levers',
      'Counter: 7 places, without a tens carry: each wheel counts by itself',
      'Result: 15 places, with a tens carry that covers 10 places, counted from the position of the carriage',
      'Carriage: 7 positions',
      'Subtracting: the crank turns one way; lifted, it subtracts',
      'Counting: the first turn after the counter is cleared counts one up; further turns the same way count up, the others down',
    ]);
    expect(rows('counter 7 signed', 'result 15')[1]).toBe(
      'Counter: 7 places, without a tens carry: each wheel shows −9 to 9, negative figures marked',
    );
    expect(rows('result 15')[4]).toBe('Subtracting: the crank turns both ways; backwards subtracts');
    expect(rows('result 15', 'subtract lever', 'transfer result').slice(4)).toEqual([
      'Subtracting: the crank turns one way; a lever sets the drive to subtract',
      'Besides: back transfer from the result to the levers',
    ]);
  });
});

describe('the time', () => {
  const estimate = (turns: number, shifts: number, levers: number, language = 'en'): string =>
    plainText(timeEstimate({ turns, shifts, levers, cost: 0 }, sheetWords(language)));

  test('with its assumption', () => {
    expect(estimate(30, 4, 1)).toBe(
      'about 40 seconds, assumed and not measured: 1 second a turn, 2 seconds a position of the carriage, 2 seconds a lever or button; without setting, clearing and reading',
    );
    expect(estimate(30, 4, 1, 'de')).toMatch(
      /^etwa 40 Sekunden, angenommen und nicht gemessen: 1 Sekunde je Kurbelumdrehung, /,
    );
  });

  test.each([
    [0, 'next to no time', 'kaum Zeit'],
    [1, 'about 5 seconds', 'etwa 5 Sekunden'],
    [41, 'about 45 seconds', 'etwa 45 Sekunden'],
    [89, 'about 90 seconds', 'etwa 90 Sekunden'],
    [90, 'about 2 minutes', 'etwa 2 Minuten'],
    [5_340, 'about 89 minutes', 'etwa 89 Minuten'],
    [5_400, 'about 2 hours', 'etwa 2 Stunden'],
    [1_000_000, 'about 278 hours', 'etwa 278 Stunden'],
  ])('%d turns', (turns, en, de) => {
    expect(estimate(turns, 0, 0)).toMatch(new RegExp(`^${en},`));
    expect(estimate(turns, 0, 0, 'de')).toMatch(new RegExp(`^${de},`));
  });
});

test('pieces of a line', () => {
  const text: Text = ['a', '', 'b', { reading: '1' }, '', { strong: 'c' }, 'd', 'e', { blank: 4, label: 'result' }];
  expect(tidy(text)).toEqual(['ab', { reading: '1' }, { strong: 'c' }, 'de', { blank: 4, label: 'result' }]);
  expect(plainText([...text, { code: 'turn' }])).toBe('ab1cderesultturn');
  expect(plainText(listed([['a'], ['b'], ['c']], ' and '))).toBe('a, b and c');
  expect(plainText(listed([['a']], ' and '))).toBe('a');
  expect(listed([], ' and ')).toEqual([]);
});
