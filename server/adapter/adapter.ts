/**
 * The debug protocol: a client goes through a sequence.
 *
 * Invariant: requests are answered one after the other, in their order; only going on until something stops lets others
 * in. Whatever a client sends is answered, and a session that can't go on ends with a sentence.
 */
import { Event } from '@vscode/debugadapter/lib/messages.js';
import type { DebugProtocol } from '@vscode/debugprotocol';
import type { Gradual } from '../../grammar/gradual.js';
import { wordOf } from '../../grammar/tokens.js';
import { provingWording } from '../proving/wording/index.js';
import { CODES, SEVERITIES, type Severity } from '../sequence/findings.js';
import { argumentsOf } from '../sequence/substitute.js';
import type { Reader } from '../service/document.js';
import { onOneLine } from '../service/markdown.js';
import { type Clock, patiently } from '../service/patience.js';
import type { Workspace } from '../service/workspace.js';
import { isNotByHand, readSteps, stepFor } from '../stepping/by-hand.js';
import { isSlip, readQuestion } from '../stepping/conditions.js';
import type { SteppedRun } from '../stepping/stepped-run.js';
import { goOn, type Halt, type Progress, type Stop, type Watch } from '../stepping/stops.js';
import type { Timeline } from '../stepping/timeline.js';
import type { Stand, Walk } from '../stepping/walk.js';
import { abilities } from './abilities.js';
import { sourceOf, uriOfPath } from './addresses.js';
import { Breakpoints, type Told } from './breakpoints.js';
import { Conversation, type Handler, Refused } from './conversation.js';
import { type Course, courseOf, type Errand, errandFor, type Wanted } from './course.js';
import { Ending } from './ending.js';
import { framesTold, stackFrameOf } from './frames.js';
import { doByHand } from './hand.js';
import { type LaunchArguments, wantedFrom } from './launch.js';
import { breakpointLocations, breakpointOf, dataBreakpointInfo, setBreakpoints } from './mark-requests.js';
import { Positions } from './positions.js';
import { exceptionInfo, type Reason, reasonOf } from './reasons.js';
import { sameStand } from './resume.js';
import type { Sessions, SessionUnderWay } from './sessions.js';
import { Standstill } from './standstill.js';
import { answerTo } from './told.js';
import { entriesOf, scopesOf, wheelsReference } from './variables.js';

/** What a session stands on. */
export interface Ground {
  readonly workspace: Workspace;
  readonly clock: Clock;
  readonly sessions: Sessions;
  /** Who reads what is said: in the language of the client, or in another one where somebody wishes that. */
  reader(ofClient: string | undefined, wished?: string): Reader;
  /** Called with the address of what is to be gone through, before it is read. */
  entering?(uri: string): void;
  /** Called when it is there, and before somebody goes on, for files that nobody else watches. */
  lookAround?(): void;
}

/** How a file came to be another one. */
export type Change = 'edited' | 'closed';

const THREAD = 1;

export class StepAdapter extends Conversation implements SessionUnderWay {
  private reader: Reader;
  private positions = new Positions(1, 1);
  private wanted: Wanted | undefined;
  private course: Course | undefined;
  private still: Standstill | undefined;
  private breakpoints: Breakpoints | undefined;
  /** Marks that were asked for before there was anything to lay them on. */
  private levels: ReadonlySet<Severity> = new Set(['error']);
  private stopsOnEntry = true;
  private lastStop: Stop | undefined;
  private frameIds: readonly number[] = [];
  private isOver = false;
  /** What goes on until something stops, if anything does. */
  private going: object | undefined;
  /** How often somebody asked for a pause. */
  private pauses = 0;
  private hasToldOfText = false;
  private dueChange: Change | undefined;
  private interest = new Ending();

  constructor(
    readonly id: string,
    private readonly ground: Ground,
  ) {
    super();
    this.reader = ground.reader(undefined);
  }

  // --- as others see it ---------------------------------------------------------------------------------------------

  get uri(): string {
    return this.wanted?.uri ?? '';
  }
  get sequence(): string {
    return this.course?.name ?? '';
  }
  get stepped(): SteppedRun {
    return this.there.course.stepped;
  }
  get timeline(): Timeline {
    return this.there.course.timeline;
  }
  get stand(): Stand {
    return this.there.stand;
  }

