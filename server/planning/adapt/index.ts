/**
 * Carries a sequence that is written for one machine over to another.
 *
 * Invariant: what is handed out has been run on the new machine in every case: goals are met as before, and no error or
 * warning has come up that was not there. What can't be had is refused by name.
 */
import { finish, type Gradual } from '../../../grammar/gradual.js';
import type { SequenceSection } from '../../../grammar/tree.js';
import { AUTO_DIVIDE, contradictions, has, type Profile } from '../../machine/index.js';
import { checkAlone, workOf } from '../../sequence/check.js';
import { CODES } from '../../sequence/findings.js';
import { Building } from './building.js';
import { carryStep } from './carry.js';
import type { Source } from './causes.js';
import { Draft } from './draft.js';
import type { Adaptation, AdaptOrder, Difference, Obstacle, Varying } from './facts.js';
import { Refusal } from './facts.js';
import { Liveness, type Strictness } from './liveness.js';
import { type Proof, prove } from './prove.js';
import { tidy } from './tidy.js';
import { keyOf, type Occurrence, Walk } from './walk.js';
import type { Moved, Way } from './way.js';
import { adaptWording } from './wording/index.js';

export { closedUp } from './draft.js';
export * from './facts.js';
export { adaptWording } from './wording/index.js';

/** Steps and turns of all cases together; a longer sequence is not tried out. */
export const MOST_WORK = 50_000;
/** Lines of a sequence that is tried out. */
export const MOST_LINES = 2_000;
/** Ways of moving the markers that are tried. */
const MOST_MOVES = 36;
/** Steps that are carried over between two pauses. */
const STEPS_AT_ONCE = 100;

/**
 * The sequence as it is cranked on the other machine, or everything that stands in the way. Lines are counted from 0,
 * the header, in the section as it was.
 */
export const adapt = (order: AdaptOrder): Adaptation => finish(adapting(order));

/** The same with pauses, for whoever has others waiting. */
export function* adapting(order: AdaptOrder): Gradual<Adaptation> {
  const { section, from, to, resolve } = order;
  if (contradictions(to).length > 0) return { refused: [{ kind: 'bad-machine', line: 0 }] };
  const report = order.report ?? (yield* checkAlone(section, from, resolve));
  const wrong = sourceErrors(section, report.findings);
  if (wrong.length > 0) return { refused: wrong };
  const work = workOf(report);
  if (section.lines.length > MOST_LINES) return { refused: [{ kind: 'too-long', line: 0, limit: MOST_LINES }] };
  if (work > MOST_WORK) return { refused: [{ kind: 'too-long', line: 0, limit: MOST_WORK }] };
  const walks: Walk[] = [];
  for (const run of report.runs) {
    walks.push(new Walk(run, from, section));
    yield;
  }
  const source: Source = { section, report, walks };
  const missing = missingRegisters(section, to);
  if (missing.length > 0) return { refused: missing };
  const attempts = new Attempts(order, source);
  const found = yield* attempts.first();
  if (!('lines' in found)) return { refused: found };
  const effort = { before: report.runs[0].effort, after: found.report.runs[0].effort };
  return { lines: found.lines, differences: inOrder(found.differences), reread: found.reread, effort };
}

const inOrder = (differences: readonly Difference[]): Difference[] => {
  const seen = new Set<string>();
  const once = differences.filter(({ line, register, before, after }) => {
    const key = JSON.stringify([line, register, before, after]);
    return !seen.has(key) && seen.add(key);
  });
  return once.sort((a, b) => a.line - b.line);
};

/** Errors of the sequence as it stands: what is wrong already can't be held against the new machine. */
function sourceErrors(section: SequenceSection, findings: Source['report']['findings']): Obstacle[] {
  const syntax = section.errors.map(({ line }): Obstacle => ({ kind: 'source', line, code: 'syntax' }));
  if (!section.header && syntax.length === 0) syntax.push({ kind: 'source', line: 0, code: 'syntax' });
  const errors = findings
    .filter(({ facts }) => CODES[facts.code] === 'error')
    .map(({ facts, at }): Obstacle => ({ kind: 'source', line: at.line, code: facts.code }));
  return [...syntax, ...errors];
}

/** A goal on a counter that is not there can't be met in any way. */
const missingRegisters = ({ goals }: SequenceSection, to: Profile): Obstacle[] =>
  to.counter > 0
    ? []
    : goals
        .filter(({ syntax }) => syntax.register === 'counter')
        .map(({ line }) => ({ kind: 'device', line, device: 'counter' }));

/** What is written out in place of a step, and would have to be other figures each time. */
function varyingIn({ step, before }: Occurrence, { subtract }: Profile): Varying {
  const { kind } = step.syntax;
  if (kind === 'transfer' || kind === 'dial') return kind;
  if (kind === 'divide' || has(before, AUTO_DIVIDE)) return 'quotient';
  return subtract === 'none' && (kind === 'turn' || kind === 'multiply') ? 'complement' : 'turns';
}

