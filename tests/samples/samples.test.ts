/** The samples are what people open first: they must read, run and keep their promises. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { format } from '../../grammar/formatter.js';
import { formatMarkdown } from '../../grammar/markdown.js';
import type { Step } from '../../grammar/tree.js';
import { rankOf } from '../../server/sequence/findings.js';
import { isMarkdown, Library } from '../../server/sequence/library.js';
import { allSteps } from '../../server/sequence/names.js';
import { reportFindings } from '../../server/sequence/report.js';
import { expectMarked } from '../marked.js';

const FOLDER = new URL('../../samples/', import.meta.url);
const MISTAKES = 'mistakes.crank';
const MACHINES = 'machines.crank';

const texts = new Map(
  readdirSync(FOLDER)
    .filter((name) => /\.(?:crank|md)$/.test(name))
    .sort()
    .map((name) => [name, readFileSync(new URL(name, FOLDER), 'utf8')]),
);
const textOf = (name: string): string => {
  const text = texts.get(name);
  if (text === undefined) throw new Error(`There is no sample ${name}`);
  return text;
};

const library = new Library();
for (const [name, text] of texts) library.set(name, text);
const reports = new Map([...texts.keys()].map((name) => [name, library.check(name)]));
const sections = (name: string) => (library.tree(name)?.sections ?? []).map(({ section }) => section);

const good = [...texts.keys()].filter((name) => name !== MISTAKES);
const goodSequences = good.flatMap((name) => reports.get(name)?.sequences ?? []);
const stepsOf = (name: string): Step[] =>
  sections(name).flatMap((section) => (section.kind === 'sequence' ? [...allSteps(section.steps)] : []));

/** A text as the formatter leaves it. */
const formatted = (name: string, text: string): string => (isMarkdown(name) ? formatMarkdown(text) : format(text));

test('the library of machines, the mistakes and the handbook are there, among others', () => {
  expect([...texts.keys()]).toEqual(expect.arrayContaining([MACHINES, MISTAKES, 'handbook.md']));
  expect(goodSequences.length).toBeGreaterThanOrEqual(16);
  const machines = sections(MACHINES).filter(({ kind }) => kind === 'machine');
  expect(machines.length).toBeGreaterThanOrEqual(8);
});

describe.each([...texts.keys()])('%s', (name) => {
  test('is formatted', () => {
    expect(formatted(name, textOf(name))).toBe(textOf(name));
  });

  test('uses only what is there', () => {
    expect(library.wanted(name)).toEqual([]);
  });

  test('has nothing left over from writing it', () => {
    const leftovers = textOf(name).match(/\b(?:todo|fixme|xxx|tbd|lorem|foo|bar)\b|\t|[ ]+$|\r|\u00a0|[<>]{3,}/gim);
    expect(leftovers).toBeNull();
    expect(textOf(name).endsWith('\n') && !textOf(name).endsWith('\n\n')).toBe(true);
    const tooWide = textOf(name)
      .split('\n')
      // What is said of a picture stands on one line.
      .filter((line) => line.length > 130 && !line.startsWith('!['));
    expect(tooWide).toEqual([]);
  });
});

describe.each(good)('%s', (name) => {
  const report = reports.get(name);
  const findings = report ? reportFindings(library, report) : [];

  test('has no finding graver than information, nor a hint', () => {
    const unwanted = findings.filter(({ severity }) => severity !== 'information');
    expect(unwanted.map(({ line, code, message }) => `${line} ${code} ${message}`)).toEqual([]);
  });

  test('has information only on what was found at the bench, and on what is made good again, where its comment says so', () => {
    const ofRuns = findings.filter(({ code }) => code !== 'found-differs');
    const codes = new Set(ofRuns.map(({ code }) => code));
    for (const code of codes) expect(['overdraw-restored', 'overflow-restored']).toContain(code);
    for (const { sequence } of ofRuns) expect(commentAbove(textOf(name), sequence ?? '')).toMatch(/information/);
  });

  test('is run to its end, and every goal is met', () => {
    for (const { section, runs } of report?.sequences ?? []) {
      expect(runs).toHaveLength(1 + section.cases.length);
      for (const { brokeOff, goals } of runs) {
        expect(brokeOff).toBe(false);
        expect(goals).toHaveLength(section.goals.length);
        for (const goal of goals) expect(goal).toHaveProperty('met');
      }
    }
  });

  test('gives each sequence a title, a goal, a reading and a comment in plain words', () => {
    for (const { section } of report?.sequences ?? []) {
      const { name: header, title } = section.header ?? {};
      expect(title?.value, header?.name).toMatch(/\S/);
      expect(section.goals, header?.name).not.toEqual([]);
      const kinds = [...allSteps(section.steps)].map(({ syntax }) => syntax.kind);
      expect(
        kinds.some((kind) => kind === 'expect' || kind === 'ask' || kind === 'run'),
        header?.name,
      ).toBe(true);
      expect(commentAbove(textOf(name), header?.name ?? '').length, header?.name).toBeGreaterThan(30);
    }
  });
});

