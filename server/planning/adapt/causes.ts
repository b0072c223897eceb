/** Why a sequence that was tried out does not do: new findings, and what the machine has too little of. */
import type { LineItem, SequenceSection } from '../../../grammar/tree.js';
import { numberIn, POSITION } from '../../machine/index.js';
import type { SequenceReport } from '../../sequence/check.js';
import { CODES, type Code } from '../../sequence/findings.js';
import { allSteps } from '../../sequence/names.js';
import type { Piece } from './draft.js';
import type { Limit, Obstacle } from './facts.js';
import type { Occurrence, Walk } from './walk.js';
import { placesOf, type Way } from './way.js';

/** The old sequence with its runs. */
export interface Source {
  readonly section: SequenceSection;
  readonly report: SequenceReport;
  readonly walks: readonly Walk[];
}

/** The new one, and which piece of the draft stands where: by line and column. */
export interface Tried {
  readonly section: SequenceSection;
  readonly report: SequenceReport;
  readonly pieceOf: ReadonlyMap<string, { readonly piece: Piece; readonly item: LineItem }>;
}

/** Everything that stands in the way, with the registers that were found to differ. */
export function obstaclesOf(differing: readonly Obstacle[], source: Source, tried: Tried, way: Way): Obstacle[] {
  const runs = new Map<number, string>();
  for (const { line, syntax } of allSteps(source.section.steps))
    if (syntax.kind === 'run') runs.set(line, syntax.name.name);
  const obstacles = gravest(differing, newFindings(source, tried, way)).map((obstacle): Obstacle => {
    const name = runs.get(obstacle.line);
    return name !== undefined && obstacle.kind === 'not-equal' ? { kind: 'run', line: obstacle.line, name } : obstacle;
  });
  return obstacles.filter((o, i) => obstacles.findIndex((p) => JSON.stringify(p) === JSON.stringify(o)) === i);
}

/** What names a cause is told rather than what only follows from it. */
function gravest(differing: readonly Obstacle[], found: readonly Obstacle[]): readonly Obstacle[] {
  const named = found.filter(({ kind }) => kind !== 'not-equal');
  if (named.length > 0) return named;
  return differing.length > 0 ? differing : found;
}

/** Errors and warnings that the old sequence did not have at that step, and levers left as they should not be. */
function newFindings(source: Source, tried: Tried, way: Way): Obstacle[] {
  const { findings } = source.report;
  const counts = (code: Code) => CODES[code] === 'error' || CODES[code] === 'warning' || code === 'left-engaged';
  const known = new Set(findings.map(({ facts, at }) => `${at.line} ${facts.code}`));
  const hadComplement = new Set(findings.flatMap(({ facts, at }) => (isAboutComplement(facts.code) ? [at.line] : [])));
  const isKnown = (code: Code, line: number) =>
    known.has(`${line} ${code}`) ||
    (code === 'left-engaged' && findings.some(({ facts }) => facts.code === code)) ||
    (isAboutComplement(code) && hadComplement.has(line));
  const obstacles: Obstacle[] = [];
  const told = new Set<string>();
  for (const { facts, at } of tried.report.findings) {
    const { code } = facts;
    const line = tried.pieceOf.get(`${at.line}:${at.from}`)?.piece.line ?? 0;
    if (!counts(code) || isKnown(code, line) || told.has(`${line} ${code}`)) continue;
    told.add(`${line} ${code}`);
    obstacles.push(causeOf(code, line, source, way) ?? { kind: 'not-equal', line, code });
  }
  return obstacles;
}

/** The counter shows a complement: nothing new where it did so before. */
const isAboutComplement = (code: Code): boolean => code === 'counter-underflow' || code === 'quotient-as-complement';

/** What the machine has too little of, or lacks, where that is what a finding says. */
function causeOf(code: Code, line: number, source: Source, way: Way): Obstacle | undefined {
  const { to } = way;
  const most = (need: (o: Occurrence) => number) =>
    Math.max(
      0,
      ...source.walks.flatMap(({ occurrences }) => occurrences.filter((o) => o.step.line === line).map(need)),
    );
  const beyond = (limit: Limit, has: number, needs: number): Obstacle | undefined =>
    needs > has ? { kind: 'limit', line, limit, has, needs } : undefined;
  switch (code) {
    case 'setting-too-long':
      return beyond(
        'setting',
        to.setting,
        most((o) => placesOf(numberIn(o.after, way.from, 'setting'))),
      );
    case 'dial-too-long':
    case 'result-overflow':
      return beyond(
        'result',
        to.result,
        most((o) => placesOf(o.run.totalsBefore(o.end).result)),
      );
    case 'digits-off-end': {
      const needs = most((o) => placesOf(numberIn(o.before, way.from, 'setting')) + o.after[POSITION] - 1);
      return beyond('result', to.result, needs);
    }
    case 'carry-short': {
      const reach = to.reach ?? to.result;
      return beyond(
        'reach',
        reach,
        Math.max(
          reach + 1,
          most((o) => reachOf(o, way)),
        ),
      );
    }
    case 'counter-overflow':
    case 'counter-underflow':
      if (to.counterCarry !== 'carry' && way.from.counterCarry !== to.counterCarry) return { kind: 'no-carry', line };
      if (code === 'counter-underflow' || most((o) => (o.run.totalsBefore(o.first).counter < 0n ? 1 : 0)) > 0) {
        return { kind: 'counter-below-zero', line };
      }
      return beyond(
        'counter',
        to.counter,
        most((o) => placesOf(o.run.totalsBefore(o.end).counter)),
      );
    case 'turn-not-counted':
      return beyond(
        'counter',
        to.counter,
        most((o) => Math.max(o.before[POSITION], o.after[POSITION])),
      );
    default:
      return undefined;
  }
}

/** Over how many places a step's carries go, from where the carriage stands; a borrow below zero goes to the top. */
function reachOf(o: Occurrence, way: Way): number {
  const [before, after] = [o.run.totalsBefore(o.first).result, o.run.totalsBefore(o.end).result];
  const top = before < 0n || after < 0n ? way.to.result : Math.max(placesOf(before), placesOf(after));
  return top - Math.min(o.before[POSITION], o.after[POSITION]) + 1;
}
