/** Files too long to be read, and files with too many findings to be told. */
import { expect, test } from 'vitest';
import { MOST_FINDINGS } from '../../server/sequence/file.js';
import { Library, LONGEST_FILE } from '../../server/sequence/library.js';
import { reportFindings } from '../../server/sequence/report.js';
import { checkText } from '../marked.js';
import { cranked } from './machines.js';

test('findings beyond the limit are counted, and that is told at the last one', () => {
  const more = 25;
  const { report, findings } = checkText(cranked('reverse', '  shift left\n'.repeat(MOST_FINDINGS + more)));
  expect(report.findings).toHaveLength(MOST_FINDINGS);
  expect(report.untold).toBe(more);
  expect(findings).toHaveLength(MOST_FINDINGS + 1);
  const last = findings.at(-1);
  expect(last).toMatchObject({ code: 'too-long', severity: 'error', line: findings.at(-2)?.line });
  expect(last?.message).toContain(`${more} more findings`);
});

test('just as many as the limit are all told', () => {
  const { report, findings } = checkText(cranked('reverse', '  shift left\n'.repeat(MOST_FINDINGS)));
  expect([report.untold, findings.length]).toEqual([0, MOST_FINDINGS]);
});

test('a file that is too long is not read, and whoever uses it is told', () => {
  const library = new Library();
  library.set('long.crank', `${' '.repeat(LONGEST_FILE)}#`);
  library.set('a.crank', 'use "long.crank"\n');
  expect(reportFindings(library, library.check('a.crank')).map(({ code }) => code)).toEqual(['file-not-found']);
  library.set('long.crank', `${' '.repeat(LONGEST_FILE - 1)}\n`);
  expect(reportFindings(library, library.check('a.crank'))).toEqual([]);
});

test('a line that is too long costs itself alone', () => {
  const { findings } = checkText(
    cranked('reverse', `  set 5 # ${'x'.repeat(4_000)}\n  set 6\n  turn\n  expect result 6`),
  );
  expect(findings.map(({ line, code }) => `${line} ${code}`)).toEqual(['7 syntax']);
});
