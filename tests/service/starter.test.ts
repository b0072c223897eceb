/** A file to begin with is whole, right for its machine, and written as the formatter writes it. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { format } from '../../grammar/formatter.js';
import { finish } from '../../grammar/gradual.js';
import { allSteps } from '../../server/sequence/names.js';
import type { MachineKind } from '../../server/service/starter/kinds.js';
import type { Task } from '../../server/service/starter/tasks.js';
import { STARTER_LANGUAGES, starterWords } from '../../server/service/starter/wording/index.js';
import { starterAsked, starterGradually, starterOffers, unsuited } from '../../server/service/starter.js';
import { checkText } from '../marked.js';

const whole = (machine: MachineKind, task: Task, language: string) =>
  finish(starterGradually({ machine, task, language }));
const offers = starterOffers(starterWords('en'));
const suited = offers.machines.flatMap(({ value, tasks }) =>
  tasks.flatMap((task) => STARTER_LANGUAGES.map((language) => [value as MachineKind, task, language] as const)),
);
describe.each(suited)('%s, %s, %s', (machine, task, language) => {
  const { name, text } = whole(machine, task, language);
  const { findings, report } = checkText(text);

  it('has nothing to remark', () => {
    expect(findings.map(({ line, code, message }) => `${line} ${code} ${message}`)).toEqual([]);
  });

  it('is formatted, and no line is too long to be read', () => {
    expect(format(text)).toBe(text);
    expect(text.split('\n').filter((line) => line.startsWith('#') && line.length > 110)).toEqual([]);
  });

  it('reads something that comes of its run, in every case', () => {
    const [sequence, ...others] = report.sequences;
    expect(others).toEqual([]);
    const { section, runs } = sequence;
    expect(section.header?.name.name).toBe(name);
    expect(section.header?.title?.value).toMatch(/\S/);
    const kinds = [...allSteps(section.steps)].map(({ syntax }) => syntax.kind);
    expect(kinds).toContain(task === 'exercise' ? 'ask' : 'expect');
    expect(runs.length).toBe(1 + section.cases.length);
    expect(section.cases.length > 0).toBe(task === 'exercise');
    if (task !== 'bench')
      expect(runs.every(({ goals }) => goals.length > 0 && goals.every((g) => 'met' in g))).toBe(true);
  });
});

/** Which machine of the sample library stands for a kind. */
const SAMPLES: Readonly<Record<MachineKind, string>> = {
  pinwheel: 'pinwheel-9',
  'lifted-crank': 'drum-8',
  'drive-lever': 'large-20',
  'half-step': 'halfstep-10',
  learner: 'desk-8',
  'marked-counter': 'signed-9',
  'short-carry': 'short-reach-8',
  adding: 'adder-9',
};

describe('what there is to begin with', () => {
  const library = readFileSync(new URL('../../samples/machines.crank', import.meta.url), 'utf8');
  const profilesIn = (text: string) =>
    checkText(text).report.sequences.flatMap(({ profile }) => {
      if (!profile) return [];
      const { name, title: _, phrases: __, ...shape } = profile;
      return [{ name, shape }];
    });

  it.each(Object.entries(SAMPLES))('%s is a machine as %s of the samples', (kind, sample) => {
    const [begun] = profilesIn(whole(kind as MachineKind, 'add', 'en').text);
    const [known] = profilesIn(`${library}sequence s on ${sample}\n  clear all\n`);
    expect(known.name).toBe(sample);
    expect(begun.shape).toEqual(known.shape);
  });

  it('is told apart in the words of each language', () => {
    const labels = STARTER_LANGUAGES.map((language) => {
      const { machines, tasks } = starterOffers(starterWords(language));
      for (const all of [machines, tasks]) {
        expect(new Set(all.map(({ label }) => label)).size).toBe(all.length);
        expect(new Set(all.map(({ detail }) => detail)).size).toBe(all.length);
      }
      return [...machines, ...tasks].map(({ label }) => label);
    });
    for (const [i, label] of labels[0].entries()) expect(labels[1][i]).not.toBe(label);
  });

  it('is said of a machine that can not do a task', () => {
    expect(unsuited({ machine: 'adding', task: 'divide' }, starterWords('en'))).toContain('Adding machine');
    expect(unsuited({ machine: 'adding', task: 'divide' }, starterWords('de'))).toContain('Dividieren');
    expect(unsuited({ machine: 'pinwheel', task: 'divide' }, starterWords('en'))).toBeUndefined();
    expect(offers.machines.filter(({ tasks }) => !tasks.includes('multiply')).map(({ value }) => value)).toEqual([
      'adding',
    ]);
  });

  it('is asked for in the language of the editor, unless another is named', () => {
    expect(starterAsked({}, 'de-AT')).toEqual({ language: 'de' });
    expect(starterAsked(undefined, 'fr')).toEqual({ language: 'en' });
    const order = { machine: 'learner', task: 'add', language: 'de' };
    expect(starterAsked(order, 'en')).toEqual(order);
    expect(starterAsked({ machine: 'loom' }, 'en')).toContain('machine is one of pinwheel, ');
    expect(starterAsked({ task: ['add'] }, 'en')).toContain('task is one of ');
  });
});

it('the readings on the way stand before what is said of the next number', () => {
  const { text } = whole('adding', 'instruction', 'en');
  expect(text).toMatch(/turn\n {2}expect result 1590 as taken-in\n {2}note "Take away 415/);
});

it('a record has a line for each reading of its script, and nothing is noted yet', () => {
  const { text } = whole('lifted-crank', 'bench', 'en');
  const labels = Array.from(text.matchAll(/^ {2}expect .* as (\S+)/gm), ([, label]) => label);
  const noted = Array.from(text.matchAll(/^ {2}# found (\S+) /gm), ([, label]) => label);
  expect(labels.length).toBeGreaterThan(4);
  expect(noted).toEqual(labels);
  const read = checkText(text.replaceAll('  # found', '  found'));
  expect(read.findings).toEqual([]);
  const [bench] = read.report.sections.flatMap((section) => section.bench ?? []);
  expect(bench.noted.length).toBeGreaterThanOrEqual(labels.length);
});
