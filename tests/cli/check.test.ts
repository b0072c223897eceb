import { symlinkSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, LOOKS_BROKEN, MACHINE } from './program.js';

const GOOD = `${MACHINE}sequence trays\n  clear all\n  set 24\n  turn 3\n  expect result 72\n`;
const BAD = `${MACHINE}sequence trays\n  clear all\n  trun\n`;
/** One finding of each level. */
const LEVELS: Readonly<Record<string, string>> = {
  error: `${MACHINE}sequence s\n  clear all\n  set 1234567\n`,
  warning: `${MACHINE}sequence s\n  clear all\n  points setting 1 counter 1 result 1\n`,
  information: `${MACHINE.replace('counter 4', 'counter 4 signed')}sequence s\n  clear all\n  set 2\n  turn back\n  turn\n`,
  hint: `${MACHINE}sequence s\n  clear all\n  turn\n`,
};

describe('what check is given', () => {
  const cwd = folderOf({
    'a.crank': GOOD,
    'manuals/b.crank': BAD,
    'manuals/deep/c.crank': GOOD,
    'manuals/page.md': `# Trays\n\n\`\`\`crank\n${BAD}\`\`\`\n`,
    'manuals/plain.md': '# No sequence here\n',
    'manuals/notes.txt': 'trun\n',
    'manuals/node_modules/x/d.crank': BAD,
    'alone/plain.md': '# No sequence here\n',
  });
  const summary = (...args: string[]) =>
    cranknote(['check', ...args], { cwd })
      .out.split('\n')
      .at(-2);

  it('takes a file', () => {
    expect(cranknote(['check', 'a.crank'], { cwd })).toEqual({
      code: 0,
      out: '1 file, 1 sequence: nothing to remark.\n',
      err: '',
    });
  });

  it('takes a folder with all below it, but not what others have installed there', () => {
    const { code, out } = cranknote(['check', 'manuals'], { cwd });
    expect(code).toBe(1);
    expect(out).toContain('manuals/b.crank:7:3');
    expect(out).toContain('manuals/page.md:10:3');
    expect(out).toContain('3 files, 3 sequences: 2 errors.\n');
    expect(out).not.toContain('node_modules');
  });

  it('takes the working folder where nothing is named', () => {
    expect(summary()).toBe('4 files, 4 sequences: 2 errors.');
  });

  it('takes patterns, and a file named twice once', () => {
    expect(summary('manuals/**/*.crank')).toBe('2 files, 2 sequences: 1 error.');
    expect(summary('a.crank', './a.crank', '*.crank', path.join(cwd, 'a.crank'))).toBe(
      '1 file, 1 sequence: nothing to remark.',
    );
  });

  it('takes standard input', () => {
    const { code, out } = cranknote(['check', '-'], { cwd, input: BAD });
    expect(code).toBe(1);
    expect(out).toContain('<stdin>:7:3  error [syntax]');
  });

  it('says that there was nothing to check', () => {
    expect(cranknote(['check', 'alone'], { cwd }).out).toBe(
      'No .crank file was checked, and no Markdown page with a block marked crank.\n',
    );
  });

  it('shows files outside the working folder with their whole path', () => {
    const { out } = cranknote(['check', '../manuals/b.crank'], { cwd: path.join(cwd, 'alone') });
    expect(out.split('\n')[0]).toBe(`${path.join(cwd, 'manuals/b.crank')}:7:3  error [syntax]`);
  });

  it.each([
    ['nothing-here.crank', 'There is no file or folder nothing-here.crank.\n'],
    ['nothing*.crank', 'No file matches nothing*.crank.\n'],
  ])('says that %s is not there', (name, message) => {
    expect(cranknote(['check', name], { cwd })).toEqual({ code: 2, out: '', err: message });
  });
});

