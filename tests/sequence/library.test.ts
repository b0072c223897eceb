/** Files that use one another, and what an edit does again and what it leaves alone. */
import { describe, expect, test } from 'vitest';
import { Library } from '../../server/sequence/library.js';
import { reportFindings } from '../../server/sequence/report.js';
import { resolveUse } from '../../server/sequence/uses.js';
import { expectMarked } from '../marked.js';

const SMALL = '  setting 4\n  counter 4\n  result 8\n';
const STORES = `machine stores\n${SMALL}`;
const sequence = (name: string, steps = '  clear all\n', on = 'stores'): string =>
  `sequence ${name} on ${on}\n${steps}`;

function library(files: Readonly<Record<string, string>>): Library {
  const made = new Library();
  for (const [file, text] of Object.entries(files)) made.set(file, text);
  return made;
}
const marks = (from: Library, file: string): string[] =>
  reportFindings(from, from.check(file)).map(({ line, code }) => `${line} ${code}`);

describe('use', () => {
  test.each([
    ['a.crank', 'b.crank', 'b.crank'],
    ['house/a.crank', 'b.crank', 'house/b.crank'],
    ['house/a.crank', '../b.crank', 'b.crank'],
    ['house/a.crank', './bed/../b.crank', 'house/b.crank'],
    ['a.crank', '../b.crank', '../b.crank'],
    ['../a.crank', '../b.crank', '../../b.crank'],
    ['/srv/house/a.crank', '../b.crank', '/srv/b.crank'],
    ['file:///srv/house/a.crank', '../b.crank', 'file:///srv/b.crank'],
  ])('from %s, %s is %s', (from, path, file) => expect(resolveUse(from, path)).toEqual({ file }));

  test.each([
    ['a.crank', '', 'missing'],
    ['a.crank', '/b.crank', 'not-relative'],
    ['a.crank', 'house\\b.crank', 'not-relative'],
    ['a.crank', 'c:b.crank', 'not-relative'],
    ['a.crank', 'ftp://there/b.crank', 'not-relative'],
    ['/a.crank', '../b.crank', 'outside'],
    ['file:///a.crank', '../b.crank', 'outside'],
  ])('from %s, %s is %s', (from, path, problem) => expect(resolveUse(from, path)).toEqual({ problem }));

  test('through several files, up and down', () => {
    const files = library({
      'house/bay/a.crank': `use "../seed.crank"\n${sequence('trial', '  run sow\n  expect result 6\n')}`,
      'house/seed.crank': `use "tools/stores.crank"\n${sequence('sow', '  clear all\n  set 3\n  turn 2\n')}`,
      'house/tools/stores.crank': STORES,
    });
    expect(marks(files, 'house/bay/a.crank')).toEqual([]);
    expect(files.reachable('house/bay/a.crank')).toHaveLength(3);
    expect(marks(files, 'house/tools/stores.crank')).toEqual([]);
  });
  test('what is used does not see what uses it', () => {
    const files = library({ 'a.crank': `use "b.crank"\n${STORES}`, 'b.crank': sequence('sow') });
    expect(marks(files, 'b.crank')).toEqual(['1 unknown-name']);
  });
  test('a file that is missing, and which are wanted', () => {
    const files = library({ 'a.crank': `use "b.crank"\nuse "c.crank"\n${STORES}` });
    expect(files.wanted('a.crank')).toEqual(['b.crank', 'c.crank']);
    files.set('b.crank', 'use "d.crank"\n');
    files.setProblem('c.crank', 'unreadable');
    expect(files.wanted('a.crank')).toEqual(['d.crank']);
    expect(marks(files, 'a.crank')).toEqual(['2 file-not-found']);
    files.remove('b.crank');
    expect(marks(files, 'a.crank')).toEqual(['1 file-not-found', '2 file-not-found']);
  });
  test('in a circle: told, and names are seen all the same', () => {
    const files = library({
      'a.crank': `use "b.crank"\n${sequence('trial', '  run sow\n')}`,
      'b.crank': `use "a.crank"\n${STORES}${sequence('sow')}`,
    });
    expect(marks(files, 'a.crank')).toEqual(['1 sequence-cycle']);
    expect(marks(files, 'b.crank')).toEqual(['1 sequence-cycle']);
    expectMarked('use "test.crank" #! sequence-cycle\n');
  });
  test('by two ways is no second time', () => {
    const files = library({
      'a.crank': `use "b.crank"\nuse "c.crank"\n${sequence('trial')}`,
      'b.crank': 'use "d.crank"\n',
      'c.crank': 'use "d.crank"\n',
      'd.crank': STORES,
    });
    expect(marks(files, 'a.crank')).toEqual([]);
  });
  test('a name that a used file has too', () => {
    const files = library({ 'a.crank': `use "b.crank"\n${STORES}${sequence('trial')}`, 'b.crank': STORES });
    expect(marks(files, 'a.crank')).toEqual(['2 duplicate-name']);
    expect(marks(files, 'b.crank')).toEqual([]);
  });
  test('a name that two used files have', () => {
    const files = library({
      'a.crank': `use "b.crank"\nuse "c.crank"\n${sequence('trial')}`,
      'b.crank': STORES,
      'c.crank': STORES,
    });
    expect(marks(files, 'a.crank').join()).toContain('duplicate-name');
  });
  test('like and no reach over files, and names are looked up from where they stand', () => {
    const files = library({
      'a.crank': `use "b.crank"\nmachine shed like stores\n  no counter\n${sequence('trial', '  clear all\n  shift to 5\n', 'shed')}`,
      'b.crank': `use "c.crank"\nmachine stores like base\n  bell\n`,
      'c.crank': `machine base\n${SMALL}`,
    });
    expect(marks(files, 'a.crank')).toEqual([]);
    const shed = files.scope('a.crank').machine('shed');
    expect(shed && files.machine(shed).profile).toMatchObject({ bell: true, counter: 0, setting: 4 });
  });
});

