/** What files may do to the program: nothing but be checked. */
import { spawnSync } from 'node:child_process';
import { chmodSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, IS_ROOT, LOOKS_BROKEN, listing, MACHINE, NOBODY } from './program.js';

const HEAD = `${MACHINE}sequence s\n`;
const COMMANDS = [['check'], ['trace'], ['format']];

/** Runs every command on a file, and holds all that is true of every run. */
function everyCommand(text: string | Uint8Array, name = 'a.crank') {
  const cwd = folderOf({ [name]: text });
  return COMMANDS.map((command) => {
    const ran = cranknote([...command, name], { cwd });
    expect([0, 1, 2]).toContain(ran.code);
    expect(ran.out + ran.err).not.toMatch(LOOKS_BROKEN);
    expect(Object.keys(listing(cwd))).toEqual([name]);
    return ran;
  });
}

describe('files that are no text', () => {
  it.each<[string, string | Uint8Array]>([
    ['a picture', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13])],
    ['invalid UTF-8', new Uint8Array([...Buffer.from('sequence s\n  note "'), 0xc3, 0x28, 0x22])],
    ['half a character at the end', new Uint8Array([...Buffer.from('# '), 0xe2, 0x82])],
    ['UTF-16, little end first', new Uint8Array([0xff, 0xfe, ...Buffer.from('sequence s\n', 'utf16le')])],
    ['UTF-16 without a mark', new Uint8Array(Buffer.from('sequence s\n', 'utf16le'))],
    ['a NUL', 'sequence s\n\u0000'],
  ])('%s', (_, bytes) => {
    for (const ran of everyCommand(bytes))
      expect(ran).toEqual({ code: 2, out: '', err: 'a.crank is not text in UTF-8.\n' });
  });

  it('are not written to', () => {
    const bytes = new Uint8Array([0xff, 0xfe, 0x41, 0x0a]);
    const cwd = folderOf({ 'a.crank': bytes });
    cranknote(['format'], { cwd });
    expect(listing(cwd)).toEqual({ 'a.crank': Buffer.from(bytes).toString('latin1') });
  });
});

describe('texts of any kind', () => {
  it.each([
    ['nothing', ''],
    ['blanks', ' \n\t\n'],
    ['a byte order mark alone', '\ufeff'],
    ['CRLF', `${HEAD}  clear all\n`.replaceAll('\n', '\r\n')],
    ['lone CR', `${HEAD}  clear all\n`.replaceAll('\n', '\r')],
    ['a byte order mark', `\ufeff${HEAD}  clear all\n`],
  ])('%s', (_, text) => {
    const [checked] = everyCommand(text);
    expect(checked).toMatchObject({ code: 0, out: expect.stringMatching(/nothing to remark\.\n$/) });
  });

  it.each([
    ['CRLF', '\r\n'],
    ['lone CR', '\r'],
  ])('are counted by lines with %s', (_, end) => {
    const [{ out }] = everyCommand(`\ufeff${HEAD}  clear all\n  trun\n`.replaceAll('\n', end));
    expect(out).toContain('a.crank:7:3  error [syntax]');
    expect(out).not.toContain('\r');
  });

  it('a line of 5 MB', () => {
    const [{ code, out }] = everyCommand(`${HEAD}${'x'.repeat(5_000_000)}\n`);
    expect(code).toBe(1);
    expect(out).toContain('This line is longer than 4,000 characters and is not read.');
    expect(out.length).toBeLessThan(1_000);
  });

  it('50 MB', () => {
    for (const ran of everyCommand('#'.repeat(50_000_000))) {
      expect(ran).toEqual({ code: 2, out: '', err: 'a.crank is larger than 16 MB and is not read.\n' });
    }
  });

  it('100,000 braces on one line', () => {
    expect(everyCommand(`${HEAD}${'repeat 2 {'.repeat(100_000)}\n`)[0].code).toBe(1);
  });

  it('100,000 braces, one a line', () => {
    const [{ code, out }] = everyCommand(`${HEAD}${'repeat 2 {\n'.repeat(100_000)}`);
    expect(code).toBe(1);
    expect(out).toContain('This is nested too deep to be read.');
    expect(out.length).toBeLessThan(50_000);
  });

  it.each([
    ['without steps', ''],
    ['with a note', 'note "round"\n'],
    ['with a turn', 'turn\n'],
  ])('repeat 999, six deep, %s', (_, step) => {
    const text = `${HEAD}clear all\nset 1\n${'repeat 999 {\n'.repeat(6)}${step}${'}\n'.repeat(6)}`;
    const [checked, traced] = everyCommand(text);
    const isTooLong = step !== '';
    expect(checked.code).toBe(isTooLong ? 1 : 0);
    expect(checked.out.includes('[too-long]')).toBe(isTooLong);
    expect(traced.code).toBe(0);
  });

  it('a million bad lines: tells ten thousand and how many there are besides', () => {
    const cwd = folderOf({ 'a.crank': `${HEAD}${'x\n'.repeat(1_000_000)}` });
    const { code, out } = cranknote(['check', 'a.crank'], { cwd, env: { NODE_OPTIONS: '--max-old-space-size=1500' } });
    expect(code).toBe(1);
    expect(out).toContain('There are 990,000 more findings in this file. Mend the ones above first.');
    expect(out.length).toBeLessThan(2_000_000);
  });
});

