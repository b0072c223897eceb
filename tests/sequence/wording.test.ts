/** What findings say, in every language: everything is said, it is told cleanly, and the languages say the same. */
import { describe, expect, it } from 'vitest';
import { CODES, type Facts } from '../../server/sequence/findings.js';
import { WORDINGS, type Wording, wordingFor } from '../../server/sequence/wording/index.js';
import { FACTS, quoting, quotingNumber } from './facts.js';

const en = wordingFor('en');
const de = wordingFor('de');
const languages = [...WORDINGS];
const facts: readonly Facts[] = Object.values<readonly Facts[]>(FACTS).flat();
const named = (list: readonly Facts[]) => list.map((one) => [JSON.stringify(one), one] as const);

/** What is said beside the messages, as sentences: of rounds, and of other places. */
const besides = ({ relatedText, roundsText }: Wording): string[] => [...Object.values(relatedText), roundsText(2)];

/** What is left of a message that was put together wrongly. */
const LEFTOVERS = /undefined|\bNaN\b|\[object|\bfunction\b|=>|\$\{|\{\w+\}|`| [.,:;?](?!\d)|[.,:;?]{2}(?!\/)|^\s|\s$/;

/** The notation at the end of a message, where a full stop would be taken for a part of it. */
const formsOf = (one: Facts): readonly string[] | undefined =>
  one.code === 'syntax' && one.problem.is === 'form' ? one.problem.forms : undefined;

/** The numbers in a message, the thousands no longer set apart. */
const numbersIn = (message: string): string[] =>
  [...new Set(message.replace(/(?<=\d)[,\u202f](?=\d{3})/g, '').match(/\d+/g))].sort();

/** Names and figures among the facts that come from the file. */
function quotesIn(value: unknown, key = ''): string[] {
  const FROM_FILE = ['name', 'nearest', 'machine', 'path', 'found', 'number', 'expected', 'reading', 'goal', 'wanted'];
  if (typeof value === 'string') return FROM_FILE.includes(key) ? [value] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([inner, of]) => quotesIn(of, inner));
}

it('is tested with every finding', () => {
  expect(Object.keys(FACTS)).toEqual(Object.keys(CODES));
  for (const [code, examples] of Object.entries<readonly Facts[]>(FACTS)) {
    expect(examples.length, code).toBeGreaterThan(0);
    expect(new Set(examples.map((example) => example.code))).toEqual(new Set([code]));
  }
});

it('is chosen by language tags as editors send them, and is English where nothing else is known', () => {
  expect(languages.map(([tag]) => tag)).toEqual(['en', 'de']);
  expect(['de', 'de-AT', 'DE_ch'].map((tag) => wordingFor(tag))).toEqual([de, de, de]);
  expect([undefined, '', 'en-GB', 'fr', 'den'].map((tag) => wordingFor(tag))).toEqual([en, en, en, en, en]);
});

describe.each(languages)('in %s', (_tag, wording) => {
  it.each(named(facts))('says whole sentences: %s', (_, one) => {
    const message = wording.messageOf(one);
    const forms = formsOf(one);
    if (forms) for (const form of forms) expect(message).toContain(form);
    expect(forms ? message.endsWith(forms[forms.length - 1]) : /\p{L}.*[.?]$/u.test(message)).toBe(true);
    expect(message).not.toMatch(LEFTOVERS);
    expect(message).not.toMatch(/\p{C}/u);
  });

  it('says something else for every example', () => {
    const told = new Map<string, Facts>();
    for (const one of facts) {
      const message = wording.messageOf(one);
      expect(told.get(message), message).toBeUndefined();
      told.set(message, one);
    }
  });

  it('has a sentence for every other place and for rounds, and a word for every level', () => {
    for (const sentence of besides(wording)) {
      expect(sentence).toMatch(/^\p{Lu}.*\.$/u);
      expect(sentence).not.toMatch(LEFTOVERS);
    }
    expect(wording.roundsText(12)).toContain('12');
    expect(new Set(Object.values(wording.severityText)).size).toBe(4);
  });

  it.each(named(quoting('\u001b[31mre\u0000d\u202e\n\u009b')))('shows what it quotes clean: %s', (_, one) => {
    const message = wording.messageOf(one);
    expect(message).not.toMatch(/\p{C}/u);
    expect(message).toContain('\ufffd[31mre\ufffdd\ufffd\ufffd\ufffd');
  });

  it.each(named(quoting(`${'🪴'.repeat(60)}end`)))('cuts what it quotes, between characters: %s', (_, one) => {
    const message = wording.messageOf(one);
    expect(message).toContain(`${'🪴'.repeat(40)}…`);
    expect(message).not.toMatch(/end|\p{Cs}/u);
  });

  it.each(named(quotingNumber('7'.repeat(3_000))))('cuts long numbers', (_, one) => {
    const message = wording.messageOf(one);
    expect(message).toContain(`${'7'.repeat(20)}…`);
    expect(message).toContain('3000');
    expect(message.length).toBeLessThan(300);
  });
});

describe('German and English', () => {
  it.each(named(facts))('say the same of %s, each in its own words', (_, one) => {
    const [english, german] = [en.messageOf(one), de.messageOf(one)];
    expect(german).not.toBe(english);
    expect(numbersIn(german)).toEqual(numbersIn(english));
    for (const quote of quotesIn(one)) expect(german.includes(quote), quote).toBe(english.includes(quote));
  });

  it.each(named(facts.filter((one) => !formsOf(one))))('are not mixed: %s', (_, one) => {
    // Words that are neither in the notation nor in the examples.
    const german = de.messageOf(one).replace(/\bfigures?\b(?=[ ,])/g, '');
    expect(german).not.toMatch(/\b(?:the|there|is|are|not|nothing|which|figures?|wheels?|turns|levers)\b/i);
    expect(en.messageOf(one)).not.toMatch(/\b(?:der|das|den|dem|ist|sind|nicht|nichts|keine?|oder|und|mit)\b|[„ß]/i);
  });

  it('differ in all that is said beside the messages', () => {
    const german = besides(de);
    expect(besides(en).filter((sentence) => german.includes(sentence))).toEqual([]);
  });

  it('set thousands apart each in its own way', () => {
    const limit: Facts = { code: 'too-long', what: 'file-turns', limit: 5_000_000 };
    expect(en.messageOf(limit)).toContain('5,000,000');
    expect(de.messageOf(limit)).toContain('5\u202f000\u202f000');
  });
});

describe('one and two', () => {
  const parked = (times: number): Facts => ({ code: 'carriage-parked', times });
  const uncounted = (times: number, places: number): Facts => ({
    code: 'turn-not-counted',
    times,
    position: places + 1,
    places,
  });
  const setting = (places: number): Facts => ({ code: 'setting-too-long', figures: '12345', at: 1, places });
  const dial = (places: number): Facts => ({ code: 'dial-too-long', figures: '12345', at: 1, places });
  const place = (places: number): Facts => ({ code: 'no-such-place', register: 'result', place: '5', places });
  const pointed = (places: number): Facts => ({
    code: 'no-such-place',
    register: 'counter',
    place: '9',
    places,
    isDecimals: true,
  });
  const position = (positions: number): Facts => ({ code: 'carriage-end', at: 1, positions, wanted: '5' });
  const offEnd = (places: number): Facts => ({ code: 'digits-off-end', times: 1, position: 3, places });
  const idle = (times: number): Facts => ({ code: 'idle-turn', times });
  const carry = (times: number): Facts => ({ code: 'carry-short', turn: 1, times, place: 6 });
  const repeated = (times: number): Facts => ({ code: 'auto-clear-repeat', times });
  const decimals = (result: number): Facts => ({ code: 'points-disagree', setting: 0, counter: 0, result });
  const untold = (limit: number): Facts => ({ code: 'too-long', what: 'findings', limit });
  const many = (takes: number, given: number): Facts => ({
    code: 'wrong-arguments',
    why: { is: 'too-many', name: 'beds', takes, given },
  });
  const unclear = (...registers: ('counter' | 'result')[]): Facts => ({ code: 'assumes-clear', registers });

  it.each<[Facts, string, string]>([
    [parked(1), 'the turn moved', 'Die Kurbelumdrehung bewegt '],
    [parked(2), '2 turns moved', '2 Kurbelumdrehungen bewegen '],
    [
      uncounted(1, 1),
      'with 1 place, has no wheel: the turn is not',
      'seiner einen Stelle kein Ziffernrad: Die Umdrehung wird',
    ],
    [
      uncounted(2, 2),
      'with 2 places, has no wheel: 2 turns are not',
      'seinen 2 Stellen kein Ziffernrad: 2 Umdrehungen werden',
    ],
    [setting(1), 'there is 1 lever.', 'es gibt 1 Einstellhebel.'],
    [setting(2), 'there are 2 levers.', 'es gibt 2 Einstellhebel.'],
    [dial(1), 'has 1 place.', 'hat 1 Stelle.'],
    [dial(2), 'has 2 places.', 'hat 2 Stellen.'],
    [place(1), 'has place 1 alone.', 'hat nur die Stelle 1.'],
    [place(2), 'has places 1 to 2.', 'hat die Stellen 1 bis 2.'],
    [
      pointed(1),
      'The counter has 1 place, so it can have 1 decimal or none, not 9.',
      'Das Umdrehungszählwerk hat 1 Stelle, kann also 1 Dezimalstelle oder keine haben, nicht 9.',
    ],
    [
      pointed(8),
      'The counter has 8 places, so it can have 0 to 8 decimals, not 9.',
      'Das Umdrehungszählwerk hat 8 Stellen, kann also 0 bis 8 Dezimalstellen haben, nicht 9.',
    ],
    [position(1), 'has position 1 alone.', 'hat nur die Stellung 1.'],
    [position(2), 'has positions 1 to 2.', 'hat die Stellungen 1 bis 2.'],
    [offEnd(1), 'which has 1 place:', 'das 1 Stelle hat'],
    [offEnd(2), 'which has 2 places', 'das 2 Stellen hat'],
    [idle(1), 'the turn adds nothing', 'die Umdrehung addiert nichts'],
    [idle(2), '2 turns add nothing', '2 Umdrehungen addieren nichts'],
    [carry(1), 'the result is 10^6 out.', 'Das Resultat ist um 10^6 falsch'],
    [carry(2), '10^6 out for each of 2 turns.', 'bei jeder von 2 Umdrehungen um 10^6'],
    [repeated(2), 'the first of these 2 turns', 'ersten dieser 2 Umdrehungen auf null: Die zweite addiert nichts'],
    [repeated(3), 'the first of these 3 turns', 'ersten dieser 3 Umdrehungen auf null: Die übrigen addieren nichts'],
    [decimals(1), 'has 1 decimal,', 'hat 1 Dezimalstelle,'],
    [decimals(2), 'has 2 decimals,', 'hat 2 Dezimalstellen,'],
    [untold(1), 'There is 1 more finding in', 'noch 1 weiteren Befund in'],
    [untold(2), 'There are 2 more findings in', 'noch 2 weitere Befunde in'],
    [many(0, 1), 'takes 0 numbers, and 1 is given', 'nimmt keine Zahl, und eine ist gegeben'],
    [many(1, 2), 'takes 1 number, and 2 are given', 'nimmt 1 Zahl, und 2 sind gegeben'],
    [many(2, 3), 'takes 2 numbers, and 3 are given', 'nimmt 2 Zahlen, und 3 sind gegeben'],
    [unclear('counter'), 'The counter is used', 'wird das Umdrehungszählwerk so benutzt, wie es gerade steht'],
    [
      unclear('counter', 'result'),
      'The counter and result are used',
      'werden das Umdrehungszählwerk und das Resultatwerk so benutzt, wie sie gerade stehen',
    ],
  ])('are told apart: %o', (one, english, german) => {
    expect(en.messageOf(one)).toContain(english);
    expect(de.messageOf(one).toLowerCase()).toContain(german.toLowerCase());
  });
});
