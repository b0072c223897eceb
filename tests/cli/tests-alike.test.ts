/** What the command line says and what the tests of an editor say is the same. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import { toJunit } from '../../server/cli/output/junit.js';
import { fails } from '../../server/cli/output/summary.js';
import { reportFindings } from '../../server/sequence/report.js';
import { verdictsOn } from '../../server/sequence/verdicts.js';
import type { AnalysedDocument } from '../../server/service/document.js';
import { resultsGradually } from '../../server/service/test-results.js';
import { sequencesIn } from '../../server/service/tests.js';
import { anyFileText } from '../grammar/generate.js';
import { openMarked, reader } from '../service/editor.js';
import { cranknote, folderOf, MACHINE } from './program.js';
import { type Element, readXml } from './xml.js';

const SAMPLES = fileURLToPath(new URL('../../samples', import.meta.url));
const samples = Object.fromEntries(
  readdirSync(SAMPLES)
    .filter((name) => /\.(?:crank|md)$/.test(name))
    .map((name) => [name, readFileSync(`${SAMPLES}/${name}`, 'utf8')]),
);
const TEXT = 'the text itself';

type Outcomes = Record<string, string[]>;

/** What a report in XML says of each sequence of a file. */
function ofJunit(suite: Element): Outcomes {
  const outcomes: Outcomes = {};
  for (const { attributes, children } of suite.children) {
    const [told] = children.map(({ name }) => name).filter((name) => name !== 'system-out');
    const outcome = { failure: 'failed', error: 'not-run' }[told ?? ''] ?? 'passed';
    outcomes[attributes.name] = [...(outcomes[attributes.name] ?? []), outcome];
  }
  return outcomes;
}

/** What the tests say: a sequence is as its cases are, and failed where some are and others are not run. */
function ofTests(document: AnalysedDocument): Outcomes {
  const { results } = finish(resultsGradually(document, { uri: document.uri }, reader()));
  const of = (id: string) => results.filter((one) => one.id === id || one.id.startsWith(`${id}/`));
  const [text] = results.filter(({ id }) => id === '');
  const outcomes: Outcomes = { [TEXT]: [text.outcome] };
  for (const { id, name } of sequencesIn(document)) {
    const cases = new Set(of(id).map(({ outcome }) => outcome));
    const outcome = cases.has('failed') ? 'failed' : cases.has('not-run') ? 'not-run' : 'passed';
    outcomes[name.name] = [...(outcomes[name.name] ?? []), outcome];
  }
  return outcomes;
}

/** Both of one file, and how `check` would end. */
function both(document: AnalysedDocument): { junit: Outcomes; tests: Outcomes; exit: boolean } {
  const { library, report } = document;
  const verdicts = new Map([[report.file, verdictsOn(library, report, 'error')]]);
  const [suite] = readXml(toJunit(library, verdicts)).children;
  return { junit: ofJunit(suite), tests: ofTests(document), exit: fails(reportFindings(library, report), 'error') };
}

describe('what fails at check --level error, and as a test', () => {
  it('is the same in every sample', () => {
    const { out, code } = cranknote(['check', '--level', 'error', '--format', 'junit', '.'], { cwd: SAMPLES });
    const suites = new Map(readXml(out).children.map((suite) => [suite.attributes.name, ofJunit(suite)]));
    expect([...suites.keys()].sort()).toEqual(Object.keys(samples).sort());
    const { documents } = openMarked('', samples, 'none.crank');
    let failed = 0;
    for (const [name, outcomes] of suites) {
      const tests = ofTests(documents[name]);
      expect(tests, name).toEqual(outcomes);
      failed += Object.values(tests)
        .flat()
        .filter((outcome) => outcome !== 'passed').length;
    }
    expect(code).toBe(1);
    expect(failed).toBeGreaterThan(5);
  });

  it.each(Object.keys(samples))('is the same where %s is checked by itself', (name) => {
    const { junit, tests, exit } = both(openMarked('', samples, 'none.crank').documents[name]);
    expect(tests).toEqual(junit);
    expect(Object.values(tests).flat().includes('failed')).toBe(exit);
  });

  it('is the same in any file', () => {
    fc.assert(
      fc.property(anyFileText, anyFileText, (text, other) => {
        const { document } = openMarked(text.replace(/[‸⟦⟧]/g, ''), { 'b.crank': other });
        const { junit, tests } = both(document);
        expect(tests).toEqual(junit);
      }),
      { numRuns: 300 },
    );
  });

  it('is the same in samples of which something was changed', () => {
    const cut = fc.record({ name: fc.constantFrom(...Object.keys(samples)), at: fc.nat(), length: fc.nat(30) });
    fc.assert(
      fc.property(cut, ({ name, at, length }) => {
        const from = at % samples[name].length;
        const text = samples[name].slice(0, from) + samples[name].slice(from + length);
        const { documents } = openMarked('', { ...samples, [name]: text }, 'none.crank');
        const { junit, tests } = both(documents[name]);
        expect(tests).toEqual(junit);
      }),
      { numRuns: 60 },
    );
  });
});

describe('a sequence that rests on a file with an error', () => {
  const files = {
    'a.crank': 'use "b.crank"\nsequence s on bench-6\n  clear all\nsequence t on bench-6\n  clear all\n',
    'b.crank': MACHINE.replace('result 10', 'result 4'),
  };

  it('makes check fail, though that file is not checked', () => {
    const cwd = folderOf(files);
    const { code, out } = cranknote(['check', 'a.crank'], { cwd });
    expect(code).toBe(1);
    expect(out).toMatch(/^b\.crank:4:3 {2}error \[bad-profile\]\n.*\n {4}4 │ {3}result 4\n/);
    expect(out).toContain('1 file, 2 sequences: 1 error.');
    const junit = readXml(cranknote(['check', 'a.crank', '--format', 'junit'], { cwd }).out);
    expect(ofJunit(junit.children[0])).toEqual({ [TEXT]: ['passed'], s: ['not-run'], t: ['not-run'] });
    expect(junit.children[0].children[1].children[0].attributes).toMatchObject({
      message: expect.stringMatching(/^b\.crank:4:3 The result has fewer places/),
      type: 'bad-profile',
    });
  });

  it('is told once where that file is checked as well', () => {
    const { code, out } = cranknote(['check', '.'], { cwd: folderOf(files) });
    expect(code).toBe(1);
    expect(out.match(/bad-profile/g)).toHaveLength(1);
  });
});

it('counts what is as grave as the level that is named', () => {
  const cwd = folderOf({ 'a.crank': `${MACHINE}sequence s\n  turn 11\n` });
  const failures = (level: string) =>
    readXml(cranknote(['check', '--format', 'junit', '--level', level, 'a.crank'], { cwd }).out).attributes.failures;
  expect(['error', 'warning', 'hint'].map(failures)).toEqual(['0', '0', '1']);
});