/** The comment lines right above a section, joined. */
function commentAbove(text: string, section: string): string {
  const lines = text.split('\n');
  const at = lines.findIndex((line) => new RegExp(`^(?:sequence|machine) ${section}(?![\\w-])`).test(line));
  let from = at;
  while (from > 0 && lines[from - 1].startsWith('#')) from--;
  return lines.slice(from, Math.max(at, 0)).join(' ');
}

describe('the machines', () => {
  test('have a title and a comment each', () => {
    for (const section of sections(MACHINES)) {
      if (section.kind !== 'machine') continue;
      const { name, title } = section.header ?? {};
      expect(title?.value, name?.name).toMatch(/\S/);
      expect(commentAbove(textOf(MACHINES), name?.name ?? '').length, name?.name).toBeGreaterThan(60);
    }
  });

  test('are all used by a good sequence', () => {
    const used = new Set(goodSequences.map(({ profile }) => profile?.name));
    const known = sections(MACHINES).flatMap((s) => (s.kind === 'machine' && s.header ? [s.header.name.name] : []));
    expect(known.filter((name) => !used.has(name))).toEqual([]);
  });

  test('differ: every way to subtract, to count and to carry is among them', () => {
    const profiles = goodSequences.flatMap(({ profile }) => (profile ? [profile] : []));
    const all = <T>(value: (profile: (typeof profiles)[number]) => T) => new Set(profiles.map(value));
    expect(all((p) => p.subtract)).toEqual(new Set(['reverse', 'lever', 'half-step', 'lift', 'none']));
    expect(all((p) => p.count)).toEqual(new Set(['follow', 'lever', 'first']));
    expect(all((p) => p.counterCarry)).toEqual(new Set(['carry', 'plain', 'signed']));
    expect(profiles.some((p) => p.reach !== undefined)).toBe(true);
    expect(profiles.filter((p) => Object.keys(p.phrases).length > 0).length).toBeGreaterThanOrEqual(2);
  });
});

test('between them the good samples show every step of the notation', () => {
  const shown = new Set(good.flatMap((name) => stepsOf(name).map(({ syntax }) => syntax.kind)));
  const wanted: Step['syntax']['kind'][] = [
    ...(['set', 'turn', 'shift', 'clear', 'transfer', 'dial', 'mode', 'count', 'auto-clear', 'auto-divide'] as const),
    ...(['points', 'expect', 'ask', 'note', 'caution', 'repeat', 'run', 'multiply', 'divide'] as const),
  ];
  expect(wanted.filter((kind) => !shown.has(kind))).toEqual([]);
  expect(goodSequences.some(({ section }) => section.cases.length > 0)).toBe(true);
});

describe(MISTAKES, () => {
  const others = Object.fromEntries([...texts].filter(([name]) => name !== MISTAKES));

  test('has the findings that are marked in it, and no others', () => {
    const { findings } = expectMarked(textOf(MISTAKES), { others });
    const graveOnes = new Set(findings.filter(({ severity }) => rankOf(severity) <= 1).map(({ code }) => code));
    expect(graveOnes.size).toBeGreaterThanOrEqual(10);
  });

  test('has a mistake, and a story that tells it, in every sequence', () => {
    const report = reports.get(MISTAKES);
    const findings = report ? reportFindings(library, report) : [];
    for (const { section } of report?.sequences ?? []) {
      const name = section.header?.name.name ?? '';
      const first = library.lineOf(section) + 1;
      const own = findings.filter(({ line }) => line >= first && line < first + section.lines.length);
      expect(own, name).not.toEqual([]);
      expect(commentAbove(textOf(MISTAKES), name).length, name).toBeGreaterThan(60);
    }
  });
});
