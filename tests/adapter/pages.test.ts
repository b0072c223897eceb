/** Blocks of a Markdown page are gone through like files; and how the protocol names files and counts. */
import { expect, test } from 'vitest';
import { sourceOf, uriOfPath } from '../../server/adapter/addresses.js';
import { readHitCount } from '../../server/adapter/hits.js';
import { machine } from '../sequence/machines.js';
import { startStepping } from './client.js';

const FENCE = '```';
const PAGE = `# Pots

${FENCE}crank
use "machines.crank"

sequence pots on stores
  clear all
  set 12
${FENCE}

Turn once for each pot:

${FENCE}crank
  turn 3
${FENCE}
`;

test('a sequence that goes on in the next block of a page', async () => {
  const stepper = await startStepping({ 'page.md': PAGE, 'machines.crank': machine('full') });
  await stepper.launch({ program: stepper.path('page.md') }, { 'page.md': [{ line: 11 }] });
  expect(await stepper.at()).toBe('7: clear all (in pots)');
  await stepper.goOn();
  expect(await stepper.at()).toBe('14: turn 3 (in pots)');
  expect(await stepper.evaluate('setting')).toBe('0012 = 12');
});

test('files have paths on a disk, and addresses elsewhere', () => {
  expect(uriOfPath('/nursery/a b.crank')).toBe('file:///nursery/a%20b.crank');
  expect(uriOfPath('memfs:/nursery/a.crank')).toBe('memfs:/nursery/a.crank');
  expect(uriOfPath('nursery/a.crank')).toBeUndefined();
  expect(sourceOf('file:///nursery/a%20b.crank')).toEqual({ name: 'a b.crank', path: '/nursery/a b.crank' });
  expect(sourceOf('memfs:/nursery/a.crank')).toEqual({ name: 'a.crank', path: 'memfs:/nursery/a.crank' });
});

test.each([
  ['3', [3]],
  ['= 2', [2]],
  ['>= 4', [4, 5, 6]],
  ['> 4', [5, 6]],
  ['< 3', [1, 2]],
  ['<=3', [1, 2, 3]],
  ['% 2', [2, 4, 6]],
])('a count of %s stops at %j of six', (text, times) => {
  const hits = readHitCount(text);
  expect([1, 2, 3, 4, 5, 6].filter((time) => hits?.isAt(time))).toEqual(times);
});

test.each(['', '% 0', 'two', '-1', '3.5', '>= x'])('%j is no count', (text) => {
  expect(readHitCount(text)).toBeUndefined();
});
