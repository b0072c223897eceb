/**
 * The sessions that are under way, for whoever else shows the machine of one: a panel, values beside the text.
 *
 * Invariant: a session is known here from its first stand to its end, and its frames until it moves on.
 */
import type { SteppedRun } from '../stepping/stepped-run.js';
import type { Timeline } from '../stepping/timeline.js';
import type { Stand } from '../stepping/walk.js';

/** A session as others see it; it is the same object as long as the session lasts. */
export interface SessionUnderWay {
  /** As the client calls it. */
  readonly id: string;
  /** The document and the sequence that is gone through. */
  readonly uri: string;
  readonly sequence: string;
  /** With what was done by hand in it; another one as soon as something is, or the text changes. */
  readonly stepped: SteppedRun;
  readonly timeline: Timeline;
  /** Where it stands; its `moment` is one of the timeline's. */
  readonly stand: Stand;
}

export class Sessions {
  private readonly known = new Map<string, SessionUnderWay>();
  private readonly frames = new Map<number, SessionUnderWay>();
  private lastFrame = 0;

  of(id: string): SessionUnderWay | undefined {
    return this.known.get(id);
  }

  /** The session that a frame belongs to, by the number that the client has for it. */
  ofFrame(frame: number): SessionUnderWay | undefined {
    return this.frames.get(frame);
  }

  all(): readonly SessionUnderWay[] {
    return [...this.known.values()];
  }

  add(session: SessionUnderWay): void {
    this.known.set(session.id, session);
  }

  remove(session: SessionUnderWay): void {
    this.known.delete(session.id);
    this.forgetFrames(session);
  }

  /** Numbers for as many frames, which no other session has. */
  numberFrames(session: SessionUnderWay, count: number): number[] {
    return Array.from({ length: count }, () => {
      this.frames.set(++this.lastFrame, session);
      return this.lastFrame;
    });
  }

  forgetFrames(session: SessionUnderWay): void {
    for (const [frame, owner] of this.frames) if (owner === session) this.frames.delete(frame);
  }
}
