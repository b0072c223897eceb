import { spawn } from 'node:child_process';
import { chmodSync, chownSync, lstatSync, mkdirSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, IS_ROOT, LOOKS_BROKEN, listing, NOBODY, PROGRAM } from './program.js';

const UGLY = 'sequence s\nclear all;set 12 # twelve\n\n   repeat 2 {turn;shift right}\n';
const NEAT = 'sequence s\n  clear all; set 12  # twelve\n\n  repeat 2 { turn; shift right }\n';

describe('format', () => {
  it('rewrites what is not formatted, names it, and leaves the rest', () => {
    const cwd = folderOf({
      'ugly.crank': UGLY,
      'neat.crank': NEAT,
      'sub/page.md': `Trays\n\`\`\`crank\n${UGLY}\`\`\`\nset   1\n`,
    });
    expect(cranknote(['format'], { cwd })).toEqual({
      code: 0,
      out: 'sub/page.md formatted.\nugly.crank formatted.\n',
      err: '',
    });
    expect(listing(cwd)).toEqual({
      'neat.crank': NEAT,
      'ugly.crank': NEAT,
      sub: 'folder',
      'sub/page.md': `Trays\n\`\`\`crank\n${NEAT}\`\`\`\nset   1\n`,
    });
    expect(cranknote(['format', '.'], { cwd })).toEqual({ code: 0, out: '', err: '' });
  });

  it('formats standard input to standard output', () => {
    const cwd = folderOf({});
    expect(cranknote(['format', '-'], { cwd, input: UGLY })).toEqual({ code: 0, out: NEAT, err: '' });
    expect(cranknote(['format', '-'], { cwd, input: NEAT })).toEqual({ code: 0, out: NEAT, err: '' });
    expect(listing(cwd)).toEqual({});
  });

  it('only shows with --check what would change', () => {
    const cwd = folderOf({ 'ugly.crank': UGLY, 'neat.crank': NEAT });
    expect(cranknote(['format', '--check', 'ugly.crank', 'neat.crank'], { cwd })).toEqual({
      code: 1,
      out: `--- ugly.crank\tas it is
+++ ugly.crank\tformatted
@@ -1,4 +1,4 @@
 sequence s
-clear all;set 12 # twelve
+  clear all; set 12  # twelve
 
-   repeat 2 {turn;shift right}
+  repeat 2 { turn; shift right }
`,
      err: '1 of 2 files would change.\n',
    });
    expect(listing(cwd)['ugly.crank']).toBe(UGLY);
    expect(cranknote(['format', '--check', 'neat.crank'], { cwd })).toEqual({
      code: 0,
      out: '',
      err: 'Everything is formatted.\n',
    });
    expect(cranknote(['format', '--check', '-'], { cwd, input: UGLY }).code).toBe(1);
  });

  it('shows many changes, and says so where there are too many to show', () => {
    const changed = (lines: number) => {
      const cwd = folderOf({ 'a.crank': `sequence s\n${'turn\n'.repeat(lines)}turn` });
      return cranknote(['format', '--check'], { cwd });
    };
    const { code, out } = changed(400);
    expect(code).toBe(1);
    expect(out.match(/^\+ {2}turn$/gm)).toHaveLength(401);
    expect(changed(100_000)).toMatchObject({ code: 1, out: 'a.crank would change in more lines than can be shown.\n' });
  });

  it.each([
    ['CRLF', UGLY.replaceAll('\n', '\r\n'), NEAT.replaceAll('\n', '\r\n')],
    ['lone CR', UGLY.replaceAll('\n', '\r'), NEAT.replaceAll('\n', '\r')],
    ['mixed ends', 'sequence s\r\nturn\rturn\nturn\r\n', 'sequence s\r\n  turn\r  turn\n  turn\r\n'],
    ['a byte order mark', `\ufeff${UGLY}`, `\ufeff${NEAT}`],
    ['no end', 'sequence s\r\nturn', 'sequence s\r\n  turn\r\n'],
  ])('keeps %s', (_, ugly, neat) => {
    const cwd = folderOf({ 'a.crank': ugly, 'page.md': ['', '```crank', ...ugly.split('\n'), '```', ''].join('\n') });
    expect(cranknote(['format'], { cwd }).code).toBe(0);
    expect(readFileSync(path.join(cwd, 'a.crank'), 'utf8')).toBe(neat);
    expect(cranknote(['format', '--check'], { cwd }).code).toBe(0);
  });

  it('leaves lines that it can not read', () => {
    const cwd = folderOf({ 'a.crank': 'sequence s\n trun   3 \nturn\n' });
    expect(cranknote(['format'], { cwd }).code).toBe(0);
    expect(listing(cwd)).toEqual({ 'a.crank': 'sequence s\n trun   3 \n  turn\n' });
  });
});