  /** Files have changed of which it may be made. */
  filesChanged(change: Change): void {
    if (this.isOver || !this.course) return;
    const isDue = this.dueChange !== undefined;
    this.dueChange = this.dueChange === 'closed' ? 'closed' : change;
    if (isDue) return;
    this.inTurn(async () => {
      const due = this.dueChange ?? 'edited';
      this.dueChange = undefined;
      await this.renew(due);
    });
  }

  /** Whether a file, as the library calls it, has a part in it. */
  rests(on: ReadonlySet<string>): boolean {
    const { library } = this.ground.workspace;
    const file = this.course?.errand.document.file;
    return file !== undefined && library.reachable(file).some((other) => on.has(other));
  }

  /** Ends it, with a sentence why. */
  end(why?: string): void {
    if (this.isOver) return;
    this.isOver = true;
    this.interest.end();
    this.ground.sessions.remove(this);
    if (why) this.write(why, 'important');
    this.sendEvent(new Event('terminated'));
  }

  // --- requests -----------------------------------------------------------------------------------------------------

  /** Going on lets others in: one of them may end it. */
  protected override isComing(command: string): void {
    if (command === 'pause') this.pauses++;
    if (command === 'disconnect' || command === 'terminate') this.interest.end();
  }

  protected override unknown(command: string): string {
    return this.words.launch.unknown(command);
  }

  protected override readonly handlers: Readonly<Record<string, Handler>> = {
    initialize: (args: DebugProtocol.InitializeRequestArguments) => this.initialize(args),
    launch: (args: LaunchArguments) => this.launch(args),
    configurationDone: () => this.begin(),
    disconnect: () => this.disconnect(),
    terminate: () => this.disconnect(),
    threads: () => this.threads(),
    stackTrace: (args: DebugProtocol.StackTraceArguments) => this.stackTrace(args),
    scopes: ({ frameId }: DebugProtocol.ScopesArguments) => ({
      scopes: scopesOf(this.there, this.frameOf(frameId), this.reader),
    }),
    variables: (args: DebugProtocol.VariablesArguments) => this.variables(args),
    setVariable: (args: DebugProtocol.SetVariableArguments) => this.setVariable(args),
    evaluate: (args: DebugProtocol.EvaluateArguments) => this.evaluate(args),
    exceptionInfo: () => exceptionInfo(this.lastStop, this.reader),
    setBreakpoints: (args: DebugProtocol.SetBreakpointsArguments) => setBreakpoints(this.marks, args, this.positions),
    breakpointLocations: (args: DebugProtocol.BreakpointLocationsArguments) =>
      breakpointLocations(this.marks, args, this.positions),
    setExceptionBreakpoints: (args: DebugProtocol.SetExceptionBreakpointsArguments) => this.setLevels(args),
    dataBreakpointInfo: (args: DebugProtocol.DataBreakpointInfoArguments) =>
      dataBreakpointInfo(this.there, args, this.reader),
    setDataBreakpoints: ({ breakpoints }: DebugProtocol.SetDataBreakpointsArguments) => ({
      breakpoints: this.marks.setRegisters(breakpoints),
    }),
    setFunctionBreakpoints: () => ({ breakpoints: [] }),
    continue: () => {
      this.goFurther((walk, stand) => (walk.isEnd(stand) ? undefined : walk.end));
      return { allThreadsContinued: true };
    },
    next: ({ granularity }: DebugProtocol.NextArguments) =>
      this.goFurther((walk, stand) => (granularity === 'instruction' ? walk.into(stand) : walk.over(stand))),
    stepIn: () => this.goFurther((walk, stand) => walk.into(stand)),
    stepOut: () => this.goFurther((walk, stand) => walk.out(stand)),
    stepBack: ({ granularity }: DebugProtocol.StepBackArguments) => this.goBack(granularity === 'instruction'),
    reverseContinue: () => this.goFurther((walk) => walk.start),
    // Counted once more in its turn: what it is meant for may have come just before it, and not have begun yet.
    pause: () => void this.pauses++,
  };

  private get words() {
    return this.reader.words.stepping;
  }

  /** The session as it stands; nothing is there before it is launched, and after it has ended. */
  private get there(): Standstill {
    if (!this.still) throw new Refused(this.words.launch.notStarted);
    return this.still;
  }

