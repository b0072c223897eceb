/**
 * Tries the new sequence out: every case is run on the new machine and compared, step by step, with the old run.
 *
 * Invariant: what is not proved here is not handed out.
 */
import type { Gradual } from '../../../grammar/gradual.js';
import { print } from '../../../grammar/printer.js';
import { Parser } from '../../../grammar/sections.js';
import type { ExpectItem, ExpectStep, LineItem, RegisterReading, SequenceSection } from '../../../grammar/tree.js';
import { numberIn, type Profile, pointOf, type State } from '../../machine/index.js';
import { checkAlone, type SequenceReport } from '../../sequence/check.js';
import { compare } from '../../sequence/expects.js';
import { CODES } from '../../sequence/findings.js';
import { decimalText } from '../../sequence/readings.js';
import type { RunOrder } from '../../sequence/run.js';
import { obstaclesOf, type Source, type Tried } from './causes.js';
import type { Draft, Piece } from './draft.js';
import type { Difference, Obstacle, Reason } from './facts.js';
import { mend } from './mending.js';
import { digitString } from './numbers.js';
import { wordOf } from './reading.js';
import { keyOf, type Occurrence, type Totals, Walk } from './walk.js';
import { movedOf, type Way } from './way.js';

export interface Proof {
  readonly lines: readonly string[];
  readonly report: SequenceReport;
  readonly differences: readonly Difference[];
  readonly reread: readonly number[];
}

/** Steps that do something with the figures of the result. */
const MOVES_RESULT: ReadonlySet<string> = new Set(['turn', 'multiply', 'divide', 'clear', 'transfer', 'run']);
/** Readings are put right and tried again so often; each time at least one step has changed. */
const MOST_ROUNDS = 40;

export function* prove(
  draft: Draft,
  source: Source,
  way: Way,
  resolve: RunOrder['resolve'],
): Gradual<Proof | readonly Obstacle[]> {
  const differences: Difference[] = [];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const trial = yield* tryOut(draft, way.to, resolve);
    if (!trial) return [{ kind: 'not-equal', line: 0 }];
    const mended = yield* trial.mend(draft, source, way, differences);
    yield;
    if (mended === 'changed') continue;
    const obstacles = obstaclesOf(mended, source, trial, way);
    if (obstacles.length > 0) return obstacles;
    return { lines: trial.lines, report: trial.report, differences, reread: draft.reread(way) };
  }
  return [{ kind: 'not-equal', line: 0 }];
}

function* tryOut(draft: Draft, profile: Profile, resolve: RunOrder['resolve']): Gradual<Trial | undefined> {
  const { lines, piecesOn } = draft.render();
  yield;
  const [section] = new Parser().parseLines(lines).sections.map((placed) => placed.section);
  if (section?.kind !== 'sequence' || section.errors.length > 0) return undefined;
  const pieceOf = new Map<string, { piece: Piece; item: LineItem }>();
  for (const [line, { items }] of section.lines.entries()) {
    if (items.length !== piecesOn[line].length) return undefined;
    for (const [i, item] of items.entries()) pieceOf.set(`${line}:${item.from}`, { piece: piecesOn[line][i], item });
  }
  yield;
  return new Trial(lines, section, yield* checkAlone(section, profile, resolve), pieceOf);
}

class Trial implements Tried {
  constructor(
    readonly lines: readonly string[],
    readonly section: SequenceSection,
    readonly report: SequenceReport,
    readonly pieceOf: ReadonlyMap<string, { piece: Piece; item: LineItem }>,
  ) {}

