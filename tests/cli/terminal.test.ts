import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, listing, MACHINE, PROGRAM } from './program.js';

const BAD = `${MACHINE}sequence trays "Trays" (a = 12)\n  case a = 1.5\n  clear all\n  set a\n  turn 3\n  trun\n`;
const cwd = folderOf({ 'bad.crank': BAD });
const run = (...args: string[]) => cranknote(args, { cwd });

describe('help', () => {
  it.each([['check'], ['trace'], ['coverage'], ['format']])('of %s has every option and an example', (command) => {
    const { code, out, err } = run(command, '--help');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain(`Usage: cranknote ${command} [options]`);
    expect(out).toMatch(new RegExp(`\nExample:\n {2}cranknote ${command} .+\n`));
    expect(run('help', command).out).toBe(out);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('names the commands', () => {
    const { code, out } = run('--help');
    expect(code).toBe(0);
    for (const command of ['check', 'trace', 'coverage', 'format', 'help'])
      expect(out).toMatch(new RegExp(`^ {2}${command} `, 'm'));
  });

  it('stands on standard error where no command is given', () => {
    expect(run()).toEqual({ code: 2, out: '', err: run('--help').out });
  });

  it('has examples that run', () => {
    const places = folderOf({ 'exercises/a.crank': MACHINE, 'manuals/b.crank': MACHINE, '-old.crank': MACHINE });
    const samples = path.join(path.dirname(PROGRAM), '..');
    const helps = [['--help'], ['check', '--help'], ['trace', '--help'], ['coverage', '--help'], ['format', '--help']];
    const examples = helps.flatMap((args) => run(...args).out.match(/^ {2}cranknote .+$/gm) ?? []);
    expect(examples).toHaveLength(6);
    for (const example of examples) {
      const args = example
        .trim()
        .split(' ')
        .slice(1)
        .map((word) => word.replaceAll('"', ''));
      const ran = cranknote(args, { cwd: example.includes('samples/') ? samples : places });
      expect({ example, code: ran.code, complaint: ran.err.replace('Everything is formatted.\n', '') }).toEqual({
        example,
        code: 0,
        complaint: '',
      });
    }
  });

  it('has the version', () => {
    expect(run('--version').out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});

describe('a slip in the command', () => {
  it.each([
    [['chek'], 'Did you mean check?'],
    [['check', '--levl', 'error'], 'Did you mean --level?'],
    [['check', '--level', 'bad'], 'error, warning, information, hint'],
    [['check', '--format', 'xml'], 'text, json, junit, sarif, github'],
    [['trace', '--format', 'sarif', 'bad.crank'], 'text, json'],
    [['trace'], 'paths'],
    [['format', '--fix'], '--fix'],
    [['check', '-x.crank'], '-x.crank'],
  ])('%j', (args, help) => {
    const { code, out, err } = run(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(help);
  });
});

describe('colours', () => {
  const ESCAPE = '\u001b[';
  const hasScript = spawnSync('script', ['--version']).status === 0;
  /** What the program writes to a terminal. */
  const onTerminal = (args: string, env: Readonly<Record<string, string>> = {}) => {
    const done = spawnSync('script', ['-qec', `"${process.execPath}" "${PROGRAM}" ${args}`, '/dev/null'], {
      cwd,
      encoding: 'utf8',
      env: { PATH: process.env.PATH ?? '', TERM: 'xterm', ...env },
    });
    return { code: done.status, out: done.stdout };
  };

  it.each([{}, { FORCE_COLOR: '1' }, { CLICOLOR_FORCE: '1', COLORTERM: 'truecolor' }])(
    'are left out where nobody watches: %j',
    (env) => {
      for (const args of [
        ['check', 'bad.crank'],
        ['trace', 'bad.crank'],
        ['format', '--check', 'bad.crank'],
      ]) {
        const { out, err } = cranknote(args, { cwd, env: { TERM: 'xterm', ...env } });
        expect(out + err).not.toContain(ESCAPE);
      }
    },
  );

  it.runIf(hasScript)('stand out on a terminal, and carry nothing that is not there without them', () => {
    for (const command of ['check bad.crank', 'trace bad.crank']) {
      const { out } = onTerminal(command);
      expect(out).toContain(ESCAPE);
      const plain = out.replace(/\u001b\[[0-9;]*m/g, '').replace(/ *\r/g, '');
      expect(plain).toBe(run(...command.split(' ')).out.replace(/ +$/gm, ''));
    }
    expect(onTerminal('check bad.crank').code).toBe(1);
  });

  it.runIf(hasScript).each([{ NO_COLOR: '1' }, { TERM: 'dumb' }, { NO_COLOR: '1', FORCE_COLOR: '1' }])(
    'are left out on a terminal with %j',
    (env: Record<string, string>) => {
      expect(onTerminal('check bad.crank', env).out).not.toContain(ESCAPE);
    },
  );

  it.runIf(hasScript)('can not come from a file whose changes are shown', () => {
    const odd = folderOf({ 'a.crank': 'sequence s\nnote "\u001b[31m"\n' });
    const { out } = onTerminal(`format --check "${odd}/a.crank"`);
    expect(out).toContain('\ufffd[31m');
    expect(out).not.toContain(ESCAPE);
    expect(run('format', '--check', `${odd}/a.crank`).out).toContain('-note "\u001b[31m"');
  });

  it.runIf(hasScript)('progress is told after a second, on a terminal alone, and wiped away', () => {
    const steps = `sequence s (a = 1)\n${'  case a = 2\n'.repeat(2)}  clear all\n  set a\n  repeat 999 { repeat 90 { turn a } }\n`;
    const slow = folderOf(Object.fromEntries(Array.from({ length: 8 }, (_, i) => [`${i}.crank`, MACHINE + steps])));
    const { out } = onTerminal(`check "${slow}"`);
    expect(out).toMatch(/\r\u001b\[K\d+ of 2 sections of [^,]+, file \d of 8 …/);
    expect(out).toMatch(/…\r\u001b\[K[^\r…]*0\.crank/);
    expect(onTerminal('check bad.crank').out).not.toContain('sections of');
    expect(cranknote(['check', slow], { cwd }).err).toBe('');
  });
});

describe('whoever runs it, wherever', () => {
  it('the output is the same to the byte', () => {
    const settings = [
      { LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8', TZ: 'Asia/Kathmandu' },
      { LC_ALL: 'C', TZ: 'America/St_Johns' },
      { LANG: 'de_DE.UTF-8', LC_NUMERIC: 'de_DE.UTF-8', TZ: 'UTC' },
    ];
    const commands = [
      ...['text', 'json', 'junit', 'sarif', 'github'].map((format) => ['check', 'bad.crank', '--format', format]),
      ['trace', 'bad.crank'],
      ['trace', 'bad.crank', '--format', 'json'],
      ['format', '--check', 'bad.crank'],
    ];
    for (const args of commands) {
      const outputs = settings.map((env) => JSON.stringify(cranknote(args, { cwd, env })));
      expect(new Set(outputs).size).toBe(1);
    }
  });

  it('nothing is written but the files that format is given', () => {
    const home = folderOf({});
    const place = folderOf({
      'in/a.crank': BAD,
      'in/b.md': '```crank\nsequence s\nturn\n```\n',
      'out/c.crank': 'sequence s\nturn\n',
    });
    mkdirSync(path.join(place, 'empty'));
    const before = listing(place);
    const env = { HOME: home, XDG_CACHE_HOME: home, XDG_CONFIG_HOME: home, TMPDIR: path.join(place, 'empty') };
    for (const args of [['check'], ['trace', '.'], ['format', '--check'], ['--help']]) {
      cranknote(args, { cwd: place, env });
      expect(listing(place)).toEqual(before);
    }
    cranknote(['format', 'in'], { cwd: place, env });
    expect(listing(place)).toEqual({ ...before, 'in/b.md': '```crank\nsequence s\n  turn\n```\n' });
    expect(listing(home)).toEqual({});
  });
});