describe('files that are used', () => {
  const outside = folderOf({ 'secret.crank': 'machine secret\n  setting 4\n  result 8\n' });
  const cwd = folderOf({ 'in/folder/x.crank': '', 'in/odd.crank': new Uint8Array([0xff]) });
  symlinkSync(path.join(outside, 'secret.crank'), path.join(cwd, 'in/link.crank'));
  symlinkSync(outside, path.join(cwd, 'in/away'));
  spawnSync('mkfifo', [path.join(cwd, 'in/pipe.crank')]);

  it.each([
    ['gone.crank', 'There is no file'],
    ['../../../../../../etc/passwd', 'lies outside the folder'],
    ['/etc/passwd', 'is not a path from the folder'],
    ['C:/windows/x.crank', 'is not a path from the folder'],
    ['file:///etc/passwd', 'is not a path from the folder'],
    ['http://localhost:1/x.crank', 'is not a path from the folder'],
    ['folder\\\\x.crank', 'is not a path from the folder'],
    ['link.crank', 'lies outside the folder'],
    ['away/secret.crank', 'lies outside the folder'],
    ['folder', 'is a folder'],
    ['odd.crank', 'is not text in UTF-8'],
    ['pipe.crank', "can't be read"],
    ['', 'There is no file'],
  ])('use "%s"', (used, message) => {
    const input = `use "${used}"\nsequence s on secret\n  clear all\n`;
    const dir = path.join(cwd, 'in');
    const { code, out, err } = cranknote(['check', '-'], { cwd: dir, input });
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(out).toContain('[file-not-found]');
    expect(out).toContain(message);
    expect(out).toContain('There is no machine called secret here.');
  });

  it('may use each other in a circle, and are told so', () => {
    const circle = folderOf({
      'a.crank': 'use "b.crank"\n',
      'b.crank': 'use "c.crank"\n',
      'c.crank': 'use "a.crank"\n',
    });
    const { code, out } = cranknote(['check'], { cwd: circle });
    expect(code).toBe(1);
    expect(out.match(/\[sequence-cycle\]/g)).toHaveLength(3);
  });
});

