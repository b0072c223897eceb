import { spawnSync } from 'node:child_process';
import { chmodSync, lstatSync, readdirSync, readFileSync, statSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { findBrowser } from '../../server/cli/pdf.js';
import { SHEET_KINDS } from '../../server/sheets/model.js';
import { cranknote, folderOf, LOOKS_BROKEN, listing, MACHINE, PROGRAM } from './program.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const SAMPLES = path.join(ROOT, 'samples');
const TRAYS = `${MACHINE}
sequence trays "Plants in all trays" (width = 12, length = 9) on bench-6
  case width = 15, length = 8
  goal result = width * length

  clear all
  set width
  multiply by length
  ask counter result
`;
const BROKEN = `
sequence broken on bench-6
  clear all
  set 3
  turn
  expect result 4
`;
const KIND_NAMES = {
  en: {
    operating: 'Operating instructions',
    exercise: 'Exercise sheet',
    key: 'Answer key',
    bench: 'Bench sheet',
  },
  de: {
    operating: 'Bedienungsanleitung',
    exercise: 'Aufgabenblatt',
    key: 'Lösungsblatt',
    bench: 'Werkstattblatt',
  },
} as const;
const ENDINGS = { html: 'html', markdown: 'md' } as const;

const cwd = folderOf({ 'trays.crank': TRAYS });
const sheet = (...args: string[]) => cranknote(['sheet', 'trays.crank', ...args], { cwd });
const TEXT_FORMATS = ['html', 'markdown'] as const;
const EACH = SHEET_KINDS.flatMap((kind) => TEXT_FORMATS.map((format) => [kind, format] as const));

describe('one sheet', () => {
  it.each(EACH)('%s as %s goes to standard output, and the same to a folder', (kind, format) => {
    const { code, out, err } = sheet('--kind', kind, '--format', format);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(format === 'html' ? /^<!DOCTYPE html>\n<html lang="en">\n/ : /^# Plants in all trays\n/);
    expect(out).toContain(KIND_NAMES.en[kind]);
    expect(out).not.toMatch(LOOKS_BROKEN);
    // The product of the defaults is for whoever may know it.
    expect(/\b108\b/.test(out)).toBe(kind !== 'exercise');

    const into = folderOf({});
    const written = sheet('--kind', kind, '--format', format, '--out', path.join(into, 'deep', 'print'));
    const name = path.join('deep', 'print', `trays.${kind}.${ENDINGS[format]}`);
    expect(written).toEqual({ code: 0, err: '', out: `${path.join(into, name)}\n` });
    expect(readFileSync(path.join(into, name), 'utf8')).toBe(out);
    expect(Object.keys(listing(into)).sort()).toEqual(['deep', path.join('deep', 'print'), name]);
  });

  it('is operating instructions as HTML in English on A4 with a figure a stage, if nothing else is said', () => {
    const said = [
      '--kind',
      'operating',
      '--format',
      'html',
      '--language',
      'en',
      '--paper',
      'a4',
      '--figures',
      'stages',
    ];
    expect(sheet().out).toBe(sheet(...said).out);
  });

  it.each(SHEET_KINDS)('%s is made in German', (kind) => {
    const { code, out } = sheet('--kind', kind, '--language', 'de');
    expect(code).toBe(0);
    expect(out).toContain('<html lang="de">');
    expect(out).toContain(KIND_NAMES.de[kind]);
    expect(out).not.toContain(KIND_NAMES.en[kind]);
  });

  it('is made for the paper that is there', () => {
    expect(sheet().out).toContain('size: A4;');
    expect(sheet('--paper', 'letter').out).toContain('size: letter;');
  });

  it('has a figure at every step, at each stage or none', () => {
    const figures = (choice: string) => sheet('--figures', choice).out.split('<figure').length - 1;
    expect(figures('none')).toBe(0);
    expect(figures('stages')).toBeGreaterThan(0);
    expect(figures('all')).toBeGreaterThan(figures('stages'));
    expect(sheet('--figures', 'none', '--kind', 'bench').code).toBe(0);
  });

  it('is the same, however often it is written, and leaves nothing else behind', () => {
    const into = folderOf({});
    sheet('--out', into);
    const first = listing(into);
    expect(Object.keys(first)).toEqual(['trays.operating.html']);
    expect(sheet('--out', into).code).toBe(0);
    expect(listing(into)).toEqual(first);
    sheet('--out', into, '--language', 'de');
    expect(Object.keys(listing(into))).toEqual(['trays.operating.html']);
    expect(listing(into)['trays.operating.html']).toContain('<html lang="de">');
  });
});

describe('where it is read from', () => {
  it('reads standard input', () => {
    const { code, out } = cranknote(['sheet', '-'], { cwd, input: TRAYS });
    expect(code).toBe(0);
    expect(out).toBe(sheet().out);
  });

  it('reads the blocks of a page in Markdown', () => {
    const page = folderOf({
      'page.md': `# Trays\n\nFirst the machine.\n\n\`\`\`crank\n${TRAYS}\`\`\`\n\nThat is all.\n`,
    });
    const { code, out } = cranknote(['sheet', 'page.md'], { cwd: page });
    expect(code).toBe(0);
    expect(out).toBe(sheet().out);
  });

  it('finds the machine in a file that is used', () => {
    const { code, out, err } = cranknote(['sheet', 'stores-products.crank', '--sequence', 'seed-count'], {
      cwd: SAMPLES,
    });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('Seeds in a delivery');
  });
});

describe('several sequences', () => {
  it('need a name or a folder', () => {
    expect(cranknote(['sheet', 'office-subtraction.crank'], { cwd: SAMPLES })).toEqual({
      code: 2,
      out: '',
      err: 'There are 6 sequences: name one with --sequence, or a folder for all of them with --out.\n',
    });
  });

  it('are a file each in the folder', () => {
    const into = folderOf({});
    const { code, out, err } = cranknote(['sheet', 'school-exercises.crank', '--kind', 'key', '--out', into], {
      cwd: SAMPLES,
    });
    const names = ['bulbs-for-beds.key.html', 'pots-on-shelves.key.html', 'slip-too-many.key.html'];
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(readdirSync(into).sort()).toEqual(names);
    expect(out.trimEnd().split('\n').sort()).toEqual(names.map((name) => path.join(into, name)));
  });

  it('are made but for one with an error, which is told', () => {
    const both = folderOf({ 'both.crank': TRAYS + BROKEN });
    const into = folderOf({});
    const { code, out, err } = cranknote(['sheet', 'both.crank', '--out', into], { cwd: both });
    expect(code).toBe(1);
    expect(out).toBe(`${path.join(into, 'trays.operating.html')}\n`);
    expect(err).toMatch(/^broken: There is no sheet, because the readings on it would be wrong: .*3, not 4.*\n$/);
    expect(Object.keys(listing(into))).toEqual(['trays.operating.html']);
    const alone = cranknote(['sheet', 'both.crank', '--sequence', 'broken', '--language', 'de'], { cwd: both });
    expect(alone).toMatchObject({ code: 1, out: '' });
    expect(alone.err).toMatch(/^broken: Es gibt kein Blatt, /);
  });
});

describe('what can not be begun', () => {
  it.each<[string[], string]>([
    [['--sequence', 'tray'], 'There is no sequence tray. Did you mean trays?\n'],
    [['--sequence', 'wages-of-june'], 'There is no sequence wages-of-june. There is: trays.\n'],
  ])('%j', (args, err) => {
    expect(sheet(...args)).toEqual({ code: 2, out: '', err });
  });

  it.each(['--kind', '--format', '--language', '--paper', '--figures'])('an unknown word for %s', (option) => {
    const { code, out, err } = sheet(option, 'whatever');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('Allowed choices are ');
  });

  it('a file that is not there, or in which there is no sequence', () => {
    const files = folderOf({ 'machine.crank': MACHINE });
    expect(cranknote(['sheet', 'gone.crank'], { cwd: files })).toEqual({
      code: 2,
      out: '',
      err: 'There is no file or folder gone.crank.\n',
    });
    expect(cranknote(['sheet', 'machine.crank'], { cwd: files })).toEqual({
      code: 2,
      out: '',
      err: 'There is no sequence in what was named.\n',
    });
  });

  it('a folder that is a file, or a sheet in whose place a folder stands: all stays as it was', () => {
    const into = folderOf({ print: 'a file\n', 'taken/trays.operating.html/inside': 'mine\n' });
    const before = listing(into);
    for (const folder of ['print', 'print/deeper', 'taken']) {
      const to = path.join(into, folder);
      expect(sheet('--out', to)).toEqual({
        code: 2,
        out: '',
        err: `${path.join(to, 'trays.operating.html')} can't be written.\n`,
      });
    }
    expect(listing(into)).toEqual(before);
  });
});

/** Where browsers stand in places of their own, no path hides them. */
const isHidden = process.platform === 'linux';
const browser = findBrowser();

describe('PDF', () => {
  describe.skipIf(browser === undefined)(
    `by the browser${browser === undefined ? ' (left out: none built on Chromium is installed)' : ''}`,
    () => {
      it.each(SHEET_KINDS)('%s is made in a folder', (kind) => {
        const into = folderOf({});
        const { code, err } = sheet('--kind', kind, '--format', 'pdf', '--out', into);
        expect({ code, err }).toEqual({ code: 0, err: '' });
        expect(Object.keys(listing(into))).toEqual([`trays.${kind}.pdf`]);
        const text = listing(into)[`trays.${kind}.pdf`];
        expect(text.startsWith('%PDF-')).toBe(true);
        expect(text.trimEnd().endsWith('%%EOF')).toBe(true);
      });

      it('goes to standard output as it is, where that is no terminal', () => {
        const { status, stdout } = spawnSync(process.execPath, [PROGRAM, 'sheet', 'trays.crank', '--format', 'pdf'], {
          cwd,
          env: { PATH: process.env.PATH ?? '', HOME: cwd },
        });
        expect(status).toBe(0);
        expect(stdout.subarray(0, 5).toString('latin1')).toBe('%PDF-');
        expect(stdout.toString('latin1').trimEnd().endsWith('%%EOF')).toBe(true);
      });

      it.skipIf(process.platform === 'win32')(
        'keeps the rights of the sheet before it, and a link stays a link',
        () => {
          const into = folderOf({ 'kept/trays.pdf': 'the sheet of last year' });
          const [kept, link] = [path.join(into, 'kept', 'trays.pdf'), path.join(into, 'trays.operating.pdf')];
          chmodSync(kept, 0o640);
          symlinkSync(kept, link);
          expect(sheet('--format', 'pdf', '--out', into).code).toBe(0);
          expect(lstatSync(link).isSymbolicLink()).toBe(true);
          expect(statSync(kept).mode & 0o777).toBe(0o640);
          expect(readFileSync(kept).subarray(0, 5).toString('latin1')).toBe('%PDF-');
          expect(readdirSync(path.join(into, 'kept'))).toEqual(['trays.pdf']);
        },
      );

      it('leaves nothing where it can not be written', () => {
        const into = folderOf({ 'trays.operating.pdf/inside': 'mine\n' });
        const before = listing(into);
        const { code, err } = sheet('--format', 'pdf', '--out', into);
        expect({ code, err }).toEqual({
          code: 2,
          err: `${path.join(into, 'trays.operating.pdf')} can't be written.\n`,
        });
        expect(listing(into)).toEqual(before);
      });
    },
  );

  it.skipIf(!isHidden)('says what to do where there is no browser', () => {
    const into = folderOf({});
    const { code, out, err } = cranknote(['sheet', 'trays.crank', '--format', 'pdf', '--out', into], {
      cwd,
      env: { PATH: '' },
    });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toBe(
      'PDF is made by a browser built on Chromium, and none is installed here. Install one, or make the sheet with --format html and print it from any browser.\n',
    );
    expect(listing(into)).toEqual({});
  });
});

it('help gives examples that run', () => {
  const here = folderOf({});
  const { out } = cranknote(['sheet', '--help'], { cwd: here });
  const lines = out.match(/^ {2}cranknote sheet .*$/gm) ?? [];
  expect(lines.length).toBeGreaterThan(1);
  for (const line of lines) {
    if (line.includes('--format pdf') && browser === undefined) continue;
    const [, ...args] = line
      .replace(/ > .*$/, '')
      .trim()
      .split(' ');
    const moved = args.map((arg) => (arg.startsWith('samples/') ? path.join(ROOT, arg) : arg));
    expect({ line, ...cranknote(moved, { cwd: here }) }).toMatchObject({ line, code: 0, err: '' });
  }
});