  private get marks(): Breakpoints {
    if (!this.breakpoints) throw new Refused(this.words.launch.notStarted);
    return this.breakpoints;
  }

  // --- beginning and ending -----------------------------------------------------------------------------------------

  private initialize(args: DebugProtocol.InitializeRequestArguments): DebugProtocol.Capabilities {
    this.reader = this.ground.reader(args.locale);
    this.positions = new Positions(args.linesStartAt1 === false ? 0 : 1, args.columnsStartAt1 === false ? 0 : 1);
    return abilities(this.reader);
  }

  private async launch(args: LaunchArguments): Promise<undefined> {
    if (typeof args.language === 'string') this.reader = this.ground.reader(undefined, args.language);
    const uri = typeof args.program === 'string' ? uriOfPath(args.program) : undefined;
    if (uri === undefined) throw new Refused(this.words.launch.noProgram);
    this.wanted = wantedFrom(uri, args);
    this.stopsOnEntry = args.stopOnEntry !== false;
    this.ground.entering?.(uri);
    const errand = await this.errand();
    if (typeof errand === 'string') throw new Refused(errand);
    const course = await this.work(courseOf(errand));
    if (!course) throw new Refused(this.words.launch.notStarted);
    this.breakpoints = new Breakpoints(course, this.reader, (text, mark) => this.writeAt(text, mark));
    this.course = course;
    this.still = new Standstill(course, course.walk.start);
    this.ground.sessions.add(this);
    this.ground.lookAround?.();
    const { fault } = errand.order;
    this.afterwards(() => {
      if (fault)
        this.write(this.words.launch.withFault(provingWording(this.reader.locale).faultSentence(fault)), 'console');
      this.sendEvent(new Event('initialized'));
    });
    return undefined;
  }

  private async errand(): Promise<Errand | string> {
    const wanted = this.wanted as Wanted;
    const document = await this.ground.workspace.analysedFile(wanted.uri, this.interest);
    return errandFor(document, wanted, this.reader);
  }

  private begin(): undefined {
    const { walk } = this.there.course;
    if (!this.stopsOnEntry) return this.goFurther(() => walk.end, true);
    this.afterwards(() => this.stopped({ stand: walk.start }, { reason: 'entry', description: this.words.entry }));
    return undefined;
  }

  private disconnect(): undefined {
    this.afterwards(() => this.end());
    return undefined;
  }

  private threads(): object {
    const { order } = this.there.course.errand;
    return { threads: [{ id: THREAD, name: this.words.thread(this.sequence, order.profile.name) }] };
  }

  // --- going --------------------------------------------------------------------------------------------------------

  /** Goes to a stand, as far as nothing stops before; at the end of the sequence the session ends. */
  private goFurther(find: (walk: Walk, stand: Stand) => Stand | undefined, isFirst = false): undefined {
    this.ground.lookAround?.();
    const { pauses } = this;
    this.afterwards(() => this.inTurn(() => this.go(find, isFirst, () => this.pauses !== pauses)));
    return undefined;
  }

  private async go(
    find: (walk: Walk, stand: Stand) => Stand | undefined,
    isFirst: boolean,
    isPaused: () => boolean,
  ): Promise<void> {
    const { still } = this;
    if (!still || this.isOver || this.going) return;
    const { walk } = still.course;
    const to = find(walk, still.stand);
    if (!to) return this.end();
    this.moves();
    const progress: Progress = {};
    const work = goOn(walk, isFirst ? BEFORE_ALL : still.stand, to, this.watch(), progress);
    const going = {};
    this.going = going;
    // Others are let in meanwhile: one of them may be a pause, or bring another text.
    void this.guarded(async () => {
      const halt = await this.work(work, () => isPaused() || this.going !== going);
      if (this.isOver || this.going !== going) return;
      this.going = undefined;
      if (halt) this.stopped(halt, reasonOf(halt, still.course, this.marks, this.reader));
      else this.stopped({ stand: progress.at ?? still.stand }, { reason: 'pause' });
    });
  }

  private goBack(isFinest: boolean): undefined {
    this.ground.lookAround?.();
    this.afterwards(() => {
      const still = this.still;
      if (!still || this.going || this.isOver) return;
      const { walk } = still.course;
      this.moves();
      const to = (isFinest ? walk.outOf(still.stand) : walk.back(still.stand)) ?? walk.start;
      this.stopped({ stand: to }, reasonOf({ stand: to }, still.course, this.marks, this.reader));
    });
    return undefined;
  }

