/** Which moment of which run a panel shows, and what is to be asked for next. Knows no editor and asks nobody. */
import { count, followingFrom } from './kept.js';
import type { MachineState } from './machine-messages.js';
import { type Found, PanelTarget, type Subject, type Visited, type Whereabouts } from './panel-target.js';
import type { MachineParams, Move } from './protocol.js';

/** Moves that wait at the most, and how far one leads: whoever goes on faster than that is not followed. */
const MOST_WAITING = 100;
const FURTHEST = 10_000;

export class MachineTarget extends PanelTarget<MachineState> {
  /** Moves that nobody has asked for yet; and a moment that somebody has gone to, from which they lead. */
  private moves: Move[] = [];
  private goal: number | undefined;
  /** Something else than what is shown is wanted. */
  private isWanted = true;
  /** The debugger's session that is shown: while it lasts the cursor counts for nothing. */
  private shownSession: string | undefined;
  /** Where the session stands is what is wanted, and not a moment that somebody has gone to. */
  private isAtStand = false;

  get session(): string | undefined {
    return this.shownSession;
  }

  /** A session stands still, here or elsewhere than before. */
  step(session: string): void {
    this.shownSession = session;
    this.isAtStand = true;
    this.goal = undefined;
    this.moves = [];
    this.isWanted = true;
  }

  /** A session is over; says whether it was shown. */
  stepped(session: string): boolean {
    if (this.session !== session) return false;
    this.shownSession = undefined;
    this.isAtStand = false;
    this.isWanted = true;
    return true;
  }

  /** The cursor stands elsewhere. */
  follow(visited: Visited, line: number, character: number, shown: Found | undefined): Whereabouts {
    if (this.session !== undefined) return 'away';
    const where = this.visit(visited, { line, character }, shown);
    if (where === 'away') return where;
    this.moves = [];
    this.goal = undefined;
    // What was chosen of one sequence says nothing of another.
    if (where === 'other') this.forget();
    this.isWanted = true;
    return where;
  }

  private forget(): void {
    const { case: _, moment: __, ...rest } = this.now;
    this.now = rest;
  }

  override show(subject: Subject): void {
    super.show(subject);
    this.forget();
    this.moves = [];
    this.goal = undefined;
    this.isWanted = true;
  }

  /** A sequence by its name, from its start; the panel stays with it. */
  stayWith(sequence: string): void {
    this.hold(sequence);
    this.forget();
    this.goTo(0);
  }

  override hold(sequence: string | undefined): void {
    super.hold(sequence);
    this.leaveCursor();
  }

  private leaveCursor(): void {
    const { character: _, ...rest } = this.now;
    this.now = rest;
  }

  choose(number: number): void {
    this.now = { ...this.now, case: number };
    this.isWanted = true;
  }

  /** A moment by its number. */
  goTo(moment: number): void {
    this.leaveCursor();
    this.goal = moment;
    this.isAtStand = false;
    this.moves = [];
    this.isWanted = true;
  }

  /** From the moment that is shown; moves of one kind, one after the other, are one. */
  go({ by, count: times }: Move): void {
    const last = this.moves.at(-1);
    if (last?.by === by) this.moves[this.moves.length - 1] = { by, count: within(last.count + times) };
    else if (this.moves.length < MOST_WAITING) this.moves.push({ by, count: times });
    this.isWanted = true;
  }

  /** The same is to be asked for again, for it may be another by now. */
  again(): void {
    this.isWanted = true;
  }

  /** What is to be asked for, once; undefined where what is wanted is shown already. */
  next(shown: string | undefined): MachineParams | undefined {
    if (!this.isWanted) return undefined;
    this.isWanted = false;
    const { moves } = this;
    const { uri, sequence, line, character, case: number } = this.now;
    const moment = this.goal ?? this.now.moment;
    this.moves = [];
    this.goal = undefined;
    const { session, isAtStand } = this;
    if (session !== undefined) {
      if (moves.length > 0) this.isAtStand = false;
      const from = isAtStand && moves.length === 0 ? {} : { moment: moment ?? 0 };
      return { uri, stepping: session, ...from, ...(moves.length > 0 && { moves }) };
    }
    const isCursor = character !== undefined && sequence === undefined && moves.length === 0;
    const name = sequence ?? (isCursor ? undefined : shown);
    // Whoever goes on from a moment has left the cursor.
    if (moves.length > 0) this.leaveCursor();
    return {
      uri,
      ...(name !== undefined ? { sequence: name } : line !== undefined && { line }),
      ...(isCursor && { character }),
      ...(number !== undefined && { case: number }),
      ...(moment !== undefined && { moment }),
      ...(moves.length > 0 && { moves }),
    };
  }

  /** This moment is shown now; of a session, also the sequence that it goes through. */
  came(moment: number, of?: Subject): void {
    if (of) this.turnTo(of);
    this.now = { ...this.now, moment };
  }
}

const within = (count: number): number => Math.max(-FURTHEST, Math.min(FURTHEST, count));

/** The state of a panel; undefined where it can't be told of what it was. */
export function machineStateFrom(kept: unknown): MachineState | undefined {
  const following = followingFrom(kept);
  return following && { ...following, ...count(kept, 'character'), ...count(kept, 'case'), ...count(kept, 'moment') };
}
