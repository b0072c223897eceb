import type { Log } from 'sarif';
import { describe, expect, it } from 'vitest';
import { CODES } from '../../server/sequence/findings.js';
import { cranknote, folderOf, MACHINE } from './program.js';
import { type Element, readXml } from './xml.js';

/** Findings of several levels, on names and titles that need care. */
const TEXT = `${MACHINE}sequence s "a]]>b&<c>\u001b\ufffe" (a = 1)
  case a = 1234567
  clear all
  set a
  turn
  ]]>&<
  trun 1,2:3%
sequence t
  clear all
  turn
`;
const NAME = 'bench 5%, a:b#c?.crank';
const cwd = folderOf({ [NAME]: TEXT, 'good.crank': `${MACHINE}sequence s\n  clear all\n` });
const check = (format: string, ...names: string[]) =>
  cranknote(['check', '--format', format, ...(names.length > 0 ? names : [NAME])], { cwd });

interface Json {
  format: number;
  findings: Record<string, unknown>[];
  sequences: Record<string, unknown>[];
  summary: Record<string, number>;
}
const findingsOf = (text: string) => (JSON.parse(text) as Json).findings;

describe('json', () => {
  const { out, code } = check('json');
  const json = JSON.parse(out) as Json;

  it('has these keys', () => {
    expect(code).toBe(1);
    expect(Object.keys(json)).toEqual(['format', 'findings', 'sequences', 'summary']);
    expect(json.format).toBe(1);
    for (const finding of json.findings) {
      expect(finding).toMatchObject({ file: NAME, endLine: finding.line });
      expect(['error', 'warning', 'information', 'hint']).toContain(finding.severity);
      expect(Object.keys(CODES)).toContain(finding.code);
      for (const key of ['line', 'column', 'endColumn']) expect(finding[key]).toBeGreaterThanOrEqual(1);
      expect(typeof finding.message).toBe('string');
      const known = ['file', 'line', 'column', 'endLine', 'endColumn', 'code', 'severity', 'sequence', 'case'];
      expect(Object.keys(finding).filter((key) => ![...known, 'message', 'related'].includes(key))).toEqual([]);
    }
    expect(json.findings.map((f) => `${f.line}:${f.column} ${f.code}`)).toEqual([
      '8:3 setting-too-long',
      '9:3 idle-turn',
      '10:3 syntax',
      '11:3 syntax',
      '14:3 idle-turn',
    ]);
  });

  it('tells what each run of each sequence costs, and nothing of one that is not run', () => {
    const folder = folderOf({
      'a.crank': `${MACHINE}sequence beds (a = 12) on bench-6
  case a = 3
  clear all
  set 5
  multiply by a
sequence nowhere on nobody
  turn
`,
      'b.crank': 'use "a.crank"\nsequence levers on bench-6\n  clear all\n  run beds\n',
    });
    const { sequences } = JSON.parse(cranknote(['check', '--format', 'json', '.'], { cwd: folder }).out) as Json;
    const run = (file: string, name: string, number: number, turns: number, shifts: number) => {
      const effort = { turns, shifts, levers: 0, cost: turns + shifts };
      return { file, name, machine: 'bench-6', case: number, effort };
    };
    expect(sequences).toEqual([
      run('a.crank', 'beds', 0, 3, 1),
      run('a.crank', 'beds', 1, 3, 0),
      run('b.crank', 'levers', 0, 3, 1),
    ]);
  });

  it('sums up', () => {
    expect(json.summary).toEqual({ files: 1, sequences: 2, errors: 3, warnings: 0, information: 0, hints: 2 });
    expect(JSON.parse(check('json', 'good.crank').out)).toEqual({
      format: 1,
      findings: [],
      sequences: [
        {
          file: 'good.crank',
          name: 's',
          machine: 'bench-6',
          case: 0,
          effort: { turns: 0, shifts: 0, levers: 0, cost: 0 },
        },
      ],
      summary: { files: 1, sequences: 1, errors: 0, warnings: 0, information: 0, hints: 0 },
    });
  });
});