describe('names that need care', () => {
  const names = [
    'a b.crank',
    '[x].crank',
    '*.crank',
    'it\'s "so".crank',
    '植木鉢 é.crank',
    '$HOME;ls.crank',
    '-x.crank',
    '<stdin>',
  ];

  it.each(names)('%s', (name) => {
    const cwd = folderOf({ [name]: `${HEAD}trun\n`, 'other.crank': HEAD });
    const { out, code } = cranknote(['check', '--', name], { cwd });
    expect(code).toBe(1);
    expect(out).toContain(`${name}:6:1  error [syntax]`);
    expect(out).toContain('1 file, 1 sequence: 1 error.');
    expect(cranknote(['format', '--', name], { cwd }).code).toBe(0);
  });

  it('can not send anything to the terminal', () => {
    const name = 'a\u001b[31m\u009b2J\n.crank';
    const text = `sequence s "t\u001b[1m\u009b2J" (a\u001b = 1)\n  note "\u001b]0;x\u0007\u009b"\nuse "\u001b[31m\u009b"\n  trun\u001b[1m\n`;
    const cwd = folderOf({ [name]: text, 'gone\u001b[31m/x.txt': '' });
    const odd = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/;
    for (const format of ['text', 'json', 'junit', 'sarif', 'github']) {
      const { out, err } = cranknote(['check', '--format', format], { cwd });
      expect(out.length).toBeGreaterThan(100);
      expect(out + err).not.toMatch(odd);
    }
    const others = [
      ['trace', '.'],
      ['trace', name, '--format', 'json'],
      ['format'],
      ['check', '\u001b[31mgone'],
      ['\u001b[31m'],
      ['check', '--\u001b[31m'],
      ['trace', name, '--sequence', '\u009b'],
    ];
    for (const args of others) {
      const { out, err } = cranknote(args, { cwd });
      expect(out + err).not.toMatch(odd);
    }
  });
});

it("a file that is somebody else's", () => {
  const cwd = folderOf({ 'a.crank': HEAD });
  chmodSync(cwd, 0o755);
  chmodSync(path.join(cwd, 'a.crank'), 0);
  const who = IS_ROOT ? { uid: NOBODY } : {};
  expect(cranknote(['check', 'a.crank'], { cwd, ...who })).toEqual({
    code: 2,
    out: '',
    err: "a.crank can't be read.\n",
  });
});

describe('the streams', () => {
  const cwd = folderOf({ 'a.crank': `${HEAD}${'x\n'.repeat(20_000)}` });
  const shell = (script: string) => {
    const done = spawnSync('sh', ['-c', script.replaceAll('cranknote', '"$NODE" "$PROGRAM"')], {
      cwd,
      encoding: 'utf8',
      timeout: 50_000,
      env: { PATH: process.env.PATH ?? '', NODE: process.execPath, PROGRAM: path.resolve('dist/cranknote.cjs') },
    });
    return { code: done.status, out: done.stdout, err: done.stderr };
  };

  it('may end early', () => {
    expect(shell('cranknote check a.crank | head -1')).toEqual({
      code: 0,
      out: 'a.crank:6:1  error [syntax]\n',
      err: '',
    });
  });
  it('are written to the end', () => {
    expect(shell('cranknote check a.crank | (sleep 1; tail -1)').out).toBe('1 file, 1 sequence: 10001 errors.\n');
  });
  it('may have no room', () => {
    expect(shell('cranknote check a.crank > /dev/full')).toEqual({
      code: 2,
      out: '',
      err: "The output can't be written in full: there is no room left.\n",
    });
  });
  it('may be closed', () => {
    const { code, out, err } = shell('cranknote check - <&-');
    expect([0, 2]).toContain(code);
    expect(out + err).not.toMatch(LOOKS_BROKEN);
    expect(shell('cranknote check a.crank >&- 2>&-').code).toBe(1);
  });
  it('may be slow', () => {
    expect(shell('(sleep 1; echo "sequence s"; sleep 1; echo " trun") | cranknote check - | tail -1').out).toBe(
      '1 file, 1 sequence: 2 errors.\n',
    );
  });
  it('may never end', () => {
    const message = 'is larger than 16 MB and is not read.\n';
    expect(shell('yes | cranknote check -')).toEqual({ code: 2, out: '', err: `Standard input ${message}` });
    expect(shell('cranknote check /dev/zero')).toEqual({ code: 2, out: '', err: `/dev/zero ${message}` });
  });
});
