/** What is read out of its own accord: once somebody rests, and nothing twice. */

/** Milliseconds after the last of several things that come one after the other. */
const REST = 700;

export class Live {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private said = '';

  /** @param place a part of the page that is read out when its text changes */
  constructor(private readonly place: { textContent: string | null }) {}

  say(text: string): void {
    clearTimeout(this.timer);
    if (text === this.said) return;
    this.timer = setTimeout(() => {
      this.said = text;
      this.place.textContent = text;
    }, REST);
  }

  /** What is there already when somebody comes need not be told. */
  know(text: string): void {
    clearTimeout(this.timer);
    this.said = text;
  }
}
