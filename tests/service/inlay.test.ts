import { describe, expect, test } from 'vitest';
import { inlayHints } from '../../server/service/inlay.js';
import { grouped } from '../../server/service/readings.js';
import { openMarked, reader } from './editor.js';

const OFFICE = 'machine office-6\n  setting 6\n  counter 6\n  result 12\n  bell\n';
const SIGNED = 'machine store-4\n  setting 4\n  counter 4 signed\n  result 8\n';
const FULL = `machine workshop-4
  setting 4
  counter 4
  result 8 dials
  subtract lever
  count lever
  park left
  auto-clear
  auto-divide
  transfer result
`;

type Wishes = Parameters<typeof reader>[0];

/** The lines of a sequence with their readings behind a `|`, where they would stand. */
function shown(steps: string, wishes: Wishes = {}, machine = OFFICE, header = 'sequence trial'): string {
  const { document } = openMarked(`${machine}${header} on ${machine.split(/\s/)[1]}\n${steps}`);
  const end = { line: document.lines.length, character: 0 };
  const hints = inlayHints(document, { start: { line: 0, character: 0 }, end }, reader(wishes));
  const lines = [...document.lines];
  for (const { position, label } of hints) {
    const text = lines[position.line];
    lines[position.line] = `${text.slice(0, position.character)} | ${label}${text.slice(position.character)}`;
  }
  const first = document.lines.findIndex((line) => line.startsWith(header)) + 1;
  return lines.slice(first).join('\n').replaceAll('\u202f', '_');
}

