import { chmodSync, chownSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, IS_ROOT, LOOKS_BROKEN, listing, NOBODY } from './program.js';

const SAMPLES = fileURLToPath(new URL('../../samples', import.meta.url));

/** Machines of a folder: the old one turns both ways, one has a lever, one is small, one is lonely. */
const MACHINES = `machine old-6
  setting 6
  counter 4
  result 10
machine lever-4 "With a lever"
  setting 4
  counter 4
  result 8
  subtract lever
machine tiny-2
  setting 2
  counter 2
  result 4
`;
const TRAYS = `# Twelve trays of 24.
sequence trays "Twelve trays" on old-6
  goal result = 24 * 12

  clear all
  set 24   # a tray
  turn 2; shift right
  turn
  # as many as were sold
  shift left
  turn back 2
  turn 2
  expect counter 12 result 288

  # end of the trays

`;
const POTS = `# 1234 pots at 56.
sequence pots on old-6
  clear all
  set 1234
  turn 6; shift right
  turn 5
  expect counter 56 result 69104
`;
const WITH_LEVER = `sequence trays "Twelve trays" on lever-4
  goal result = 24 * 12

  clear all
  set 24  # a tray
  turn 2; shift right
  turn
  # as many as were sold
  shift left
  mode subtract
  turn 2
  mode add
  turn 2
  expect counter 12 result 288

  # end of the trays
`;

const folder = (files: Record<string, string> = {}) =>
  folderOf({ 'm.crank': MACHINES, 'trays.crank': `use "m.crank"\n\n${TRAYS}${POTS}`, ...files });
const adapt = (cwd: string, ...args: string[]) => cranknote(['adapt', ...args], { cwd });
const inFolder = (...args: string[]) => adapt(folder(), ...args);

/** What is found in a file, by code. */
const foundIn = (cwd: string, file: string): string[] =>
  JSON.parse(cranknote(['check', file, '--format', 'json'], { cwd }).out).findings.map(
    ({ code, severity }: { code: string; severity: string }) => `${severity} ${code}`,
  );
/** Cheaper ways may be hinted at in the old sequence, and then in the new one. */
const withoutHints = (found: readonly string[]): string[] => found.filter((one) => one !== 'hint shorter-sequence');