const buildings = (liveness: ReadonlyMap<Walk, Liveness>, to: Profile) =>
  new Map([...liveness].map(([walk, lives]) => [walk, new Building(walk, to, lives)]));

interface Manner {
  readonly moved: Moved;
  readonly strictness: Strictness;
  readonly keepsShort: boolean;
  /** Turns that a counter can't count are made the other way round. */
  readonly buildsUp: boolean;
  /** All steps as they stand. */
  readonly asWritten: boolean;
}

const UNMOVED: Moved = { setting: 0, counter: 0 };

class Attempts {
  constructor(
    private readonly order: AdaptOrder,
    private readonly source: Source,
  ) {}

  /** The first manner that comes out right, those that change least before others. */
  *first(): Gradual<Proof | readonly Obstacle[]> {
    const base = { moved: UNMOVED, keepsShort: true, buildsUp: false, asWritten: false };
    let refused: readonly Obstacle[] = [];
    const manners: Manner[] = [
      { ...base, strictness: 'read', asWritten: true },
      { ...base, strictness: 'read' },
      { ...base, strictness: 'read', keepsShort: false },
      { ...base, strictness: 'read', buildsUp: true },
      { ...base, strictness: 'wanted' },
      { ...base, strictness: 'wanted', buildsUp: true },
    ];
    for (const manner of manners) {
      const found = yield* this.attempt(manner);
      if ('lines' in found) return found;
      if (!manner.asWritten) refused = found;
    }
    if (!refused.some(({ kind }) => kind === 'limit')) return refused;
    for (const moved of this.moves()) {
      for (const strictness of ['read', 'wanted'] as const) {
        const found = yield* this.attempt({ ...base, moved, strictness });
        if ('lines' in found) return found;
      }
    }
    return refused;
  }

  /** Markers further right, as far as the sequence places them at all. */
  private moves(): Moved[] {
    const most = { setting: 0, counter: 0 };
    for (const walk of this.source.walks) {
      for (let row = 0; row < walk.rows; row++) {
        const step = walk.stepAt(row);
        if (step.kind !== 'points') continue;
        for (const { register, decimals } of step.items) {
          if (register === 'result' || decimals.kind === 'name') continue;
          most[register] = Math.max(most[register], Number(decimals.figures));
        }
      }
    }
    const moves: Moved[] = [];
    for (let setting = 0; setting <= most.setting; setting++) {
      for (let counter = 0; counter <= most.counter; counter++) moves.push({ setting, counter });
    }
    return moves.sort((a, b) => a.setting + a.counter - b.setting - b.counter).slice(1, MOST_MOVES);
  }

  private *attempt(manner: Manner): Gradual<Proof | readonly Obstacle[]> {
    const { moved, strictness, keepsShort, buildsUp, asWritten } = manner;
    const { order, source } = this;
    const { section, walks } = source;
    const liveness = new Map(walks.map((walk) => [walk, new Liveness(walk, section, strictness)]));
    yield;
    const way: Way = {
      from: order.from,
      to: order.to,
      moved,
      keepsShort,
      liveness,
      strictness,
      ...(buildsUp && { building: buildings(liveness, order.to) }),
      notes: adaptWording(order.language).notes,
      byComplement: false,
    };
    const becomes = new Map<string, readonly string[]>();
    const differences: Difference[] = [];
    const obstacles: Obstacle[] = [];
    const stuck = new Set<string>();
    for (const walk of asWritten ? [] : walks) {
      for (const [i, occurrence] of walk.occurrences.entries()) {
        if (i % STEPS_AT_ONCE === 0) yield;
        const key = keyOf(occurrence.step);
        if (stuck.has(key)) continue;
        const stop = (obstacle: Obstacle) => {
          stuck.add(key);
          obstacles.push(obstacle);
        };
        try {
          const carried = carryStep(way, occurrence);
          const known = becomes.get(key);
          if (!known) differences.push(...carried.differences);
          else if (known.join('\n') !== carried.lines.join('\n'))
            stop({ kind: 'varies', line: occurrence.step.line, what: varyingIn(occurrence, order.to) });
          becomes.set(key, carried.lines);
        } catch (error) {
          if (!(error instanceof Refusal)) throw error;
          stop(error.obstacle);
        }
      }
    }
    if (obstacles.length > 0) return obstacles;
    const draft = new Draft(section, order.to.name, becomes);
    yield;
    tidy(draft);
    const proof = yield* prove(draft, source, way, order.resolve);
    return 'lines' in proof ? { ...proof, differences: [...differences, ...proof.differences] } : proof;
  }
}
