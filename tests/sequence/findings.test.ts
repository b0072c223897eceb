/** Every finding that there is, once where it must be and once where it must not. */
import { describe, expect, test } from 'vitest';
import { CODES, type Code, severityOf } from '../../server/sequence/findings.js';
import { expectMarked } from '../marked.js';
import type { Pair } from './machines.js';
import { PAIRS_OF_BENCHES } from './pairs-of-benches.js';
import { PAIRS_OF_HANDS } from './pairs-of-hands.js';
import { PAIRS_OF_PAGES } from './pairs-of-pages.js';
import { PAIRS_OF_TEXTS } from './pairs-of-texts.js';
import { PAIRS_OF_TURNS } from './pairs-of-turns.js';

const PAIRS: Readonly<Record<Code, Pair>> = {
  ...PAIRS_OF_TEXTS,
  ...PAIRS_OF_HANDS,
  ...PAIRS_OF_TURNS,
  ...PAIRS_OF_PAGES,
  ...PAIRS_OF_BENCHES,
};

test('there is a pair of examples for every code', () => {
  expect(Object.keys(PAIRS).sort()).toEqual(Object.keys(CODES).sort());
});

describe.each(Object.entries(PAIRS))('%s', (code, { found, not, others = {}, isPage = false }) => {
  test('where it must be', () => {
    const { findings, report } = expectMarked(found, code === 'file-not-found' ? {} : { others, isPage });
    const own = findings.filter((finding) => finding.code === code);
    expect(own.length).toBeGreaterThan(0);
    for (const { severity, message } of own) {
      expect(severity).toBe(CODES[code as Code]);
      expect(message).toMatch(/^\S.*[.?}]$/s);
    }
    for (const finding of report.findings) expect(severityOf(finding)).toBe(CODES[finding.facts.code]);
  });

  test('where it must not', () => {
    const { findings } = expectMarked(not, { others, isPage });
    expect(findings.map((finding) => finding.code)).not.toContain(code);
  });
});