describe('adapted sequences', () => {
  it('are printed with what is different, the old comments and the new steps', () => {
    const cwd = folder();
    const { code, out, err } = adapt(cwd, 'trays.crank', '--to', 'lever-4', '--sequence', 'trays');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const [comment, effort, reread, ...rest] = out.split('\n');
    expect(comment).toBe('# Twelve trays of 24.');
    expect(effort).toMatch(/^# Carried over from old-6 to lever-4: effort \d+ before, \d+ now\.$/);
    expect(reread).toMatch(/^# Comment above, line 4: What is said there stays /);
    expect(`${rest.join('\n')}`).toBe(WITH_LEVER);
    writeFileSync(path.join(cwd, 'new.crank'), `use "m.crank"\n\n${out}`);
    expect(withoutHints(foundIn(cwd, 'new.crank'))).toEqual([]);
    expect(cranknote(['format', '--check', 'new.crank'], { cwd }).code).toBe(0);
  });

  it('are told apart from those that can’t be carried over', () => {
    const { code, out, err } = inFolder('trays.crank', '--to', 'tiny-2');
    expect(code).toBe(1);
    expect(out).toMatch(/^# Twelve trays of 24\.\n# Carried over.*\nsequence trays "Twelve trays" on tiny-2\n/);
    expect(out).not.toContain('pots');
    expect(err).toMatch(
      /^trays\.crank:\d+ {2}pots can't be carried over to tiny-2\.\n {2}The machine has 2 setting levers,/,
    );
    const line = Number(/:(\d+)/.exec(err)?.[1]);
    expect(`use "m.crank"\n\n${TRAYS}${POTS}`.split('\n')[line - 1]).toBe('  set 1234');
  });

  it('are named where they are for that machine already', () => {
    expect(inFolder('trays.crank', '--to', 'old-6')).toEqual({
      code: 0,
      out: '',
      err: 'trays is written for old-6 already.\npots is written for old-6 already.\n',
    });
  });

  it('begin with the use line that makes the machine visible', () => {
    const own = `machine old-6\n  setting 6\n  counter 4\n  result 10\n${POTS}`;
    const cwd = folder({ 'own.crank': own, 'sub/own.crank': own });
    expect(adapt(cwd, 'own.crank', '--to', 'lever-4').out).toMatch(/^use "m\.crank"\n\n# 1234 pots at 56\.\n# Carried/);
    expect(adapt(cwd, 'sub/own.crank', '--to', 'lever-4', '--file', 'm.crank').out).toMatch(
      /^use "\.\.\/m\.crank"\n\n/,
    );
  });

  it('bring along a machine that comes with the program, and are a whole file', () => {
    const cwd = folderOf({});
    const input = `machine old-6\n  setting 6\n  counter 4\n  result 10\n${POTS}`;
    const { code, out } = cranknote(['adapt', '-', '--to', 'drum-8'], { cwd, input });
    expect(code).toBe(0);
    expect(out).toContain('\nsequence pots on drum-8\n');
    expect(out).toContain('\nmachine drum-8 ');
    writeFileSync(path.join(cwd, 'new.crank'), out);
    expect(withoutHints(foundIn(cwd, 'new.crank'))).toEqual([]);
  });

  it('are refused once for what stands in the way in several lines, the worst first', () => {
    const sums = 'sequence sums on old-6\n  clear all\n  set 123\n  turn\n  set 1234\n  turn\n  set 124\n  turn\n';
    const cwd = folder({ 'sums.crank': `use "m.crank"\n${sums}` });
    expect(adapt(cwd, 'sums.crank', '--to', 'tiny-2')).toEqual({
      code: 1,
      out: '',
      err:
        "sums.crank:6  sums can't be carried over to tiny-2.\n  The machine has 2 setting levers, and this needs 4. " +
        'Use numbers with fewer figures, or a wider machine. The same goes for lines 4 and 8.\n',
    });
    const { sequences } = JSON.parse(adapt(cwd, 'sums.crank', '--to', 'tiny-2', '--format', 'json').out);
    expect(sequences[0].refused.map(({ line }: { line: number }) => line)).toEqual([4, 6, 8]);
  });

  it('name words that may not hold any more', () => {
    const back =
      '# By turning back.\nsequence less "By turning back" on old-6\n  clear all\n  set 24\n  turn 2\n  turn back  # one less\n  expect result 24\n';
    const cwd = folder({ 'less.crank': `use "m.crank"\n${back}` });
    expect(adapt(cwd, 'less.crank', '--to', 'lever-4').out).toMatch(
      /^# By turning back\.\n# Carried over .*\n# Comment above, lines 3 and 7: What is said there stays .*\nsequence less/,
    );
    const { sequences } = JSON.parse(adapt(cwd, 'less.crank', '--to', 'lever-4', '--format', 'json').out);
    expect(sequences[0].reread).toEqual([3, 7]);
    expect(adapt(cwd, 'less.crank', '--to', 'old-6').out).toBe('');
  });

  it('are closed up where a page has said something between their steps', () => {
    const [head, tail] = [POTS.split('\n').slice(0, 4), POTS.split('\n').slice(4, -1)].map((lines) => lines.join('\n'));
    const page = `\`\`\`crank\nuse "m.crank"\n${head}\n\`\`\`\n\nThen turn.\n\n\`\`\`crank\n${tail}\n\`\`\`\n`;
    const { code, out } = adapt(folder({ 'pots.md': page }), 'pots.md', '--to', 'lever-4');
    expect(code).toBe(0);
    expect(out).toContain('\n  set 1234\n\n  turn 6; shift right\n');
  });

  it('come with the readings that have changed', () => {
    const machines = 'machine plain-6\n  setting 6\n  result 10\nmachine plain-4\n  setting 4\n  result 8\n';
    const steps = 'clear all\n  set 5\n  turn back\n  expect overdraw\n  expect result 9999999995 as owed\n';
    const cwd = folderOf({ 'below.crank': `${machines}sequence below on plain-6\n  ${steps}` });
    const text = adapt(cwd, 'below.crank', '--to', 'plain-4');
    expect(text).toMatchObject({ code: 0, err: '' });
    expect(text.out).toMatch(
      /^# Carried over from plain-6 to plain-4: effort 1 before, 1 now\.\n# Line 12: The result shows /,
    );
    expect(text.out).toContain('\n  expect result 99999995 as owed\n');
    const { sequences } = JSON.parse(adapt(cwd, 'below.crank', '--to', 'plain-4', '--format', 'json').out);
    expect(sequences).toMatchObject([
      {
        name: 'below',
        line: 7,
        from: 'plain-6',
        differences: [{ line: 12, register: 'result', before: '9999999995', after: '99999995', reason: 'complement' }],
        effort: { before: { cost: 1 }, after: { cost: 1 } },
      },
    ]);
  });

  it('are told to other programs, those that can not be carried over with the lines', () => {
    const { code, out, err } = inFolder('trays.crank', '--to', 'tiny-2', '--format', 'json');
    expect({ code, err }).toEqual({ code: 1, err: '' });
    const { format, file, machine, written, sequences } = JSON.parse(out);
    expect({ format, file, machine, written }).toEqual({
      format: 1,
      file: 'trays.crank',
      machine: 'tiny-2',
      written: false,
    });
    expect(sequences).toMatchObject([
      { name: 'trays', line: 4, from: 'old-6', text: expect.stringMatching(/^sequence trays/), differences: [] },
      {
        name: 'pots',
        line: 20,
        refused: [
          { kind: 'limit', line: 22, message: expect.stringContaining('2 setting levers') },
          { kind: 'limit', line: 24, message: expect.stringContaining('4 places') },
        ],
      },
    ]);
  });
});

describe('adapt --write', () => {
  it('puts them into the file, everything else to the letter', () => {
    const before = `\ufeff# Stores\r\n\r\nuse "m.crank"\r\n\r\n${TRAYS.replaceAll('\n', '\r\n')}${POTS.replaceAll('\n', '\r\n')}`;
    const cwd = folder({ 'trays.crank': before });
    const { code, out, err } = adapt(cwd, 'trays.crank', '--to', 'lever-4', '--write');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(
      /^trays\.crank: trays\. Carried over from old-6 to lever-4: .* Lines are counted as they were:\n {2}Comment above, line 6: .*\ntrays\.crank: pots\. Carried over .*\n$/,
    );
    const after = `# Stores\n\nuse "m.crank"\n\n# Twelve trays of 24.\n${WITH_LEVER}\n${POTS.replace('old-6', 'lever-4')}`;
    expect(readFileSync(path.join(cwd, 'trays.crank'), 'utf8')).toBe(`\ufeff${after.replaceAll('\n', '\r\n')}`);
    expect(withoutHints(foundIn(cwd, 'trays.crank'))).toEqual([]);
    expect(adapt(cwd, 'trays.crank', '--to', 'lever-4', '--write')).toMatchObject({ code: 0, out: '' });
  });

  it('writes nothing where one can not be carried over', () => {
    const cwd = folder();
    const before = listing(cwd);
    const { code, out, err } = adapt(cwd, 'trays.crank', '--to', 'tiny-2', '--write');
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toMatch(/ {2}pots can't be carried over to tiny-2\.\n(?:.*\n)*trays\.crank is left as it was\.\n$/);
    expect(listing(cwd)).toEqual(before);
    // The one that can may be asked for by itself.
    expect(adapt(cwd, 'trays.crank', '--to', 'tiny-2', '--write', '--sequence', 'trays').code).toBe(0);
    expect(withoutHints(foundIn(cwd, 'trays.crank'))).toEqual([]);
  });

  it.each([
    ['below the last use line', 'use "old.crank"\n\n', 'use "old.crank"\nuse "m.crank"\n\n'],
    ['above the comment of the first', '# Stores\n\n', '# Stores\n\nuse "m.crank"\n\n'],
  ])('makes the machine visible %s', (_, before, after) => {
    const own = 'machine old-6\n  setting 6\n  counter 4\n  result 10\n';
    const cwd = folderOf({ 'm.crank': MACHINES.replace(own, ''), 'old.crank': own, 'pots.crank': '' });
    const inside = before.includes('use') ? '' : `${own}\n`;
    writeFileSync(path.join(cwd, 'pots.crank'), `${inside}${before}${POTS}`);
    expect(adapt(cwd, 'pots.crank', '--to', 'lever-4', '--write').code).toBe(0);
    expect(readFileSync(path.join(cwd, 'pots.crank'), 'utf8')).toBe(
      `${inside}${after}${POTS.replace('old-6', 'lever-4')}`,
    );
    expect(withoutHints(foundIn(cwd, 'pots.crank')).filter((found) => found !== 'hint unused')).toEqual([]);
  });

  it('writes a machine of the program below', () => {
    const cwd = folderOf({ 'pots.crank': `machine old-6\n  setting 6\n  counter 4\n  result 10\n${POTS}` });
    expect(
      adapt(cwd, 'pots.crank', '--to', 'desk-8', '--file', path.join(SAMPLES, 'machines.crank'), '--write').code,
    ).toBe(0);
    const text = readFileSync(path.join(cwd, 'pots.crank'), 'utf8');
    expect(text).toMatch(/\n {2}expect counter 56 result 69104\n\nmachine desk-8 ".*"\n(?: {2}.*\n)+$/);
    expect(withoutHints(foundIn(cwd, 'pots.crank'))).toEqual(['hint unused']);
  });

  it('keeps a page around its blocks, and the margin of a quotation', () => {
    const block = `use "m.crank"\n\n${POTS}`.trimEnd().replace(/^/gm, '> ').replace(/ +$/gm, '');
    const page = (machine: string) =>
      `# Pots\n\n> \`\`\`crank\n${block.replace('old-6', machine)}\n> \`\`\`\n\nAnd on.\n`;
    const cwd = folder({ 'pots.md': page('old-6') });
    expect(adapt(cwd, 'pots.md', '--to', 'lever-4', '--write').code).toBe(0);
    expect(readFileSync(path.join(cwd, 'pots.md'), 'utf8')).toBe(page('lever-4'));
  });

  it('leaves a page on which a sequence goes on in another block', () => {
    const [head, tail] = [POTS.split('\n').slice(0, 4), POTS.split('\n').slice(4, -1)].map((lines) => lines.join('\n'));
    const page = `\`\`\`crank\nuse "m.crank"\n${head}\n\`\`\`\n\nThen turn.\n\n\`\`\`crank\n${tail}\n\`\`\`\n`;
    const cwd = folder({ 'pots.md': page });
    expect(adapt(cwd, 'pots.md', '--to', 'lever-4', '--write')).toEqual({
      code: 2,
      out: '',
      err: "pots.md, line 4: this sequence goes on in another block, and the page's text would be lost. Put it into one block first.\n",
    });
    expect(listing(cwd)['pots.md']).toBe(page);
  });

  const who = IS_ROOT ? { uid: NOBODY } : {};
  it('leaves a file that is protected', () => {
    const cwd = folder();
    if (IS_ROOT) for (const name of ['.', 'trays.crank']) chownSync(path.join(cwd, name), NOBODY, NOBODY);
    chmodSync(path.join(cwd, 'trays.crank'), 0o444);
    const before = listing(cwd);
    const ran = cranknote(['adapt', 'trays.crank', '--to', 'lever-4', '--write'], { cwd, ...who });
    expect(ran).toEqual({ code: 2, out: '', err: "trays.crank can't be written and is left as it was.\n" });
    expect(listing(cwd)).toEqual(before);
  });
});

describe('what can not be begun', () => {
  it.each([
    [['gone.crank', '--to', 'tiny-2'], 'There is no file or folder gone.crank.\n'],
    [['.', '--to', 'tiny-2'], '. stands for 2 files: name a single one.\n'],
    [['m.crank', '--to', 'tiny-2'], 'There is no sequence in m.crank.\n'],
    [
      ['trays.crank', '--to', 'tiny-2', '--sequence', 'potts'],
      'There is no sequence potts in trays.crank. Did you mean pots?\n',
    ],
    [
      ['trays.crank', '--to', 'lever-44'],
      'There is no machine lever-44 in the .crank files of this folder. Did you mean lever-4?\n',
    ],
    [['-', '--to', 'tiny-2', '--write'], 'Standard input is no file that could be written.\n'],
  ])('%j', (args, err) => {
    expect(inFolder(...args)).toEqual({ code: 2, out: '', err });
  });

  it('a file that is no text', () => {
    const cwd = folderOf({ 'a.crank': new Uint8Array([0xff, 0xfe]) });
    expect(adapt(cwd, 'a.crank', '--to', 'desk-8')).toEqual({
      code: 2,
      out: '',
      err: 'a.crank is not text in UTF-8.\n',
    });
  });

  it('a sequence whose machine is not known', () => {
    const cwd = folderOf({ 'a.crank': 'sequence s on gone\n  clear all\n' });
    expect(adapt(cwd, 'a.crank', '--to', 'desk-8')).toEqual({
      code: 1,
      out: '',
      err: "a.crank:1  s can't be carried over to desk-8.\n  The machine that this sequence is written for is not known, or contradicts itself.\n",
    });
  });

  it('a machine is asked for', () => {
    const { code, err } = inFolder('trays.crank');
    expect(code).toBe(2);
    expect(err).toContain("required option '--to <machine>' not specified");
  });
});

it('every sample is carried over or told why not', () => {
  for (const machine of ['drum-8', 'adder-9', 'large-20']) {
    for (const file of ['stores-products.crank', 'workshop-division.crank', 'mistakes.crank', 'handbook.md']) {
      const { code, out, err } = cranknote(['adapt', file, '--to', machine], { cwd: SAMPLES });
      expect([0, 1]).toContain(code);
      expect(out + err).not.toMatch(LOOKS_BROKEN);
      expect(out + err).not.toBe('');
    }
  }
});
