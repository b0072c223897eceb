/** Marks at steps and at registers: where they come to lie, and when they stop a session. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import { print } from '../../grammar/printer.js';
import type { SequenceSection, Step } from '../../grammar/tree.js';
import { REGISTERS, type Register, type State, textOf } from '../machine/index.js';
import { allSteps } from '../sequence/names.js';
import { writtenAs, writtenKey } from '../sequence/rows.js';
import type { Reader } from '../service/document.js';
import { fileOf } from '../service/workspace.js';
import { isSlip, isSo, type Question, readCondition, readQuestion, wheelAt } from '../stepping/conditions.js';
import type { Stand } from '../stepping/walk.js';
import type { Course } from './course.js';
import { type HitCount, readHitCount } from './hits.js';
import { answerTo } from './told.js';

/** As a client asks for it, lines and columns from 0. */
export interface Wish {
  readonly uri: string;
  readonly line: number;
  readonly column?: number;
  readonly condition?: string;
  readonly hits?: string;
  readonly log?: string;
}

interface Spot {
  readonly section: SequenceSection;
  readonly step: Step;
}

/** A wish, and what came of it. */
interface Mark {
  readonly id: number;
  readonly wish: Wish;
  spot?: Spot;
  condition?: Question;
  hits?: HitCount;
  log?: readonly (string | Question)[];
  /** Why it does not stop, in a sentence. */
  problem?: string;
}

/** A register, or a wheel of it, whose change is waited for. */
interface WatchedRegister {
  readonly id: number;
  readonly register: Register;
  readonly place?: number;
  readonly condition?: Question;
  readonly problem?: string;
}

export interface Told {
  readonly id: number;
  readonly verified: boolean;
  readonly message?: string;
  readonly uri: string;
  readonly line: number;
  readonly column: number;
}

export class Breakpoints {
  private lastId = 0;
  private readonly marks = new Map<string, readonly Mark[]>();
  private bySection = new Map<SequenceSection, Mark[]>();
  private registers: readonly WatchedRegister[] = [];

  constructor(
    private course: Course,
    private readonly reader: Reader,
    private readonly logs: (text: string, mark: Told) => void,
  ) {}

  /** All marks of a file. */
  set(uri: string, wishes: readonly Wish[]): Told[] {
    const marks = wishes.map((wish) => this.marked({ id: ++this.lastId, wish }));
    this.marks.set(fileOf(uri), marks);
    this.gather();
    return marks.map((mark) => this.told(mark));
  }

  /** The run has become another: marks stay at their steps if those are still there. Returns all of them. */
  moveTo(course: Course): Told[] {
    const before = this.course;
    this.course = course;
    for (const marks of this.marks.values()) {
      for (const mark of marks) {
        const spot = mark.spot && sameSpot(mark.spot, before, course);
        this.marked(mark, spot);
      }
    }
    this.gather();
    this.registers = this.registers.map(({ id, register, place, condition }) => ({
      id,
      register,
      ...(place !== undefined && { place }),
      ...(condition && { condition }),
    }));
    return [...this.marks.values()].flat().map((mark) => this.told(mark));
  }

  get watchesRegisters(): boolean {
    return this.registers.some(({ problem }) => problem === undefined);
  }

  get isEmpty(): boolean {
    return this.bySection.size === 0;
  }

  /** The steps of a file at which a mark may lie, between two lines, as positions from 0. */
  placesIn(uri: string, from: number, to: number): { readonly line: number; readonly column: number }[] {
    return this.spotsIn(uri)
      .map((spot) => this.positionOf(spot))
      .filter(({ line }) => line >= from && line <= to);
  }

  // --- while going on -----------------------------------------------------------------------------------------------

  /** Which marks stop at a step that is come to; what only writes something writes it. */
  atStep(step: Step, stand: Stand, isForward: boolean): number[] {
    const { walk } = this.course;
    const frame = walk.framesAt(stand).at(-1);
    if (!frame || frame.isOpened || frame.section.kind !== 'sequence') return [];
    const marks = this.bySection.get(frame.section)?.filter((mark) => isAt(mark, step));
    if (!marks?.length || (!walk.isBeforeOthers(stand) && this.course.isByHand(walk.rowOf(stand)))) return [];
    const scene = this.course.sceneAt(stand, frame);
    return marks.flatMap((mark) => {
      if (mark.condition && !isSo(mark.condition, scene)) return [];
      if (mark.hits && !mark.hits.isAt(this.timesAt(mark, stand))) return [];
      if (!mark.log) return [mark.id];
      if (isForward) {
        const text = mark.log.map((part) =>
          typeof part === 'string' ? part : answerTo(part, scene, this.reader).text,
        );
        this.logs(text.join(''), this.told(mark));
      }
      return [];
    });
  }