  private watch(): Watch {
    const { marks, levels } = this;
    const { happenings } = this.there.course;
    return {
      ...(!marks.isEmpty && { atStep: (...at) => marks.atStep(...at) }),
      ...(marks.watchesRegisters && { changed: (before, after) => marks.changed(before, after) }),
      noticed: happenings.filter(({ facts }) => levels.has(CODES[facts.code])),
    };
  }

  private stopped({ stand, stop }: Halt, reason: Reason): void {
    if (!this.course || this.isOver) return;
    this.still = new Standstill(this.course, stand);
    this.lastStop = stop;
    this.moves();
    const hit = stop?.marks.length ? { hitBreakpointIds: stop.marks } : {};
    this.sendEvent(new Event('stopped', { ...reason, threadId: THREAD, allThreadsStopped: true, ...hit }));
  }

  /** What was told of the stand before holds no longer. */
  private moves(): void {
    this.frameIds = [];
    this.ground.sessions.forgetFrames(this);
  }

  // --- looking ------------------------------------------------------------------------------------------------------

  private stackTrace({ startFrame = 0, levels = 0 }: DebugProtocol.StackTraceArguments): object {
    const { course, stand } = this.there;
    const told = framesTold(course, stand, this.reader);
    if (this.frameIds.length !== told.length) this.frameIds = this.ground.sessions.numberFrames(this, told.length);
    const stackFrames = told.map((frame, i) => stackFrameOf(frame, this.frameIds[i], this.positions));
    const to = levels > 0 ? startFrame + levels : undefined;
    return { stackFrames: stackFrames.slice(startFrame, to), totalFrames: stackFrames.length };
  }

  /** The place of a frame in the stack, counted from the innermost. */
  private frameOf(id: number | undefined): number {
    return Math.max(0, id === undefined ? 0 : this.frameIds.indexOf(id));
  }

  private variables({ variablesReference, start = 0, count = 0 }: DebugProtocol.VariablesArguments): object {
    const entries = entriesOf(this.there, variablesReference, this.reader);
    const to = count > 0 ? start + count : undefined;
    return { variables: entries.map(({ variable }) => variable).slice(start, to) };
  }

  private async evaluate({ expression, context, frameId }: DebugProtocol.EvaluateArguments): Promise<object> {
    const text = String(expression ?? '');
    const { profile, values } = this.there.scene(this.frameOf(frameId));
    const question = readQuestion(text, profile, values.keys());
    if (!isSlip(question)) {
      const answer = answerTo(question, this.there.scene(this.frameOf(frameId)), this.reader);
      if (!answer.hasValue) throw new Refused(answer.text);
      return { result: answer.text, variablesReference: answer.register ? wheelsReference(answer.register) : 0 };
    }
    if (context !== 'repl') throw new Refused(this.words.slip(question));
    const steps = readSteps(text);
    if (isNotByHand(steps)) {
      const beginsStep = wordOf(text.trim().split(/\s/)[0])?.kinds.includes('step');
      throw new Refused(beginsStep ? this.words.byHand.refused(steps) : this.words.slip(question));
    }
    return { result: (await this.byHand(steps)).join('\n'), variablesReference: 0 };
  }

  // --- by hand ------------------------------------------------------------------------------------------------------

  private async setVariable({ variablesReference, name, value }: DebugProtocol.SetVariableArguments): Promise<object> {
    const find = () =>
      entriesOf(this.there, variablesReference, this.reader).find(({ variable }) => variable.name === name);
    const entry = find();
    if (!entry?.part) throw new Refused(this.words.byHand.readOnly(onOneLine(name)));
    const { profile } = this.there.course.errand.order;
    // What is shown of a register has its reading behind the figures: somebody may have changed the figures alone.
    const wanted = String(value).split(' = ')[0];
    const steps = stepFor(entry.part, wanted, this.there.state, profile, entry.places);
    if (isNotByHand(steps)) throw new Refused(this.words.byHand.refused(steps));
    const said = await this.byHand(steps);
    this.write(said.join('\n'), 'console');
    const { value: shown = '', variablesReference: inner = 0 } = find()?.variable ?? {};
    return { value: shown, variablesReference: inner };
  }

