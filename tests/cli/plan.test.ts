import { spawnSync } from 'node:child_process';
import { closeSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, LOOKS_BROKEN, listing, MACHINE, PROGRAM } from './program.js';

const OWN = [
  'pinwheel-9',
  'pinwheel-9-old',
  'halfstep-10',
  'drum-8',
  'desk-8',
  'signed-9',
  'short-reach-8',
  'adder-9',
  'large-20',
];
const TWO = `${MACHINE}machine small-2 like bench-6
  setting 2
  counter 2
  result 4
`;

const empty = folderOf({});
const plan = (...args: string[]) => cranknote(['plan', ...args], { cwd: empty });

/** Puts a text into a file of a folder and checks it: what was found, and how the goals came out. */
function checked(text: string, cwd = folderOf({})) {
  writeFileSync(path.join(cwd, 'planned.crank'), text);
  const { findings, summary } = JSON.parse(cranknote(['check', 'planned.crank', '--format', 'json'], { cwd }).out);
  const { sequences } = JSON.parse(cranknote(['trace', 'planned.crank', '--format', 'json'], { cwd }).out);
  const formatted = cranknote(['format', '--check', 'planned.crank'], { cwd }).code;
  return { findings, sequences: summary.sequences, formatted, goals: sequences.flatMap((s: { goals: [] }) => s.goals) };
}

const clean = { findings: [], sequences: 1, formatted: 0 };