describe('the file that is formatted', () => {
  it('keeps its rights', () => {
    const cwd = folderOf({ 'a.crank': UGLY });
    chmodSync(path.join(cwd, 'a.crank'), 0o640);
    expect(cranknote(['format', 'a.crank'], { cwd }).code).toBe(0);
    expect(statSync(path.join(cwd, 'a.crank')).mode & 0o777).toBe(0o640);
  });

  it.runIf(IS_ROOT)('keeps its owner', () => {
    const cwd = folderOf({ 'a.crank': UGLY });
    chownSync(path.join(cwd, 'a.crank'), NOBODY, NOBODY);
    expect(cranknote(['format', 'a.crank'], { cwd }).code).toBe(0);
    expect(statSync(path.join(cwd, 'a.crank'))).toMatchObject({ uid: NOBODY, gid: NOBODY });
  });

  it('stays behind a link that is named', () => {
    const cwd = folderOf({ 'there/a.crank': UGLY, 'here/b.crank': NEAT });
    symlinkSync('../there/a.crank', path.join(cwd, 'here/link.crank'));
    expect(cranknote(['format', 'here'], { cwd }).out).toBe('');
    expect(listing(cwd)['there/a.crank']).toBe(UGLY);
    expect(cranknote(['format', 'here/link.crank'], { cwd }).out).toBe('here/link.crank formatted.\n');
    expect(lstatSync(path.join(cwd, 'here/link.crank')).isSymbolicLink()).toBe(true);
    expect(listing(cwd)).toEqual({
      there: 'folder',
      'there/a.crank': NEAT,
      here: 'folder',
      'here/b.crank': NEAT,
      'here/link.crank': '-> ../there/a.crank',
    });
  });

  // Where the tests may do everything, the program is run as somebody who may not.
  const who = IS_ROOT ? { uid: NOBODY } : {};
  it.each(['the file', 'the folder'])('is left as it was where %s is protected', (what) => {
    const cwd = folderOf({ 'in/a.crank': UGLY });
    if (IS_ROOT) for (const name of ['.', 'in', 'in/a.crank']) chownSync(path.join(cwd, name), NOBODY, NOBODY);
    const guarded = path.join(cwd, what === 'the file' ? 'in/a.crank' : 'in');
    chmodSync(guarded, what === 'the file' ? 0o444 : 0o555);
    const ran = cranknote(['format', 'in/a.crank'], { cwd, ...who });
    chmodSync(guarded, 0o755);
    expect(ran).toEqual({ code: 2, out: '', err: "in/a.crank can't be written and is left as it was.\n" });
    expect(listing(cwd)).toEqual({ in: 'folder', 'in/a.crank': UGLY });
  });

  it('does not keep others from being formatted where it can not be read', () => {
    const cwd = folderOf({ 'a.crank': new Uint8Array([0xff, 0xfe, 0x41]), 'b.crank': UGLY });
    mkdirSync(path.join(cwd, 'c.crank'));
    const { code, out, err } = cranknote(['format'], { cwd });
    expect({ code, out, err }).toEqual({
      code: 2,
      out: 'b.crank formatted.\n',
      err: 'a.crank is not text in UTF-8.\n',
    });
  });
});

describe('an interrupted format', () => {
  const COUNT = 1_500;
  const many = () =>
    folderOf(
      Object.fromEntries(Array.from({ length: COUNT }, (_, i) => [`f${String(i).padStart(4, '0')}.crank`, UGLY])),
    );

  /** Starts formatting and sends a signal after the first lines of output. */
  async function interrupted(cwd: string, signal: NodeJS.Signals) {
    const child = spawn(process.execPath, [PROGRAM, 'format'], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
    let err = '';
    child.stderr.on('data', (data) => {
      err += data;
    });
    child.stdout.once('data', () => child.kill(signal)).resume();
    const [code, by] = await new Promise<[number | null, string | null]>((done) => {
      child.on('close', (...how) => done(how));
    });
    return { code, by, err };
  }

  /** Files by what they are; anything that is neither old nor new is named. */
  function states(cwd: string) {
    const files = Object.entries(listing(cwd));
    const strange = files.filter(([, text]) => text !== UGLY && text !== NEAT).map(([name]) => name);
    const beside = files.filter(([name]) => !/^f\d{4}\.crank$/.test(name)).map(([name]) => name);
    const old = files.filter(([, text]) => text === UGLY).length;
    return { strange, beside, old, neat: files.filter(([, text]) => text === NEAT).length };
  }

  it.each(['SIGINT', 'SIGTERM'] as const)('stops between two files on %s', async (signal) => {
    const cwd = many();
    const { code, err } = await interrupted(cwd, signal);
    expect(code).toBe(130);
    expect(err).toMatch(/^Interrupted after \d+ of 1500 files\. The others are as they were\.\n$/);
    const { strange, beside, old, neat } = states(cwd);
    expect({ strange, beside, sum: old + neat }).toEqual({ strange: [], beside: [], sum: COUNT });
    expect(old).toBeGreaterThan(0);
    expect(neat).toBeGreaterThan(0);
  });

  it('leaves a hidden file at most where it is killed, which the next run passes over', async () => {
    const cwd = many();
    expect((await interrupted(cwd, 'SIGKILL')).by).toBe('SIGKILL');
    const { strange, beside, old, neat } = states(cwd);
    expect(beside.length).toBeLessThanOrEqual(1);
    expect(beside.every((name) => /^\.cranknote-[0-9a-f-]+\.new$/.test(name))).toBe(true);
    expect(strange.filter((name) => !beside.includes(name))).toEqual([]);
    expect(old).toBeGreaterThan(0);
    expect(neat).toBeGreaterThan(0);
    const again = cranknote(['format'], { cwd });
    expect(again.code).toBe(0);
    expect(again.err).not.toMatch(LOOKS_BROKEN);
    expect(Object.entries(listing(cwd)).filter(([, text]) => text === NEAT).length).toBeGreaterThanOrEqual(COUNT);
  });
});