  /** Does steps by hand, and returns what is to be said of it. */
  private async byHand(steps: Parameters<typeof doByHand>[2]): Promise<readonly string[]> {
    if (this.going) throw new Refused(this.words.byHand.going);
    const { course, stand } = this.there;
    const { values } = this.there.scene();
    for (const argument of steps.flatMap(argumentsOf)) {
      const isUnknown = argument.kind === 'name' && !values.has(argument.name);
      if (isUnknown) throw new Refused(this.words.slip({ is: 'unknown-name', name: argument.name }));
    }
    const outcome = await this.work(doByHand(course, stand, steps, this.reader));
    if (!outcome) throw new Refused(this.words.launch.notStarted);
    if ('refused' in outcome) throw new Refused(outcome.refused);
    this.course = outcome.course;
    this.still = new Standstill(outcome.course, outcome.stand);
    this.tellMarks(this.marks.moveTo(outcome.course));
    this.afterwards(() => this.sendEvent(new Event('invalidated', { areas: ['stacks', 'variables'] })));
    return outcome.said;
  }

  // --- marks --------------------------------------------------------------------------------------------------------

  private setLevels({ filters }: DebugProtocol.SetExceptionBreakpointsArguments): object {
    this.levels = new Set(SEVERITIES.filter((level) => filters.includes(level)));
    return { breakpoints: filters.map(() => ({ verified: true })) };
  }

  private tellMarks(told: readonly Told[]): void {
    for (const one of told) {
      this.sendEvent(new Event('breakpoint', { reason: 'changed', breakpoint: breakpointOf(one, this.positions) }));
    }
  }

  // --- another text -------------------------------------------------------------------------------------------------

  /** The text may be another one: the session goes on where it stood, or ends. */
  private async renew(change: Change): Promise<void> {
    const { course, still } = this;
    if (!course || !still || this.isOver) return;
    const document = await this.ground.workspace.analysedFile(course.errand.document.uri, this.interest);
    if (this.isOver) return;
    if (!document) return this.end(this.words.text.gone);
    const errand = errandFor(document, { ...(this.wanted as Wanted), sequence: course.name }, this.reader);
    if (typeof errand === 'string') return this.end(this.words.ends(errand));
    if (course.isOf(errand)) {
      course.place(document);
      return;
    }
    const readsLike = course.readsLike(errand);
    if (change === 'closed' && !readsLike) return this.end(this.words.text.closed);
    const kept = readsLike ? course.stepped.byHand : [];
    const next = await this.work(courseOf(errand, kept));
    if (!next || this.isOver) return;
    // Whoever was going on may have come further meanwhile.
    const { stand } = this.there;
    this.course = next;
    this.still = new Standstill(
      next,
      readsLike ? next.walk.near(stand.moment, stand.depth) : sameStand(course, stand, next),
    );
    this.tellMarks(this.marks.moveTo(next));
    if (!readsLike) {
      if (!this.hasToldOfText) this.write(this.words.text.goesOn, 'console');
      this.hasToldOfText = true;
      if (course.stepped.byHand.length > 0) this.write(this.words.text.handDropped, 'console');
    }
    // Whoever was going on has stopped: the run that it went through is no longer the one.
    if (this.going) {
      this.going = undefined;
      this.stopped({ stand: this.still.stand }, { reason: 'pause' });
      return;
    }
    // A client that fetched the frames as well would put the cursor there, away from where somebody writes.
    this.sendEvent(new Event('invalidated', { areas: ['variables'] }));
  }

  // --- small things -------------------------------------------------------------------------------------------------

  /** What comes of some work; nothing if the session has ended meanwhile. */
  private work<T>(work: Gradual<T>, isDropped: () => boolean = () => false): Promise<T | undefined> {
    return patiently(work, this.ground.clock, () => this.interest.isCancellationRequested || isDropped());
  }

  private writeAt(text: string, { uri, line, column }: Told): void {
    const at = { source: sourceOf(uri), ...this.positions.told(line, column) };
    this.sendEvent(new Event('output', { category: 'stdout', output: `${text}\n`, ...at }));
  }
}

/** Where one has not come to the first step yet. */
const BEFORE_ALL: Stand = { moment: -1, depth: 0 };