describe('a planned sequence', () => {
  it.each([
    ['24.5 * 17.2', 'pinwheel-9', '421.40', 'exact'],
    ['24.5 * 17.2', 'large-20', '421.40', 'exact'],
    ['19.5 * 3.2 + 7.25 * 4', 'drum-8', '91.40', 'exact'],
    ['12.5 + 3.75 + 0.8', 'adder-9', '17.05', 'exact'],
    ['355 / 113', 'pinwheel-9', '3.1415929', 'cut off'],
    ['355 / 113', 'halfstep-10', '3.1415929', 'cut off'],
  ])('%s on %s is a whole file in which nothing is found', (expression, machine, reading, met) => {
    const { code, out, err } = plan(expression, '--on', machine);
    expect(code).toBe(0);
    expect(err).toMatch(/^\S+ in the (?:counter|result), [a-z ]+; effort \d+: .*\.\n$/);
    expect(checked(out)).toMatchObject({ ...clean, goals: [{ reading, met }] });
  });

  it('comes with its machine where that is the program’s own, and says on standard error what comes out', () => {
    const { out, err } = plan('24.5*17.2', '--on', 'desk-8');
    expect(out).toMatch(/^sequence product on desk-8\n {2}goal result = 24\.5 \* 17\.2\n\n {2}clear all\n/);
    expect(out).toMatch(/\n\nmachine desk-8 "Learner's machine, counter without carry"\n(?: {2}.*\n)+$/);
    expect(err).toMatch(/^421\.40 in the result, exact; effort \d+: /);
  });

  it('brings along the machine that its machine is like', () => {
    const { out } = plan('24.5*17.2', '--on', 'pinwheel-9-old');
    expect(out.match(/^machine .*$/gm)).toEqual([
      'machine pinwheel-9 "Reversing pinwheel machine with 9 levers"',
      'machine pinwheel-9-old "Older reversing pinwheel machine, no bell" like pinwheel-9',
    ]);
    expect(checked(out)).toMatchObject(clean);
  });

  it('begins with a use line where the machine stands in a file of the folder', () => {
    const cwd = folderOf({ 'machines.crank': MACHINE });
    const { code, out } = cranknote(['plan', '24 * 12'], { cwd });
    expect(code).toBe(0);
    expect(out).toMatch(/^use "machines\.crank"\n\nsequence product on bench-6\n/);
    expect(checked(out, cwd)).toMatchObject({ ...clean, goals: [{ reading: '288', met: 'exact' }] });
  });

  it('is for a machine of a named file, or of one that the file uses', () => {
    const cwd = folderOf({ 'sub/m.crank': MACHINE, 'stores.crank': 'use "sub/m.crank"\n', 'page.md': 'Nothing\n' });
    for (const file of ['sub/m.crank', 'stores.crank']) {
      const { code, out } = cranknote(['plan', '24 * 12', '--on', 'bench-6', '--file', file], { cwd });
      expect(code).toBe(0);
      expect(out).toMatch(/^use "sub\/m\.crank"\n\nsequence product on bench-6\n/);
      expect(checked(out, cwd)).toMatchObject(clean);
    }
  });

  it('can be added to the file of its machine, again and again', () => {
    const cwd = folderOf({ 'bay.crank': MACHINE });
    for (let i = 0; i < 2; i++) {
      const to = openSync(path.join(cwd, 'bay.crank'), 'a');
      spawnSync(process.execPath, [PROGRAM, 'plan', '24 * 12'], { cwd, stdio: ['ignore', to, 'ignore'] });
      closeSync(to);
    }
    const text = readFileSync(path.join(cwd, 'bay.crank'), 'utf8');
    expect(text.match(/^(?:sequence|use|machine) .*$/gm)).toEqual([
      'machine bench-6',
      'sequence product on bench-6',
      'sequence product-2 on bench-6',
    ]);
    expect(checked(text, cwd)).toMatchObject({ findings: [], sequences: 2 });
  });

  it('has the name that was asked for, or one after what it works out', () => {
    const first = (...args: string[]) => plan(...args, '--on', 'pinwheel-9').out.split('\n')[0];
    expect(first('2 * 3', '--name', 'trays-per-bay')).toBe('sequence trays-per-bay on pinwheel-9');
    expect(first('2 + 3')).toBe('sequence sum on pinwheel-9');
    expect(first('(7 - 3)')).toBe('sequence difference on pinwheel-9');
    expect(first('7 / 4')).toBe('sequence quotient on pinwheel-9');
    expect(first('42')).toBe('sequence number on pinwheel-9');
  });

  it('is explained in comments, with what else was tried, and stays a whole file', () => {
    const { code, out, err } = plan('sqrt(2)', '--on', 'large-20', '--decimals', '4', '--explain');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const comments = out.split('\n').filter((line) => line.startsWith('#'));
    expect(comments.join('\n')).toMatch(
      /^# sqrt\(2\) on large-20\n# 1\.4142 in the counter, cut off; effort \d+: \d+ turns, \d+ shifts, \d+\s(?:# )?levers\s(?:# )?moved\.(?:\n|$)/,
    );
    expect(comments).toContainEqual(expect.stringMatching(/^# {2} taken {2}way +cost {2}to note$/));
    expect(comments.filter((line) => /^# +> {2}/.test(line)).length).toBeGreaterThan(0);
    for (const line of comments) expect(line.length).toBeLessThanOrEqual(80);
    expect(checked(out)).toMatchObject(clean);
  });

  it('rounds, cuts off at so many decimals, and brings the answer where it is wanted', () => {
    const reading = (...args: string[]) => {
      const { out } = plan(...args, '--format', 'json');
      const { register, decimals, reading: read, exact } = JSON.parse(out);
      return { register, decimals, read, exact };
    };
    expect(reading('2 / 3', '--on', 'pinwheel-9', '--decimals', '3')).toMatchObject({ decimals: 3, read: '0.666' });
    expect(reading('2 / 3', '--on', 'pinwheel-9', '--decimals', '3', '--round')).toMatchObject({ read: '0.667' });
    expect(reading('3 * 5', '--on', 'pinwheel-9', '--register', 'result')).toMatchObject({ register: 'result' });
  });

  it('is worked out by the method that is named', () => {
    const { code, out } = plan('355 / 113', '--on', 'large-20', '--method', 'restoring');
    expect(code).toBe(0);
    expect(out).toContain('until overdraw');
    expect(checked(out)).toMatchObject(clean);
  });
});

describe('a plan for other programs', () => {
  it('has the answer, the text and what was decided', () => {
    const { code, out, err } = plan('24.5 * 17.2', '--on', 'pinwheel-9', '--format', 'json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const found = JSON.parse(out);
    expect(found).toMatchObject({
      format: 1,
      expression: '24.5 * 17.2',
      machine: 'pinwheel-9',
      register: 'result',
      reading: '421.40',
      decimals: 2,
      figures: 5,
      exact: true,
      written: 0,
      name: 'product',
      goal: '24.5 * 17.2',
    });
    expect(found.text).toBe(plan('24.5 * 17.2', '--on', 'pinwheel-9').out.split('\n\nmachine ')[0].concat('\n'));
    const root = JSON.parse(plan('sqrt(2)', '--on', 'large-20', '--format', 'json').out);
    const [{ alternatives }] = root.decisions.filter(({ about }: { about: string }) => about === 'root');
    expect(alternatives).toContainEqual(
      expect.objectContaining({ way: 'odd-numbers', name: 'the root by odd numbers' }),
    );
    expect(alternatives.filter(({ chosen }: { chosen: boolean }) => chosen)).toHaveLength(1);
  });

  it('has what stands in the way, and who can', () => {
    const cwd = folderOf({ 'm.crank': TWO });
    const { code, out, err } = cranknote(['plan', '123 * 45', '--on', 'small-2', '--format', 'json'], { cwd });
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(JSON.parse(out)).toMatchObject({ format: 1, machine: 'small-2', refused: 'places', others: ['bench-6'] });
  });
});

describe('all machines', () => {
  it('stand in a table, the best first, those that can not last with what stands in the way', () => {
    const { code, out, err } = plan('355 / 113', '--on', 'all');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const [asked, , head, ...rows] = out.trimEnd().split('\n');
    expect(asked).toBe('  355 / 113');
    expect(head.trim().split(/ {2,}/)).toEqual([
      'machine',
      'answer',
      'in',
      'figures',
      'turns',
      'shifts',
      'levers',
      'cost',
    ]);
    const names = rows.flatMap((row) => row.trim().split(' ')[0] || []);
    expect([...names].sort()).toEqual([...OWN].sort());
    expect(names[0]).toBe('large-20');
    expect(rows.at(-1)).toBe('  adder-9         The machine has no counter.');
    for (const row of out.split('\n')) expect(row.length).toBeLessThanOrEqual(80);
  });

  it('are the same in JSON', () => {
    const { code, out } = plan('24.5 * 17.2', '--on', 'all', '--format', 'json');
    expect(code).toBe(0);
    const { machines } = JSON.parse(out);
    expect(machines.map(({ machine }: { machine: string }) => machine).sort()).toEqual([...OWN].sort());
    expect(machines[0]).toMatchObject({ reading: '421.40', exact: true });
    expect(machines.at(-1)).toMatchObject({ machine: 'adder-9', refused: 'places' });
  });

  it('fail together', () => {
    const cwd = folderOf({ 'm.crank': TWO });
    const { code, out } = cranknote(['plan', '123456789 * 987654321', '--on', 'all'], { cwd });
    expect(code).toBe(1);
    expect(out).toMatch(/^ {2}123456789 \* 987654321\n\n {2}bench-6 {2}The .*\n {2}small-2 {2}The .*\n$/);
    expect(plan('1 / 0', '--on', 'all')).toMatchObject({
      code: 1,
      out: '',
      err: 'This has no value: it divides by zero.\n',
    });
  });

  it('write no sequence', () => {
    const { code, err } = plan('1 / 7', '--on', 'all', '--explain');
    expect({ code, err }).toEqual({
      code: 2,
      err: 'With --on all nothing is written out: --explain goes with a single machine.\n',
    });
  });
});

describe('a plan that is refused', () => {
  it('says what stands in the way and which machines can', () => {
    const cwd = folderOf({ 'm.crank': TWO });
    const { code, out, err } = cranknote(['plan', '123 * 45', '--on', 'small-2'], { cwd });
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toMatch(/^small-2 can't do this\. The .* has \d+ .*, and at least \d+ are needed\.\n/);
    expect(err).toMatch(/\nMachines that can: bench-6\.\n$/);
  });

  it.each([
    ['1 / 0', 'This has no value: it divides by zero.\n'],
    ['sqrt(-1)', 'This has no value: there is no square root of a negative number.\n'],
    ['2 ^ 0.5', 'This has no value here: a power must be a whole number; for a root write sqrt( ).\n'],
    ['9^9^9', 'This has more figures than any machine could hold.\n'],
  ])('says of %s that it has no value', (expression, err) => {
    expect(plan(expression, '--on', 'pinwheel-9')).toEqual({ code: 1, out: '', err });
  });

  it('is refused at once, however large the numbers', () => {
    for (const expression of ['9'.repeat(400), `${'9'.repeat(400)} * 3`, `1 / ${'7'.repeat(400)}`, '0.5 ^ 900']) {
      const { code, out, err } = plan(expression, '--on', 'large-20');
      expect({ code, out }).toEqual({ code: 1, out: '' });
      expect(err).not.toMatch(LOOKS_BROKEN);
      expect(err).toMatch(/^[A-Za-z]/);
    }
  });
});

describe('what is no expression', () => {
  it.each([
    ['', 'There is nothing to plan: write an expression, such as "24.5 * 17.2".\n'],
    ['  ', 'There is nothing to plan: write an expression, such as "24.5 * 17.2".\n'],
    ['(1 + 2', 'A parenthesis is opened and not closed.\n    (1 + 2\n         ^\n'],
    ['1 + 2)', 'This parenthesis closes none.\n    1 + 2)\n         ^\n'],
    [
      '3,5 * 2',
      '“,” is not read. Write the decimal point as a point; digits are grouped with _ or an apostrophe.\n    3,5 * 2\n     ^\n',
    ],
    ['2 × 3', '“×” is not read. Multiply with *.\n    2 × 3\n      ^\n'],
    ['2 * width', 'width is not a number. Write the number that it stands for.\n    2 * width\n        ^^^^^\n'],
    ['.5 * 2', 'A number has its point between digits: 0.5, not .5; 24, not 24.\n    .5 * 2\n    ^\n'],
    ['1 # one', 'A # begins a comment, which has no place here.\n    1 # one\n      ^^^^^\n'],
    ['9'.repeat(5_000), 'This expression is longer than anybody could crank: 4,000 characters are the most.\n'],
    [`${'('.repeat(60)}1${')'.repeat(60)}`, 'This is nested too deep to be read. Work out the inner part by itself.\n'],
  ])('%j is shown with what is wrong in it', (expression, err) => {
    const ran = plan(expression, '--on', 'pinwheel-9');
    expect(ran.err.split('\n')[0]).toBe(err.split('\n')[0]);
    expect({ ...ran, err: expression.length > 50 ? err : ran.err }).toEqual({ code: 2, out: '', err });
  });

  it.each(['1 +', '1 2', '1; 2', '1\nturn', 'goal', '= 3', 'sqrt', '* 3', '{', '"', '\u001b[31m'])(
    '%j ends with a caret under it',
    (expression) => {
      const { code, out, err } = plan(expression, '--on', 'pinwheel-9');
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(/\n {4,}\^+\n$/);
      expect(err).not.toMatch(LOOKS_BROKEN);
      expect(err).not.toContain('\u001b');
    },
  );
});

describe('sums over a table', () => {
  const cwd = folderOf({
    'trays.csv': '# Trays\nwidth,height\n1.5,2\n2.25,3\n\n4,-1\n',
    'bad.csv': 'width;height\n1,5;2\n2,25;x\n',
  });
  const list = (sums: string, ...args: string[]) => cranknote(['plan', sums, ...args], { cwd });

  it.each(['pinwheel-9', 'halfstep-10', 'drum-8', 'signed-9', 'large-20'])(
    'are a whole file in which nothing is found, on %s',
    (machine) => {
      const sums = 'sum(width), sum(width^2), sum(width*height)';
      const { code, out, err } = list(sums, '--data', 'trays.csv', '--on', machine);
      expect(code).toBe(0);
      expect(err).toMatch(
        /^sum\(width\) = 7\.75\nsum\(width\^2\) = 23\.3125\nsum\(width\*height\) = 5\.75\nn = 3\n.* through the list; effort \d+: /,
      );
      expect(checked(out)).toMatchObject(clean);
      for (const { met } of checked(out).goals) expect(met).toBe('exact');
    },
  );

  it('are explained, and told to other programs', () => {
    const { out, err } = list('sum(width)', '--data', 'trays.csv', '--on', 'desk-8', '--explain');
    expect(err).toBe('');
    expect(out).toMatch(
      /^# sum\(width\) on desk-8\n# sum\(width\) = 7\.75\n# n = 3\n# One pass through the list; effort /,
    );
    expect(checked(out)).toMatchObject(clean);
    const json = list('sum(width)', '--data', 'trays.csv', '--on', 'desk-8', '--format', 'json').out;
    expect(JSON.parse(json)).toMatchObject({
      format: 1,
      machine: 'desk-8',
      name: 'list',
      sums: [
        { name: 'width', value: '7.75' },
        { name: 'n', value: '3' },
      ],
    });
  });

  it('are refused with the machines that can', () => {
    const { code, out, err } = list('sum(width^2)', '--data', 'trays.csv', '--on', 'adder-9');
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toMatch(/^adder-9 can't do this\. .*\nMachines that can: .*large-20.*\.\n$/);
    expect(list('sum(width)', '--data', 'trays.csv', '--on', 'desk-8', '--decimals', '1')).toEqual({
      code: 1,
      out: '',
      err: "desk-8 can't do this. The totals have 2 decimals, and 1 are asked for. A sum is not cut off: ask for 2.\n",
    });
  });

  it.each<[string[], string]>([
    [['sum(x)', '--data', 'trays.csv'], 'There is no column x. There are: width and height.\n'],
    [
      ['width * 2', '--data', 'trays.csv'],
      '“width * 2” is no sum that can be made from a list. It is written sum(x), sum(x^2) or sum(x*y).\n',
    ],
    [['', '--data', 'trays.csv'], 'Say which sums are wanted, such as "sum(x), sum(x^2), sum(x*y)".\n'],
    [
      ['sum(width)', '--data', 'bad.csv'],
      'bad.csv, line 3, column height: “x” is no number here. Write it as in 12.5.\n',
    ],
    [['sum(width)', '--data', 'gone.csv'], 'gone.csv is not there.\n'],
    [
      ['sum(width)', '--data', 'trays.csv', '--round'],
      '--round does not go with --data: sums over a list are exact, and stand where there is room.\n',
    ],
  ])('can not be begun: %j', (args, err) => {
    expect(cranknote(['plan', ...args, '--on', 'desk-8'], { cwd })).toEqual({ code: 2, out: '', err });
  });
});

describe('a plan that can not be begun', () => {
  it.each([
    [['1 + 1'], `Say with --on for which machine: ${OWN.join(', ')}; or all, to compare them.\n`],
    [
      ['1 + 1', '--on', 'pinweel-9'],
      'There is no machine pinweel-9 among those that come with the program. Did you mean pinwheel-9?\n',
    ],
    [
      ['1 + 1', '--on', 'x'],
      `There is no machine x among those that come with the program. There are: ${OWN.join(', ')}.\n`,
    ],
    [['1 + 1', '--file', 'gone.crank'], 'There is no file or folder gone.crank.\n'],
    [
      ['1 + 1', '--on', 'adder-9', '--name', 'turn'],
      "turn can't be a name: a name is a letter, then letters, digits and hyphens, and no word of the notation.\n",
    ],
    [
      ['1 + 1', '--on', 'adder-9', '--name', 'a on b'],
      "a on b can't be a name: a name is a letter, then letters, digits and hyphens, and no word of the notation.\n",
    ],
  ])('%j', (args, err) => {
    expect(plan(...args)).toEqual({ code: 2, out: '', err });
  });

  it.each(['21', '-1', 'two', '1.5'])('decimals %s', (decimals) => {
    const { code, err } = plan('1 / 7', '--on', 'pinwheel-9', `--decimals=${decimals}`);
    expect(code).toBe(2);
    expect(err).toContain('Decimals are a whole number from 0 to 20.');
  });

  it('files without a machine, with one that contradicts itself, or that disagree', () => {
    const ran = (files: Record<string, string>, ...args: string[]) =>
      cranknote(['plan', '1 + 1', ...args], { cwd: folderOf(files) });
    expect(ran({ 'a.crank': 'sequence s\n' }, '--file', 'a.crank').err).toBe(
      'There is no machine in this file, nor in what it uses.\n',
    );
    expect(ran({ 'a.crank': 'machine bad\n  setting 9\n  result 4\n' }, '--on', 'bad').err).toBe(
      'bad contradicts itself: cranknote check a.crank says where.\n',
    );
    const two = { 'a.crank': MACHINE, 'b.crank': `${MACHINE}  bell\n` };
    expect(ran(two, '--on', 'bench-6').err).toBe(
      'bench-6 is described in a.crank and b.crank: say with --file which one is meant.\n',
    );
    expect(ran(two, '--on', 'bench-6', '--file', 'b.crank')).toMatchObject({ code: 0 });
  });

  it('takes the program’s own machines where the folder’s files have none, and passes over what it can’t read', () => {
    const cwd = folderOf({ 'a.crank': 'sequence s on pinwheel-9\n', 'b.crank': new Uint8Array([0xff, 0xfe]) });
    const { code, out, err } = cranknote(['plan', '2 * 3', '--on', 'pinwheel-9'], { cwd });
    expect(code).toBe(0);
    expect(out).toContain('\nmachine pinwheel-9 ');
    expect(err).toContain('b.crank is not text in UTF-8.\n');
  });
});

it('help gives examples that run', () => {
  const { out } = cranknote(['plan', '--help'], { cwd: empty });
  expect(out).toContain('Examples:');
  for (const line of out.match(/^ {2}cranknote plan .*$/gm) ?? []) {
    if (line.includes('--file') || line.includes('--data')) continue;
    const args = (line.match(/"[^"]*"|\S+/g) ?? []).slice(1);
    expect(
      cranknote(
        args.map((arg) => arg.replaceAll('"', '')),
        { cwd: empty },
      ).code,
    ).toBe(0);
  }
  expect(listing(empty)).toEqual({});
});