  /** Compares all runs. What may be put right is put right in the draft; the rest stands in the way. */
  *mend(draft: Draft, source: Source, way: Way, differences: Difference[]): Gradual<'changed' | Obstacle[]> {
    const { runs } = this.report;
    if (runs.length !== source.walks.length || runs.some(({ brokeOff }) => brokeOff)) return this.fallBack();
    const readings = new Map<Piece, Readings>();
    for (const [i, walk] of source.walks.entries()) {
      yield;
      const obstacle = this.compareRun(walk, new Walk(runs[i], way.to, this.section), way, readings);
      if (obstacle) return [obstacle];
    }
    let isChanged = false;
    for (const [piece, found] of readings) {
      const rewritten = found.rewritten(differences);
      if (!rewritten) return [{ kind: 'varies', line: piece.line, what: 'reading' }];
      if (rewritten === piece.text) continue;
      piece.text = rewritten;
      isChanged = true;
    }
    if (isChanged) return 'changed';
    return mend(draft, this, source, way) ? 'changed' : [];
  }

  /** Nothing to compare: the findings say why. */
  private fallBack(): Obstacle[] {
    const isTold = this.report.findings.some(({ facts }) => CODES[facts.code] === 'error');
    return isTold ? [] : [{ kind: 'not-equal', line: 0 }];
  }

  private compareRun(old: Walk, now: Walk, way: Way, readings: Map<Piece, Readings>): Obstacle | undefined {
    const counts = new Map<string, number>();
    for (const { piece, item } of this.pieceOf.values()) {
      if (item.kind === 'goal' || item.kind === 'case' || item.kind === 'repeat' || item.kind === 'close') continue;
      counts.set(piece.key, (counts.get(piece.key) ?? 0) + 1);
    }
    let next = 0;
    let isNotEntered = false;
    for (const o of old.occurrences) {
      const key = keyOf(o.step);
      const count = counts.get(key) ?? 0;
      const { kind } = o.step.syntax;
      // Figures that nobody would have read are left out, and are missing until the crank turns.
      if (kind === 'dial') isNotEntered = count === 0;
      else if (MOVES_RESULT.has(kind)) isNotEntered = false;
      let last: Occurrence | undefined;
      for (let i = 0; i < count; i++) {
        last = now.occurrences[next++];
        const found = last && this.pieceOf.get(keyOf(last.step));
        if (!last || found?.piece.key !== key) return { kind: 'not-equal', line: o.step.line };
        if (last.step.syntax.kind === 'expect') {
          const obstacle = readAt(found.piece, o, last, way, readings);
          if (obstacle) return obstacle;
        }
      }
      if (!last) continue;
      if (way.building?.get(old)?.isPendingBefore(o.end)) continue;
      const register = firstDifferent(o, last, way);
      if (register === 'result' && isNotEntered) continue;
      if (register) return { kind: 'not-equal', line: o.step.line, register };
    }
    return next === now.occurrences.length ? undefined : { kind: 'not-equal', line: 0 };
  }
}

/** The register that does not correspond after a step, if any. */
function firstDifferent(old: Occurrence, now: Occurrence, way: Way): 'result' | 'counter' | undefined {
  const totals = totalsAfter(old, way);
  if (!agrees(totals.result, movedOf(way, 'result'), numberIn(now.after, way.to, 'result'), way.to.result))
    return 'result';
  const isRead = way.to.counter > 0 && way.from.counter > 0 && way.liveness.get(old.run)?.counter(old.end);
  if (isRead && !counterAgrees(old, now.after, way)) return 'counter';
  return undefined;
}

/** What the registers of the new machine are to show after a step: where the result is built up, the rest of it. */
function totalsAfter(old: Occurrence, way: Way): Totals {
  const totals = old.run.totalsBefore(old.end);
  const stretch = way.building?.get(old.run)?.openBefore(old.end);
  return stretch ? { ...totals, result: stretch.from - totals.result } : totals;
}

function agrees(total: bigint, moved: number, shown: bigint, places: number): boolean {
  const scale = 10n ** BigInt(moved);
  const whole = 10n ** BigInt(places);
  return total % scale === 0n && (total / scale - shown) % whole === 0n;
}

function counterAgrees(old: Occurrence, now: State, way: Way): boolean {
  const { from, to, moved } = way;
  const shown = numberIn(now, to, 'counter');
  const was = numberIn(old.after, from, 'counter');
  const scale = 10n ** BigInt(moved.counter);
  if (was === shown * scale) return true;
  const { counter } = old.run.totalsBefore(old.end);
  const wasWhole = (counter - was) % 10n ** BigInt(from.counter) === 0n;
  return wasWhole && agrees(counter, moved.counter, shown, to.counter);
}

