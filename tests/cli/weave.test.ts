import { chmodSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, IS_ROOT, LOOKS_BROKEN, listing, MACHINE, NOBODY } from './program.js';

const SEQUENCE = 'sequence trays "Twelve trays" on bench-6\n  clear all\n  set 12\n  turn 3\n  expect result 36\n';
const page = (below: string, sequence = SEQUENCE): string =>
  `# Trays\n\n\`\`\`crank\nuse "machines.crank"\n${sequence}\`\`\`\n\n${below}\n`;
const READINGS = page('<!-- crank: readings -->');

describe('weave', () => {
  it('fills pages, names them, and has nothing to do the second time', () => {
    const cwd = folderOf({
      'machines.crank': MACHINE,
      'a.md': READINGS,
      'b.markdown': page('Nothing here.'),
      'sub/c.md': page('> <!-- crank: cautions in de -->').replace('machines', '../machines'),
    });
    expect(cranknote(['weave'], { cwd })).toEqual({
      code: 0,
      out: 'a.md: 1 inset filled.\nsub/c.md: 1 inset filled.\n',
      err: '2 insets: 2 filled.\n',
    });
    const after = listing(cwd);
    expect(after['a.md']).toContain('| `turn 3` |  | 3 | 36 |');
    expect(after['b.markdown']).toBe(page('Nothing here.'));
    expect(cranknote(['weave', '.'], { cwd })).toEqual({ code: 0, out: '', err: '2 insets: 2 fresh.\n' });
    expect(cranknote(['weave', '--check'], { cwd }).code).toBe(0);
    expect(cranknote(['check'], { cwd }).code).toBe(0);
    expect(listing(cwd)).toEqual(after);
  });

  it('changes nothing with --check, and names what is stale', () => {
    const cwd = folderOf({ 'machines.crank': MACHINE, 'a.md': READINGS });
    const { code, out, err } = cranknote(['weave', '--check', 'a.md'], { cwd });
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(
      /^a\.md:12:1 {2}warning \[stale-inset\]\n[\s\S]*readings of trays[\s\S]*\n1 inset: 1 stale\.\n$/,
    );
    expect(listing(cwd)['a.md']).toBe(READINGS);
    expect(cranknote(['check', 'a.md', '--format', 'github'], { cwd })).toMatchObject({
      code: 1,
      out: expect.stringMatching(/^::warning file=a\.md,line=12,.*stale-inset/),
    });
  });

  it('leaves what it can’t fill as it is, says why, and fills the rest', () => {
    const before = page('<!-- crank: prices -->\n\n<!-- crank: readings -->\n\nMine.\n\n<!-- crank: end -->');
    const cwd = folderOf({ 'machines.crank': MACHINE, 'a.md': before, 'b.md': READINGS });
    const { code, out, err } = cranknote(['weave'], { cwd });
    expect([code, out]).toEqual([1, 'b.md: 1 inset filled.\n']);
    expect(err).toContain("“prices” can't be put here");
    expect(err).toContain('Somebody has written in this inset');
    expect(err).toMatch(/\n3 insets: 1 filled, 2 can't be filled\.\n$/);
    expect(listing(cwd)['a.md']).toBe(before);
  });

  it('fills nothing from a sequence with an error', () => {
    const before = READINGS.replace('result 36', 'result 37');
    const cwd = folderOf({ 'machines.crank': MACHINE, 'a.md': before });
    expect(cranknote(['weave'], { cwd })).toMatchObject({ code: 1, out: '' });
    expect(listing(cwd)['a.md']).toBe(before);
  });

  it('weaves standard input to standard output, but for pictures', () => {
    const cwd = folderOf({ 'machines.crank': MACHINE });
    const { code, out, err } = cranknote(['weave', '-'], { cwd, input: READINGS });
    expect([code, err]).toEqual([0, '1 inset: 1 filled.\n']);
    expect(out).toContain('| `turn 3` |  | 3 | 36 |');
    const figure = page('<!-- crank: figure -->');
    expect(cranknote(['weave', '-'], { cwd, input: figure })).toMatchObject({ code: 1, out: figure });
    expect(Object.keys(listing(cwd))).toEqual(['machines.crank']);
  });

  it('says so where there is nothing to weave', () => {
    const cwd = folderOf({ 'machines.crank': MACHINE, 'a.md': '# Nothing\n' });
    expect(cranknote(['weave'], { cwd })).toMatchObject({ code: 0, out: '' });
    for (const [name, message] of [
      ['machines.crank', 'no Markdown page'],
      ['absent.md', 'There is no file'],
    ]) {
      const { code, err } = cranknote(['weave', name], { cwd });
      expect(code).toBe(2);
      expect(err).toContain(message);
      expect(err).not.toMatch(LOOKS_BROKEN);
    }
  });

  it.skipIf(!IS_ROOT)('leaves a page that it may not write as it is, and weaves the others', () => {
    const cwd = folderOf({ 'machines.crank': MACHINE, 'a.md': READINGS, 'b.md': READINGS });
    chmodSync(cwd, 0o777);
    chmodSync(path.join(cwd, 'a.md'), 0o444);
    chmodSync(path.join(cwd, 'b.md'), 0o666);
    const { code, err } = cranknote(['weave'], { cwd, uid: NOBODY });
    expect(code).toBe(2);
    expect(err).toContain("a.md can't be written and is left as it was.");
    expect(listing(cwd)['a.md']).toBe(READINGS);
  });
});

describe('pictures', () => {
  const FIGURE = page('<!-- crank: figure -->\n\n<!-- crank: steps figures stages -->');

  it('lie beside their page, are drawn again when they are missing or old, and stay when they are fresh', () => {
    const cwd = folderOf({ 'machines.crank': MACHINE, 'sub/a.md': FIGURE.replace('machines', '../machines') });
    expect(cranknote(['weave'], { cwd }).code).toBe(0);
    const after = listing(cwd);
    expect(Object.keys(after).sort()).toEqual([
      'machines.crank',
      'sub',
      'sub/a.md',
      'sub/a.trays.stages-1.svg',
      'sub/a.trays.svg',
    ]);
    expect(after['sub/a.trays.svg']).toMatch(
      /^<\?xml version="1\.0" encoding="UTF-8"\?>\n<!-- cranknote weave \w+ -->\n<svg /,
    );
    expect(cranknote(['weave'], { cwd }).err).toBe('2 insets: 2 fresh.\n');
    const old = after['sub/a.trays.svg'].replace('</svg>', '<!-- old --></svg>');
    const other = folderOf({ ...without(after, 'sub'), 'sub/a.trays.svg': old });
    expect(cranknote(['weave', '--check'], { cwd: other })).toMatchObject({ code: 1 });
    expect(cranknote(['weave', '--check'], { cwd: other }).err).toContain('sub/a.trays.svg is missing or out of date.');
    expect(cranknote(['weave'], { cwd: other }).code).toBe(0);
    expect(listing(other)).toEqual(after);
  });

  it('never take the place of a file that somebody else made, or that belongs to another page', () => {
    const mine = '<svg xmlns="http://www.w3.org/2000/svg"/>';
    const cwd = folderOf({ 'machines.crank': MACHINE, 'a.md': FIGURE, 'a.trays.svg': mine });
    const { code, err } = cranknote(['weave', 'a.md'], { cwd });
    expect(code).toBe(1);
    expect(err).toContain('a.trays.svg is there already and was not made for this inset.');
    expect(listing(cwd)['a.trays.svg']).toBe(mine);
    expect(listing(cwd)['a.md']).toContain('<!-- crank: figure -->\n\n<!-- crank: steps figures stages -->\n\n1. ');
    const twins = folderOf({ 'machines.crank': MACHINE, 'a.md': FIGURE, 'a.markdown': FIGURE });
    expect(cranknote(['weave', 'a.md'], { cwd: twins }).code).toBe(0);
    const before = listing(twins);
    expect(cranknote(['weave', 'a.markdown'], { cwd: twins }).code).toBe(1);
    expect(listing(twins)).toEqual(before);
  });
});

const without = (files: Record<string, string>, folder: string): Record<string, string> =>
  Object.fromEntries(Object.entries(files).filter(([name]) => name !== folder));