  /** How often a mark was come to, its condition being so, from the start of the run up to a stand. */
  private timesAt(mark: Mark, stand: Stand): number {
    const { walk } = this.course;
    const counted = this.counted.get(mark) ?? { row: -1, stands: [] };
    this.counted.set(mark, counted);
    for (; counted.row < walk.rowOf(stand); ) {
      counted.row++;
      for (const other of walk.standsBefore(counted.row)) {
        const step = walk.stepAt(other);
        const frame = walk.framesAt(other).at(-1);
        if (!step || frame?.isOpened || frame?.section !== mark.spot?.section || !isAt(mark, step)) continue;
        if (!walk.isBeforeOthers(other) && this.course.isByHand(counted.row)) continue;
        if (!mark.condition || isSo(mark.condition, this.course.sceneAt(other, frame))) counted.stands.push(other);
      }
    }
    let [low, high] = [0, counted.stands.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (walk.compare(counted.stands[middle], stand) <= 0) low = middle + 1;
      else high = middle;
    }
    return low;
  }
  private counted = new Map<Mark, { row: number; readonly stands: Stand[] }>();

  /** Which registers that are waited for have changed. */
  changed(before: State, after: State): number[] {
    const { profile } = this.course.errand.order;
    return this.registers.flatMap(({ id, register, place, condition, problem }) => {
      if (problem !== undefined) return [];
      const shown = (state: State) =>
        place === undefined ? textOf(state, profile, register) : wheelAt(state, profile, register, place);
      if (shown(before) === shown(after)) return [];
      const values = this.course.valuesIn(undefined);
      return condition && !isSo(condition, { state: after, profile, values }) ? [] : [id];
    });
  }

  /** What a register mark is called. */
  nameOf(id: number): string | undefined {
    const found = this.registers.find((one) => one.id === id);
    if (!found) return undefined;
    const { words } = this.reader;
    const name = words.readings.registers[found.register];
    return found.place === undefined ? name : `${name}, ${words.stepping.variables.place(found.place)}`;
  }

  // --- registers ----------------------------------------------------------------------------------------------------

  setRegisters(wishes: readonly DebugProtocol.DataBreakpoint[]): DebugProtocol.Breakpoint[] {
    this.registers = wishes.map((wish) => this.watched(wish));
    return this.registers.map(({ id, problem }) => ({
      id,
      verified: problem === undefined,
      ...(problem !== undefined && { message: problem }),
    }));
  }

  private watched({ dataId, condition }: DebugProtocol.DataBreakpoint): WatchedRegister {
    const id = ++this.lastId;
    const { profile } = this.course.errand.order;
    const [name, at] = dataId.split(' ');
    const register = REGISTERS.find((one) => one === name && profile[one] > 0);
    const place = at === undefined ? undefined : Number(at);
    const { words } = this.reader;
    if (!register || (place !== undefined && !(place >= 1 && place <= profile[register]))) {
      return { id, register: 'result', problem: words.stepping.breakpoints.noRegister(dataId) };
    }
    const own = { id, register, ...(place !== undefined && { place }) };
    const read = condition ? this.condition(condition) : undefined;
    if (read === undefined) return own;
    return typeof read === 'string' ? { ...own, problem: read } : { ...own, condition: read };
  }

  // --- steps --------------------------------------------------------------------------------------------------------

  private marked(mark: Mark, spot = this.spotFor(mark.wish)): Mark {
    const { breakpoints, slip } = this.reader.words.stepping;
    const { wish } = mark;
    delete mark.problem;
    delete mark.condition;
    delete mark.hits;
    delete mark.log;
    delete mark.spot;
    this.counted.delete(mark);
    if (typeof spot === 'string') {
      mark.problem = spot;
      return mark;
    }
    mark.spot = spot;
    const names = this.parametersOf(spot.section);
    if (wish.condition?.trim()) {
      const read = readCondition(wish.condition, this.course.errand.order.profile, names);
      if (isSlip(read)) mark.problem = slip(read);
      else mark.condition = read;
    }
    if (wish.hits?.trim()) {
      const hits = readHitCount(wish.hits);
      if (hits) mark.hits = hits;
      else mark.problem ??= breakpoints.hits(wish.hits.trim());
    }
    if (wish.log !== undefined && wish.log !== '') {
      const log = this.logOf(wish.log, names);
      if (typeof log === 'string') mark.problem ??= log;
      else mark.log = log;
    }
    return mark;
  }

  private condition(text: string): Question | string {
    const { order } = this.course.errand;
    const read = readCondition(text, order.profile, order.values.keys());
    return isSlip(read) ? this.reader.words.stepping.slip(read) : read;
  }

  /** The parts of a text in which `{ }` stand around what is read off. */
  private logOf(text: string, names: readonly string[]): readonly (string | Question)[] | string {
    const { slip, breakpoints } = this.reader.words.stepping;
    const parts: (string | Question)[] = [];
    for (const [i, part] of text.split('{').entries()) {
      if (i === 0) {
        parts.push(part);
        continue;
      }
      const end = part.indexOf('}');
      if (end < 0) return breakpoints.brace;
      const read = readQuestion(part.slice(0, end), this.course.errand.order.profile, names);
      if (isSlip(read)) return slip(read);
      parts.push(read, part.slice(end + 1));
    }
    return parts;
  }

