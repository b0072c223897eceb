/** Carrying a few lines from one machine to another, and checking afresh what comes of it. */
import { expect } from 'vitest';
import { type Adaptation, adapt, type Difference, type Obstacle } from '../../server/planning/adapt/index.js';
import type { SequenceReport } from '../../server/sequence/check.js';
import { CODES } from '../../server/sequence/findings.js';
import { Library } from '../../server/sequence/library.js';

export interface Carried {
  /** The steps of the new sequence, without its header and goals. */
  readonly steps: readonly string[];
  readonly lines: readonly string[];
  readonly differences: readonly Difference[];
  readonly refused: readonly Obstacle[];
  readonly adaptation: Adaptation;
}

/** Adapts the first sequence of a text from the machine `old` to the machine `new`; both stand in the text. */
export function carried(text: string, language?: string): Carried {
  const library = new Library();
  library.set('test.crank', text);
  const scope = library.scope('test.crank');
  const profile = (name: string) => {
    const section = scope.machine(name);
    const found = section && library.machine(section).profile;
    if (!found) throw new Error(`There is no machine ${name}`);
    return found;
  };
  const section = [...(library.tree('test.crank')?.sections ?? [])]
    .map((placed) => placed.section)
    .find((found) => found.kind === 'sequence');
  if (section?.kind !== 'sequence') throw new Error('There is no sequence');
  const resolve = (name: string) => scope.sequence(name);
  const adaptation = adapt({
    section,
    from: profile('old'),
    to: profile('new'),
    resolve,
    ...(language && { language }),
  });
  if ('refused' in adaptation) {
    expect(adaptation.refused.length).toBeGreaterThan(0);
    return { steps: [], lines: [], differences: [], refused: adaptation.refused, adaptation };
  }
  const { lines, differences } = adaptation;
  const old = library.check('test.crank').sequences.find((report) => report.section === section);
  expectSound(text, old, lines, section.goals.length * (1 + section.cases.length));
  const steps = lines.slice(1).map((line) => line.trim());
  return {
    steps: steps.filter((line) => line !== '' && !/^(?:goal|case) /.test(line)),
    lines,
    differences,
    refused: [],
    adaptation,
  };
}

/** The new sequence, among the machines and other sequences of the old text, has no error, no warning that is new, and meets every goal. */
function expectSound(text: string, old: SequenceReport | undefined, lines: readonly string[], goals: number): void {
  const others = text.replace(/^sequence [^\n]*\n(?:(?!sequence |machine ).*\n?)*/m, '');
  const library = new Library();
  library.set('test.crank', `${others}\n${lines.join('\n')}\n`);
  const report = library.check('test.crank');
  const name = /^sequence ([^ ]+)/.exec(lines[0])?.[1];
  const own = report.sequences.find(({ section }) => section.header?.name.name === name);
  const errors = (own?.findings ?? []).filter(({ facts }) => CODES[facts.code] === 'error');
  expect(errors.map(({ facts }) => facts)).toEqual([]);
  expect([...warningsIn(own)].filter((code) => !warningsIn(old).has(code))).toEqual([]);
  const met = (own?.runs ?? []).flatMap((run) => run.goals);
  expect(met.filter((goal) => goal.met === undefined)).toEqual([]);
  expect(met).toHaveLength(goals);
}

const warningsIn = (report: SequenceReport | undefined): Set<string> =>
  new Set((report?.findings ?? []).flatMap(({ facts }) => (CODES[facts.code] === 'warning' ? [facts.code] : [])));

/** Two machines and the steps of a sequence on the old one. */
export const between = (old: string, now: string, steps: string, title = 'trial'): string =>
  [
    `machine old\n${old.split('; ').join('\n')}`,
    `machine new\n${now.split('; ').join('\n')}`,
    `sequence ${title} on old\n${steps}\n`,
  ].join('\n');