describe('after an edit', () => {
  const many = (edited: string) =>
    `${STORES}${Array.from({ length: 20 }, (_, i) => sequence(`bed-${i}`, `  clear all\n  set ${i + 1}\n  turn\n`)).join('')}${edited}`;
  const reports = (from: Library, file: string) =>
    new Map(from.check(file).sequences.map((report) => [report.section.header?.name.name, report]));

  test('of one sequence, the reports of the others are the same objects', () => {
    const files = library({ 'a.crank': many(sequence('trial', '  clear all\n  turn\n')) });
    const before = reports(files, 'a.crank');
    files.set('a.crank', many(sequence('trial', '  clear all\n  set 1\n  turn\n')));
    const after = reports(files, 'a.crank');
    expect(after.size).toBe(21);
    for (const [name, report] of after) {
      if (name === 'trial') expect(report).not.toBe(before.get(name));
      else expect(report).toBe(before.get(name));
    }
  });
  test('that only moves lines, all are the same and findings stand where they now are', () => {
    const text = many(sequence('trial', '  clear all\n  turn\n'));
    const files = library({ 'a.crank': text });
    const before = reports(files, 'a.crank');
    const [mark] = marks(files, 'a.crank');
    expect(mark).toBe(`${text.split('\n').length - 1} idle-turn`);
    files.set('a.crank', `# The beds\n\n${text}`);
    expect([...reports(files, 'a.crank').values()]).toEqual([...before.values()]);
    for (const [name, report] of reports(files, 'a.crank')) expect(report).toBe(before.get(name));
    expect(marks(files, 'a.crank')).toEqual([`${text.split('\n').length + 1} idle-turn`]);
  });
  test('the machine is built again only if its lines have changed', () => {
    const files = library({ 'a.crank': many('') });
    const built = () => {
      const section = files.scope('a.crank').machine('stores');
      return section && files.machine(section);
    };
    const before = built();
    expect(before?.profile).toBeDefined();
    files.set('a.crank', many(sequence('trial')));
    expect(built()).toBe(before);
    const reportsBefore = reports(files, 'a.crank');
    files.set('a.crank', many(sequence('trial')).replace('counter 4', 'counter 5'));
    expect(built()).not.toBe(before);
    for (const [name, report] of reports(files, 'a.crank')) expect(report).not.toBe(reportsBefore.get(name));
  });
  test('of a used file, what needs it is run again and nothing else', () => {
    const files = library({
      'a.crank': `use "b.crank"\n${STORES}${sequence('trial', '  run sow\n')}${sequence('dig')}`,
      'b.crank': `${sequence('sow', '  clear all\n', 'tray')}machine tray\n${SMALL}`,
    });
    const before = reports(files, 'a.crank');
    files.set('b.crank', `${sequence('sow', '  clear all\n  turn\n', 'tray')}machine tray\n${SMALL}`);
    const after = reports(files, 'a.crank');
    expect(after.get('dig')).toBe(before.get('dig'));
    expect(after.get('trial')).not.toBe(before.get('trial'));
    expect(after.get('trial')?.runs[0].tape.length).toBe(2);
    files.set('b.crank', `# Moved\n${sequence('sow', '  clear all\n  turn\n', 'tray')}machine tray\n${SMALL}  bell\n`);
    expect(reports(files, 'a.crank').get('trial')).toBe(after.get('trial'));
  });
  test('of a machine two files away', () => {
    const files = library({
      'a.crank': `use "b.crank"\n${sequence('trial', '  clear all\n  mode subtract\n  mode add\n')}`,
      'b.crank': 'use "c.crank"\nmachine stores like base\n',
      'c.crank': `machine base\n${SMALL}`,
    });
    expect(marks(files, 'a.crank')).toEqual(['4 not-on-this-machine', '5 not-on-this-machine']);
    files.set('c.crank', `machine base\n${SMALL}  subtract lever\n`);
    expect(marks(files, 'a.crank')).toEqual([]);
  });
  test('names that come or go are noticed by sequences that did not change', () => {
    const trial = sequence('trial', '  clear all\n  run sow\n');
    const files = library({ 'a.crank': `${STORES}${trial}# end` });
    expect(marks(files, 'a.crank')).toEqual(['7 unknown-name']);
    files.set('a.crank', `${STORES}${sequence('sow')}${trial}# end`);
    expect(marks(files, 'a.crank')).toEqual([]);
    files.set('a.crank', `${STORES}${trial}# end`);
    expect(marks(files, 'a.crank')).toEqual(['7 unknown-name']);
  });
  test('messages name what is there now', () => {
    const trial = sequence('trial', '  clear all\n', 'store');
    const messages = (text: string, files: Library) => {
      files.set('a.crank', text);
      return reportFindings(files, files.check('a.crank')).map(({ message }) => message);
    };
    const files = new Library();
    expect(messages(`${trial}# end`, files).join()).not.toContain('stores?');
    expect(messages(`${STORES}${trial}# end`, files).join()).toContain('Did you mean stores?');
    const alone = 'sequence trial\n  clear all\n# end';
    expect(messages(alone, files).join()).toContain('No machine');
    expect(messages(`${STORES}${STORES.replace('stores', 'shed')}${alone}`, files).join()).toContain('2 machines');
    const lost = `${sequence('trial', '  run sew\n')}# end`;
    expect(messages(STORES + lost, files).join()).not.toContain('sow?');
    expect(messages(STORES + sequence('sow') + lost, files).join()).toContain('Did you mean sow?');
  });
  test('a second check without an edit does nothing again', () => {
    const files = library({ 'a.crank': many('') });
    const before = reports(files, 'a.crank');
    for (const [name, report] of reports(files, 'a.crank')) expect(report).toBe(before.get(name));
  });
});