  private parametersOf(section: SequenceSection): string[] {
    return (section.header?.parameters ?? []).map(({ name }) => name.name);
  }

  /** The step that is nearest to a place: on its line or behind it in the sequence, else the last one before. */
  private spotFor({ uri, line, column }: Wish): Spot | string {
    const { breakpoints } = this.reader.words.stepping;
    const spots = this.spotsIn(uri);
    if (spots.length === 0) return breakpoints.notHere;
    const section = [...this.course.sections].find((one) => {
      const { uri: home, line: first } = this.course.placeOf(one);
      return fileOf(home) === fileOf(uri) && line >= first && line < first + one.lines.length;
    });
    const own = spots.filter((spot) => spot.section === section);
    if (own.length === 0) return breakpoints.noSequence;
    const isBehind = (spot: Spot) => {
      const at = this.positionOf(spot);
      return at.line > line || (at.line === line && spot.step.syntax.to >= (column ?? 0));
    };
    return own.find(isBehind) ?? own[own.length - 1];
  }

  /** The steps of a file that may be carried out, from its top. */
  private spotsIn(uri: string): Spot[] {
    const file = fileOf(uri);
    return [...this.course.sections]
      .filter((section) => fileOf(this.course.placeOf(section).uri) === file)
      .sort((a, b) => this.course.placeOf(a).line - this.course.placeOf(b).line)
      .flatMap((section) => [...allSteps(section.steps)].map((step) => ({ section, step })));
  }

  private positionOf({ section, step }: Spot): { readonly line: number; readonly column: number } {
    return { line: this.course.placeOf(section).line + step.line, column: step.syntax.from };
  }

  private told({ id, wish, spot, problem }: Mark): Told {
    const at = spot ? this.positionOf(spot) : { line: wish.line, column: wish.column ?? 0 };
    const never = spot && !problem && !this.isReached(spot);
    const message = problem ?? (never ? this.reader.words.stepping.breakpoints.neverReached : undefined);
    const uri = spot ? this.course.placeOf(spot.section).uri : wish.uri;
    return { id, verified: message === undefined, ...(message !== undefined && { message }), uri, ...at };
  }

  /** Whether the run comes to a step at all. */
  private isReached({ section, step }: Spot): boolean {
    this.reached ??= reachedIn(this.course);
    return this.reached.get(section)?.has(placeKey(step)) === true;
  }
  private reached: ReadonlyMap<unknown, ReadonlySet<number>> | undefined;

  private gather(): void {
    this.reached = undefined;
    this.bySection = new Map();
    this.counted = new Map();
    for (const mark of [...this.marks.values()].flat()) {
      if (!mark.spot || mark.problem) continue;
      const { section } = mark.spot;
      const known = this.bySection.get(section);
      if (known) known.push(mark);
      else this.bySection.set(section, [mark]);
    }
  }
}

const placeKey = (step: Step): number => writtenKey(writtenAs(step));
const isAt = ({ spot }: Mark, step: Step): boolean => spot !== undefined && placeKey(spot.step) === placeKey(step);

function reachedIn({ timeline, stepped }: Course): Map<unknown, Set<number>> {
  const { tape } = timeline.run;
  const reached = new Map<unknown, Set<number>>();
  const reach = (section: unknown, step: Step | undefined) => {
    if (!step) return;
    const known = reached.get(section);
    if (known) known.add(placeKey(step));
    else reached.set(section, new Set([placeKey(step)]));
  };
  const byHand = new Set(stepped.byHand.map(({ row }) => row));
  for (let row = 0; row < tape.length; row++) {
    const frame = tape.frameAt(row);
    if (!frame.isOpened && !byHand.has(row)) reach(frame.section, tape.stepAt(row));
  }
  for (const { parent, step } of tape.frames) if (parent) reach(parent.section, step);
  return reached;
}

/** The same step in a new run: by its text, the nearest to where it stood. */
function sameSpot({ section, step }: Spot, before: Course, now: Course): Spot | undefined {
  const name = section.header?.name.name;
  const { uri } = before.placeOf(section);
  const other = [...now.sections].find((one) => one.header?.name.name === name && now.placeOf(one).uri === uri);
  if (!other) return undefined;
  const text = print(step.syntax);
  const alike = [...allSteps(other.steps)].filter(({ syntax }) => print(syntax) === text);
  const far = (one: Step) => Math.abs(one.line - step.line);
  const [first, ...rest] = alike;
  if (!first) return undefined;
  return { section: other, step: rest.reduce((best, one) => (far(one) < far(best) ? one : best), first) };
}
