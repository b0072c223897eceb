/** How long somebody waits for something. */
import type { Interest } from '../service/patience.js';

/** Somebody who waits as long as the session lasts. */
export class Ending implements Interest {
  isCancellationRequested = false;
  private readonly listeners = new Set<() => void>();

  onCancellationRequested(listener: () => void): { dispose(): void } {
    this.listeners.add(listener);
    return { dispose: () => this.listeners.delete(listener) };
  }

  end(): void {
    this.isCancellationRequested = true;
    for (const listener of this.listeners) listener();
  }
}