describe('links', () => {
  const cwd = folderOf({ 'sub/a.crank': BAD, 'other/b.crank': BAD });
  symlinkSync('..', path.join(cwd, 'sub/loop'));
  symlinkSync('../other/b.crank', path.join(cwd, 'sub/b.crank'));
  symlinkSync('nowhere', path.join(cwd, 'sub/broken.crank'));
  symlinkSync('round.crank', path.join(cwd, 'round.crank'));

  it('are left aside below a folder', () => {
    expect(cranknote(['check', 'sub'], { cwd }).out).toContain('1 file, 1 sequence: 1 error.');
  });
  it('are followed where they are named', () => {
    expect(cranknote(['check', 'sub/b.crank'], { cwd }).out).toContain('sub/b.crank:7:3');
    expect(cranknote(['check', 'sub/loop/sub'], { cwd }).out).toContain('1 file, 1 sequence: 1 error.');
  });
  it('lead patterns to each file once', () => {
    expect(cranknote(['check', 'sub/**/*.crank'], { cwd }).out).toContain('2 files, 2 sequences: 2 errors.');
  });
  it.each(['sub/broken.crank', 'round.crank'])('that lead nowhere are said so: %s', (name) => {
    const { code, out, err } = cranknote(['check', name], { cwd });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^\S+ (?:is not there|can't be read)\.\n$/);
  });
});

describe('exit codes', () => {
  const levels = Object.keys(LEVELS);
  const cwd = folderOf(Object.fromEntries(levels.map((level) => [`${level}.crank`, LEVELS[level]])));

  it.each(levels.flatMap((found) => levels.map((asked) => [found, asked] as const)))(
    'a finding of level %s, asked for %s',
    (found, asked) => {
      const { code, out } = cranknote(['check', `${found}.crank`, '--level', asked], { cwd });
      expect(out).toContain(`  ${found} [`);
      expect(code).toBe(levels.indexOf(found) <= levels.indexOf(asked) ? 1 : 0);
    },
  );

  it('fails at warnings where no level is named', () => {
    const codes = levels.map((level) => cranknote(['check', `${level}.crank`], { cwd }).code);
    expect(codes).toEqual([1, 1, 0, 0]);
  });

  it('is 2 if one of several files can not be read, and the others are checked all the same', () => {
    const { code, out, err } = cranknote(['check', 'error.crank', '/proc/self/mem'], { cwd });
    expect(code).toBe(2);
    expect(err).toBe("/proc/self/mem can't be read.\n");
    expect(out).toContain('error.crank:7:3');
  });
});

describe('findings as text', () => {
  /** The whole output for one line in a sequence. */
  const outputFor = (line: string) => {
    const cwd = folderOf({ 'a.crank': `${MACHINE}sequence s\n${line}\n` });
    return cranknote(['check', 'a.crank'], { cwd }).out;
  };

  it('reads like this', () => {
    expect(outputFor('  clear all; set 1; trun 3')).toBe(
      [
        'a.crank:6:21  error [syntax]',
        '  “trun” is not a step. Did you mean turn?',
        '    6 │   clear all; set 1; trun 3',
        '      │                     ^^^^',
        '',
        '1 file, 1 sequence: 1 error.',
        '',
      ].join('\n'),
    );
  });

  it.each([
    ['wide characters', '  note "植木鉢"; trun', '  note "植木鉢"; trun', 17],
    ['emoji', '  note "🌱👩‍🌾"; trun', '  note "🌱👩‍🌾"; trun', 15],
    ['combining marks', '  note "Gewa\u0308chshaus"; trun', '  note "Gewa\u0308chshaus"; trun', 22],
    ['tabs', '\tnote "a\tb";\ttrun', ' note "a b"; trun', 13],
    ['controls', '  note "a\u001b[31mb"; trun', '  note "a\ufffd[31mb"; trun', 18],
    ['the other direction', '  note "a\u202eb"; trun', '  note "a\ufffdb"; trun', 14],
  ])('marks the right columns after %s', (_, line, shown, column) => {
    const lines = outputFor(line).split('\n');
    const at = lines.findIndex((l) => l.endsWith('trun'));
    expect(lines[at]).toBe(`    6 │ ${shown}`);
    expect(lines[at + 1]).toBe(`      │ ${' '.repeat(column)}^^^^`);
  });

  it('shows a piece of a long line', () => {
    const lines = outputFor(`  note "${'x'.repeat(300)}"; trun`).split('\n');
    expect(lines[2].length).toBeLessThan(130);
    expect(lines[3].indexOf('^')).toBe(lines[2].indexOf('trun'));
  });

  it('names the case in which it happened', () => {
    const cwd = folderOf({ 'a.crank': `${MACHINE}sequence s (a = 1)\n  case a = 1234567\n  clear all\n  set a\n` });
    const { out } = cranknote(['check', 'a.crank'], { cwd });
    expect(out).toContain('a.crank:8:3  error [setting-too-long] (case 1)\n');
    expect(out).not.toMatch(LOOKS_BROKEN);
  });
});