describe('readings beside the steps', () => {
  test('tell what a step has changed', () => {
    expect(shown('clear all\nset 245\nturn 2\nshift right\nturn 7\nturn back\nclear counter')).toBe(
      [
        'clear all',
        'set 245 | setting 245',
        'turn 2 | counter 2 · result 490',
        'shift right | position 2',
        'turn 7 | counter 72 · result 17_640',
        'turn back | counter 62 · result 15_190',
        'clear counter | counter 0',
      ].join('\n'),
    );
  });

  test('read registers at their markers', () => {
    expect(shown('points setting 1 counter 1 result 2\nset 24.5\nturn 172')).toBe(
      [
        'points setting 1 counter 1 result 2 | setting 0.0 · counter 0.0 · result 0.00',
        'set 24.5 | setting 24.5',
        'turn 172 | counter 17.2 · result 421.40',
      ].join('\n'),
    );
  });

  test('tell the levers after set even if they stood there', () => {
    expect(shown('set 12\nset 12\nset 1234567')).toBe('set 12 | setting 12\nset 12 | setting 12\nset 1234567');
  });

  test('sum up the steps of one line behind the last of them, before a comment', () => {
    expect(shown('set 12; turn 3; shift right   # units')).toBe(
      'set 12; turn 3; shift right | setting 12 · counter 3 · result 36 · position 2   # units',
    );
  });

  test('are those of the last round in a repeat, and the repeat is summed up', () => {
    expect(shown('set 12\nrepeat 3 {\n  turn 2\n  shift right\n}')).toBe(
      [
        'set 12 | setting 12',
        'repeat 3 { | counter 222 · result 2_664 · position 4 · 6 turns',
        '  turn 2 | counter 222 · result 2_664 (3rd of 3)',
        '  shift right | position 4 (3rd of 3)',
        '}',
      ].join('\n'),
    );
    expect(shown('set 12\nrepeat 1 { turn }')).toBe(
      'set 12 | setting 12\nrepeat 1 { turn } | counter 1 · result 12 · 1 turn',
    );
    expect(shown('set 12\nrepeat 11 { turn; shift left }')).toContain('} | counter 11 · result 132 · 11 turns');
  });

  test('sum up multiply, divide, run and turns until something happens', () => {
    expect(shown('set 12\nmultiply by 203')).toContain('by 203 | counter 203 · result 2_436 · position 3 · 5 turns');
    expect(shown('set 12\nturn 5\nclear counter\nturn back until overdraw')).toContain(
      'overdraw | counter 999_994 (−6) · result 9999…88 (−12) · 6 turns · bell',
    );
    expect(shown('run two\n\nsequence two on office-6\nset 12\nturn 2')).toContain(
      'run two | setting 12 · counter 2 · result 24 · 2 turns',
    );
  });

  test('show a complement as what stands there and what it means', () => {
    expect(shown('points result 2\nset 42\nturn back')).toContain('result 9999…9.58 (−0.42)');
    expect(shown('set 42\nshift to 6\nturn back')).toContain('counter 900_000 · result 999_995_800_000 (−4_200_000)');
  });

  test('mark negative figures of a signed counter', () => {
    expect(shown('set 12\nturn back 2\nshift right 2\nturn 3', {}, SIGNED)).toBe(
      [
        'set 12 | setting 12',
        'turn back 2 | counter −2 = −2 · result 9999…76 (−24)',
        'shift right 2 | position 3',
        'turn 3 | counter 3 0 −2 = 298 · result 3_576',
      ].join('\n'),
    );
  });

  test('tell levers, buttons and the carriage out of gear', () => {
    const steps = 'mode subtract\ncount minus\nauto-clear on\nset 12; turn\nauto-clear off\nauto-divide on\nshift left';
    expect(shown(steps, {}, FULL)).toBe(
      [
        'mode subtract | drive subtracts',
        'count minus | count minus',
        'auto-clear on | auto-clear on',
        'set 12; turn | setting 0 · counter 1 · result 9999…88 (−12)',
        'auto-clear off | auto-clear off',
        'auto-divide on | auto-divide on',
        'shift left | out of gear',
      ].join('\n'),
    );
  });

  test('fill blanks and show what is not as expected', () => {
    expect(shown('set 12\nturn 2\nask counter result')).toContain('ask counter result | counter 2 · result 24');
    const expects = 'expect result 24\nexpect result 25 counter 3\nexpect bell\nexpect overdraw\nexpect carriage 2';
    expect(shown(`set 12\nturn 2\n${expects}`)).toBe(
      [
        'set 12 | setting 12',
        'turn 2 | counter 2 · result 24',
        'expect result 24',
        'expect result 25 counter 3 | ≠ result 24 · ≠ counter 2',
        'expect bell | ≠ no bell',
        'expect overdraw | ≠ no overdraw',
        'expect carriage 2 | ≠ position 1',
      ].join('\n'),
    );
    expect(shown('set 1\nturn back\nnote "a"\nexpect overdraw\nexpect bell')).toMatch(/overdraw\nexpect bell$/);
  });

  test('tell what a goal is and whether it is met', () => {
    expect(shown('goal result = 24\nset 12; turn 2')).toContain('goal result = 24 | = 24 · ✓ exact\n');
    expect(shown('goal result = 24.5\nset 12; turn 2')).toContain('| = 24.5 · ✓ cut off · reads 24\n');
    expect(shown('goal result = 23.5\nset 12; turn 2')).toContain('| = 23.5 · ✓ rounded · reads 24\n');
    expect(shown('goal result = 2400\nset 12; turn 2')).toContain('| = 2_400 · missed, reads 24\n');
    expect(shown('goal result = 1 / 0\nset 12; turn 2')).toContain('goal result = 1 / 0\n');
  });

  test('follow the chosen case, else the one of the settings, else the defaults', () => {
    const steps = 'case a = 5\ncase a = 7\nset a\nturn\nexpect result a';
    const header = 'sequence trial (a = 3)';
    const withCase = (wishes: Wishes) => {
      const { document } = openMarked(`${OFFICE}${header} on office-6\n${steps}`);
      const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
      return inlayHints(document, range, reader(wishes)).map(({ label }) => label);
    };
    expect(withCase({})).toEqual(['setting 3', 'counter 1 · result 3', '✓ 3']);
    expect(withCase({ settings: { readingsCase: 1 } })[0]).toBe('setting 5');
    expect(withCase({ settings: { readingsCase: 1 }, cases: { trial: 2 } })[0]).toBe('setting 7');
    expect(withCase({ cases: { trial: 0 }, settings: { readingsCase: 1 } })[0]).toBe('setting 3');
    expect(withCase({ cases: { trial: 9 } })[0]).toBe('setting 3');
  });

  test('show everything, or nothing, if that is wanted', () => {
    expect(shown('set 12\nnote "x"', { settings: { readings: 'all' } })).toBe(
      'set 12 | setting 12 · counter 0 · result 0 · position 1\nnote "x"',
    );
    expect(shown('mode subtract', { settings: { readings: 'all' } }, FULL)).toContain('position 1 · drive subtracts');
    expect(shown('set 12\nturn', { settings: { readings: 'off' } })).toBe('set 12\nturn');
  });

  test('end where the run broke off, and there are none where it can not be run', () => {
    expect(shown('set 0\nturn back until overdraw\nset 5')).toMatch(/overdraw \| .*1000 turns\nset 5$/);
    expect(shown('set 5', {}, 'machine wrong-4\n  setting 4\n')).toBe('set 5');
    expect(shown('note "a"\nset\nturn x')).toBe('note "a"\nset\nturn x');
  });

  test('are found of the asked lines alone, and in a page too', () => {
    const text = `# Page\n\n\`\`\`crank\n${OFFICE}sequence trial on office-6\n  set 5\n  ⟦turn\n⟧\`\`\`\n`;
    const { document, ranges } = openMarked(text, {}, 'page.md');
    expect(inlayHints(document, ranges[0], reader())).toEqual([
      { position: { line: 10, character: 6 }, label: 'counter 1 · result 5', paddingLeft: true },
    ]);
  });

  test('are told in German', () => {
    expect(shown('set 12; turn 2; shift right', { locale: 'de' })).toContain(
      'Einstellwerk 12 · Zählwerk 2 · Resultat 24 · Stellung 2',
    );
    expect(shown('repeat 2 {\nturn\n}', { locale: 'de' })).toContain('(2. von 2)');
  });

  test('never throw, whatever the range', () => {
    const { document } = openMarked('set\n}\nsequence\n  turn\n');
    const odd = { start: { line: 99, character: -4 }, end: { line: -1, character: Number.NaN } };
    expect(inlayHints(document, odd, reader())).toEqual([]);
  });
});

test('figures are grouped in threes before the point', () => {
  const shownAs = ['1', '123', '1234', '-1234567.12345', '0.5'].map((text) => grouped(text).replaceAll('\u202f', '_'));
  expect(shownAs).toEqual(['1', '123', '1_234', '−1_234_567.12345', '0.5']);
});