/** What an `expect` step reads on the new machine, over all cases and rounds. */
class Readings {
  private readonly wanted = new Map<number, Set<string>>();
  private readonly reasons = new Map<number, Reason>();

  constructor(
    private readonly piece: Piece,
    private readonly step: ExpectStep,
  ) {}

  add(item: number, text: string, reason: Reason | undefined): void {
    const texts = this.wanted.get(item) ?? new Set();
    this.wanted.set(item, texts.add(text));
    if (reason) this.reasons.set(item, reason);
  }

  /** The step with figures that are right every time; undefined if there are none such. */
  rewritten(differences: Difference[]): string | undefined {
    const items: ExpectItem[] = [];
    for (const [i, item] of this.step.items.entries()) {
      const reason = this.reasons.get(i);
      const texts = [...(this.wanted.get(i) ?? [])];
      if (!reason || item.kind !== 'register') {
        items.push(item);
        continue;
      }
      if (texts.length !== 1 || item.figures.kind === 'name') return undefined;
      const [after] = texts;
      differences.push({ line: this.piece.line, register: item.register, before: wordOf(item), after, reason });
      items.push({ ...item, ...readingOf(after) });
    }
    return print({ ...this.step, items });
  }
}

function readingOf(text: string): Pick<RegisterReading, 'figures' | 'negative'> {
  const [, sign, digits] = /^(-?)(.*)$/.exec(text) as RegExpExecArray;
  return { negative: sign !== '', figures: digitString(digits) };
}

/** Compares one reading of the new run; an obstacle where it can't be told with other figures. */
function readAt(
  piece: Piece,
  old: Occurrence,
  now: Occurrence,
  way: Way,
  readings: Map<Piece, Readings>,
): Obstacle | undefined {
  const done = now.run.stepAt(now.first) as ExpectStep;
  const happened = now.run.happenedBefore(now.first);
  let found = readings.get(piece);
  if (!found) {
    found = new Readings(piece, now.step.syntax as ExpectStep);
    readings.set(piece, found);
  }
  for (const [i, item] of done.items.entries()) {
    const differs = compare(item, now.after, happened, way.to);
    if (item.kind !== 'register') {
      if (!differs) continue;
      const { kind } = item;
      if (kind === 'parked' || kind === 'carriage')
        return { kind: 'not-equal', line: piece.line, code: 'reading-differs' };
      return { kind: 'no-event', line: piece.line, event: kind, has: way.to.result, was: way.from.result };
    }
    if (!differs) {
      found.add(i, wordOf(item), undefined);
      continue;
    }
    const reason = reasonFor(item, old, now, way);
    if (!reason) return { kind: 'not-equal', line: piece.line, register: item.register };
    found.add(i, shownAs(item, now.after, way.to), reason);
  }
  return undefined;
}

function reasonFor({ register }: RegisterReading, old: Occurrence, now: Occurrence, way: Way): Reason | undefined {
  const totals = old.run.totalsBefore(old.end);
  if (register === 'result' && way.building?.get(old.run)?.openBefore(old.end)) return 'built-up';
  if (register === 'counter' && !counterAgrees(old, now.after, way)) {
    return way.liveness.get(old.run)?.counter(old.first) ? undefined : 'counts-otherwise';
  }
  if (register !== 'setting' && totals[register] < 0n) return 'complement';
  return movedOf(way, register) > 0 ? 'fewer-places' : undefined;
}

/** The figures that the register shows, written as the reading was. */
function shownAs(item: RegisterReading, state: State, profile: Profile): string {
  const shown = numberIn(state, profile, item.register);
  const isValue = item.figures.kind === 'number' && item.figures.isValue;
  const marker = isValue ? pointOf(state, item.register) : 0;
  return decimalText(shown, marker);
}
