import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { type SheetAnswer, sheetAsked, shownSheetGradually } from '../../server/service/sheet.js';
import { FIGURE_CHOICES, PAPERS, SHEET_KINDS } from '../../server/sheets/model.js';
import { SHEET_LANGUAGES } from '../../server/sheets/wording/index.js';
import { addressOf, openMarked, reader } from './editor.js';

const URI = addressOf('test.crank');
const OFFICE = 'machine office-6\n  setting 6\n  counter 6\n  result 12\n';
const BAY = `${OFFICE}sequence bay "Area of one bay" (a = 12) on office-6
  case a = 15
  goal result = a * 24
  clear all
  set 24
  multiply by a
  ask result

sequence pots on office-6
  clear all
  set 48
  turn 6
`;

interface Wish extends Readonly<Record<string, unknown>> {
  readonly locale?: string;
  readonly others?: Readonly<Record<string, string>>;
}

function answered(text: string, { locale = 'en', others = {}, ...sent }: Wish = {}): SheetAnswer {
  const asked = sheetAsked({ uri: URI, ...sent }, locale);
  if (typeof asked === 'string') throw new Error(asked);
  return finish(shownSheetGradually(openMarked(text, others).document, asked, reader({ locale })));
}

describe('a sheet for an editor', () => {
  test('is of the sequence that is named, or of the one on a line, or of the first', () => {
    expect(answered(BAY, { sequence: 'pots' }).sheet?.title).toBe('pots');
    expect(answered(BAY, { line: 12 }).sequence).toBe('pots');
    expect(answered(BAY, { line: 11 }).sequence).toBe('bay');
    expect(answered(BAY, { line: 0 }).sequence).toBe('bay');
    expect(answered(BAY, { line: 1e9 }).sequence).toBe('pots');
    expect(answered(BAY).sheet?.title).toBe('Area of one bay');
  });

  test('is a whole page or a text, of the kind that is wanted', () => {
    const { sheet, choices } = answered(BAY);
    expect(choices).toEqual({ kind: 'operating', language: 'en', paper: 'a4', figures: 'stages', format: 'html' });
    expect(sheet?.content).toMatch(/^<!DOCTYPE html>\n<html lang="en">.*Operating instructions.*<\/html>\n$/s);
    const key = answered(BAY, { kind: 'key', language: 'de', format: 'markdown' });
    expect(key.sheet?.content).toMatch(/^# Area of one bay\n\n\*Lösungsblatt\*/);
    expect(answered(BAY, { paper: 'letter' }).sheet?.content).toContain('size: letter');
    const figures = (choice: string) => answered(BAY, { figures: choice }).sheet?.content.split('<figure>').length;
    expect(figures('all')).toBeGreaterThan(figures('stages') ?? 0);
  });

  test('speaks the language of the editor where there is one, and English else', () => {
    expect(answered(BAY, { locale: 'de-AT' }).choices.language).toBe('de');
    expect(answered(BAY, { locale: 'fr' }).choices.language).toBe('en');
    expect(answered(BAY, { locale: 'de', language: 'en' }).sheet?.content).toContain('Operating instructions');
  });

  test('comes with the sequences of the document and with all that may be chosen', () => {
    const { sequences, offers } = answered(BAY, { locale: 'de' });
    expect(sequences.map(({ name, title, range }) => [name, title, range.start.line, range.end.line])).toEqual([
      ['bay', 'Area of one bay', 4, 12],
      ['pots', '', 12, 17],
    ]);
    const values = (offered: readonly { value: string }[]) => offered.map(({ value }) => value);
    expect(values(offers.kind)).toEqual([...SHEET_KINDS]);
    expect(values(offers.language)).toEqual(SHEET_LANGUAGES);
    expect(values(offers.paper)).toEqual([...PAPERS]);
    expect(values(offers.figures)).toEqual([...FIGURE_CHOICES]);
    expect(offers.kind[1].label).toBe('Aufgabenblatt');
    for (const locale of ['en', 'de']) {
      for (const { value, label } of Object.values(answered(BAY, { locale }).offers).flat()) {
        expect(label, value).not.toBe(value);
      }
    }
  });

  test('is refused in the language of the editor, with the place to mend it', () => {
    const wrong = BAY.replace('  ask result', '  expect result 289');
    const { sheet, refused, sequence } = answered(wrong, { locale: 'de', language: 'en' });
    expect(sheet).toBeUndefined();
    expect(sequence).toBe('bay');
    expect(refused?.message).toMatch(/^Es gibt kein Blatt, denn die Ablesungen darauf wären falsch: Das Resultatwerk/);
    expect(refused?.at).toMatchObject({ uri: URI, range: { start: { line: 10, character: 2 } } });
    expect(answered(wrong, { sequence: 'pots' }).sheet).toBeDefined();
  });

  test('is refused with the place in another file where the error is there', () => {
    const others = { 'shed.crank': `${OFFICE}sequence part on office-6\n  clear all\n  sett 5\n` };
    const { refused } = answered('use "shed.crank"\nsequence s on office-6\n  run part\n', { others });
    expect(refused?.at).toMatchObject({ uri: addressOf('shed.crank'), range: { start: { line: 6 } } });
  });

  test("is refused at its name where it can't be run, or is not there", () => {
    expect(answered('sequence s\n  turn\n').refused).toMatchObject({
      at: { range: { start: { line: 0, character: 9 } } },
    });
    expect(answered(BAY, { sequence: 'nobody\u202e' }).refused).toEqual({
      message: 'There is no sequence called nobody\ufffd in this file.',
    });
    expect(answered(OFFICE).refused).toEqual({
      message: 'There is no sequence in this file, and so nothing to print.',
    });
    expect(answered('').sequences).toEqual([]);
  });

  test.each([
    [undefined, 'A document is needed: uri.'],
    [{ uri: 5 }, 'A document is needed: uri.'],
    [{ uri: URI, sequence: 5 }, 'sequence is the name of a sequence.'],
    [{ uri: URI, line: -1 }, 'line is a whole number, counted from 0.'],
    [{ uri: URI, line: 0.5 }, 'line is a whole number, counted from 0.'],
    [{ uri: URI, kind: 'poster' }, 'kind is one of operating, exercise, key, bench.'],
    [{ uri: URI, kind: { toString: 'x' } }, 'kind is one of operating, exercise, key, bench.'],
    [{ uri: URI, language: '../de' }, 'language is one of en, de.'],
    [{ uri: URI, paper: 'a3' }, 'paper is one of a4, letter.'],
    [{ uri: URI, figures: true }, 'figures is one of all, stages, none.'],
    [{ uri: URI, format: 'pdf' }, 'format is one of html, markdown.'],
  ])("of %j is none, and the client's maker is told why", (sent, message) => {
    expect(sheetAsked(sent, 'en')).toBe(message);
  });
});