describe('junit', () => {
  const all = (element: Element, name: string): Element[] => [
    ...(element.name === name ? [element] : []),
    ...element.children.flatMap((child) => all(child, name)),
  ];

  it('is well formed and loses nothing', () => {
    const root = readXml(check('junit').out);
    expect(root.name).toBe('testsuites');
    expect(all(root, 'testsuite').map(({ attributes }) => attributes.name)).toEqual([NAME]);
    expect(all(root, 'testcase').map(({ attributes }) => attributes.name)).toEqual(['the text itself', 's', 't']);
    const [text, s, t] = all(root, 'testcase');
    expect(text.children).toEqual([]);
    expect(s.children.map(({ name }) => name)).toEqual(['failure', 'system-out']);
    expect(s.children[0].attributes.type).toBe('setting-too-long');
    expect(s.children[0].attributes.message).toMatch(/^8:3 .*\(2 more below\)$/);
    expect(s.children[0].text.split('\n').slice(1)).toEqual([
      '10:3 syntax: “]” is not a step.',
      '11:3 syntax: “trun” is not a step. Did you mean turn?',
    ]);
    expect(s.children[1].text).toContain('9:3 idle-turn: All levers stand at zero');
    expect(t.children.map(({ name }) => name)).toEqual(['system-out']);
    expect(root.attributes).toMatchObject({ tests: '3', failures: '1' });
  });

  it('is well formed whatever stands in a file', () => {
    const odd = [
      '\u0001',
      '\u007f',
      '\u009b',
      '\ufffe',
      '\uffff',
      ']]>',
      '<!--',
      '&amp;',
      '"',
      '\u2028',
      '\ud83c\udf31',
    ];
    const lines = odd.flatMap((text) => [` ${text}x`, ` note ${text}`, `use "${text}"`, `sequence s${text} "${text}`]);
    const folder = folderOf({ 'odd.crank': lines.join('\n') });
    const { out } = cranknote(['check', 'odd.crank', '--format', 'junit'], { cwd: folder });
    const told = all(readXml(out), 'failure').flatMap(({ text }) => text.split('\n'));
    const found = findingsOf(cranknote(['check', 'odd.crank', '--format', 'json'], { cwd: folder }).out);
    const failures = found.filter(({ severity }) => severity === 'error' || severity === 'warning');
    expect(failures.length).toBeGreaterThan(odd.length);
    expect(told).toHaveLength(failures.length);
  });

  it('has a case for every sequence where nothing was found', () => {
    const root = readXml(check('junit', 'good.crank').out);
    expect(root.attributes).toMatchObject({ tests: '2', failures: '0', errors: '0' });
  });
});

describe('sarif', () => {
  const log = JSON.parse(check('sarif').out) as Log;
  const [{ tool, results = [], columnKind }] = log.runs;

  it('is a log of version 2.1.0 with a rule for every code', () => {
    expect(log).toMatchObject({ version: '2.1.0', $schema: expect.stringMatching(/^https:.*sarif.*2\.1\.0/) });
    expect(log.runs).toHaveLength(1);
    expect(tool.driver).toMatchObject({ name: 'cranknote', version: expect.stringMatching(/^\d+\.\d+\.\d+/) });
    expect(tool.driver.rules?.map(({ id }) => id)).toEqual(Object.keys(CODES));
    expect(columnKind).toBe('utf16CodeUnits');
  });

  it('has every finding at its place', () => {
    const found = findingsOf(check('json').out);
    expect(results).toHaveLength(found.length);
    results.forEach((result, i) => {
      expect(tool.driver.rules?.[result.ruleIndex ?? -1].id).toBe(result.ruleId);
      expect(['error', 'warning', 'note']).toContain(result.level);
      expect(result.message.text).toBe(found[i].message);
      const place = result.locations?.[0].physicalLocation;
      expect(place?.region).toEqual({
        startLine: found[i].line,
        startColumn: found[i].column,
        endLine: found[i].endLine,
        endColumn: found[i].endColumn,
      });
      expect(place?.artifactLocation?.uri).toBe('bench%205%25%2C%20a%3Ab%23c%3F.crank');
    });
  });

  it('has addresses that lead back to the file', () => {
    const other = folderOf({});
    const { out } = cranknote(['check', `${cwd}/${NAME}`, '--format', 'sarif'], { cwd: other });
    const uri = (JSON.parse(out) as Log).runs[0].results?.[0].locations?.[0].physicalLocation?.artifactLocation?.uri;
    expect(decodeURIComponent(new URL(uri ?? '').pathname)).toBe(`${cwd}/${NAME}`);
  });
});

describe('github', () => {
  it('escapes what would end a property or a command', () => {
    const lines = check('github').out.split('\n');
    const file = 'bench 5%25%2C a%3Ab#c?.crank';
    expect(lines.slice(0, 4)).toEqual([
      expect.stringMatching(
        /^::error file=bench 5%25%2C a%3Ab#c\?.crank,line=8,endLine=8,col=3,endColumn=8,title=setting-too-long::1234567 /,
      ),
      expect.stringMatching(/^::notice .*title=idle-turn::All levers/),
      `::error file=${file},line=10,endLine=10,col=3,endColumn=4,title=syntax::“]” is not a step.`,
      `::error file=${file},line=11,endLine=11,col=3,endColumn=7,title=syntax::“trun” is not a step. Did you mean turn?`,
    ]);
    expect(lines.at(-1)).toBe('');
    expect(lines).toHaveLength(6);
  });

  it('keeps a line break in a file name from beginning a command of its own', () => {
    const name = 'a\n::error::b.crank';
    const folder = folderOf({ [name]: ' trun\n' });
    const { out } = cranknote(['check', '--format', 'github'], { cwd: folder });
    expect(out).toMatch(/^::error file=a%0A%3A%3Aerror%3A%3Ab\.crank,line=1,[^\n]*\n$/);
  });

  it('says nothing where nothing was found', () => {
    expect(check('github', 'good.crank')).toEqual({ code: 0, out: '', err: '' });
  });
});
