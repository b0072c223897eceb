/**
 * The frame that shows a sheet as it is: its own page, its own style, no script.
 *
 * The frame's document can be reached from here, and runs nothing: it is shut in without leave to run scripts, and the
 * sheet's own policy forbids them too.
 */
import { inColours } from './sheet-colours.js';

export class SheetFrame {
  /** That of this very script: the editor puts others before it. */
  private readonly nonce = document.currentScript?.nonce ?? '';
  private key: string | undefined;
  /** Where the sheet stands; taken over until the first has been loaded. */
  private top: number;

  constructor(
    private readonly frame: HTMLIFrameElement,
    private readonly moved: () => void,
    top: number,
  ) {
    this.top = top;
    frame.addEventListener('load', () => this.loaded());
    // The editor tells of another theme by the classes of the body.
    new MutationObserver(() => this.colour()).observe(document.body, { attributeFilter: ['class'] });
  }

  get scroll(): number {
    return this.top;
  }

  /**
   * Shows a sheet in place of the one before; nothing where it is empty.
   *
   * @param key as long as it stays the same, the sheet stays where it was scrolled to
   */
  show(html: string, key: string): void {
    if (this.key !== undefined && key !== this.key) this.top = 0;
    this.frame.hidden = html === '';
    if (html === '') return;
    // The window's policy holds in the frame as well: its style sheet needs the nonce.
    const page = html.replace('<style>', `<style nonce="${this.nonce}">`);
    if (this.key === undefined) this.frame.srcdoc = page;
    else this.replace(page);
    this.key = key;
  }

  /** Puts another sheet into the page that is there, so that nothing flickers while somebody types. */
  private replace(page: string): void {
    const inner = this.frame.contentDocument;
    const before = inner?.querySelector('style');
    const next = new DOMParser().parseFromString(page, 'text/html');
    const style = next.querySelector('style');
    if (!inner || !before || !style) {
      this.frame.srcdoc = page;
      return;
    }
    inner.title = next.title;
    inner.documentElement.lang = next.documentElement.lang;
    before.replaceWith(style);
    inner.body.replaceWith(next.body);
    this.colour();
    this.frame.contentWindow?.scrollTo(0, this.top);
  }

  private loaded(): void {
    const inner = this.frame.contentWindow;
    if (!inner || this.key === undefined) return;
    this.colour();
    inner.scrollTo(0, this.top);
    inner.addEventListener('scroll', () => {
      this.top = inner.scrollY;
      this.moved();
    });
    // The frame itself is not told that something in it has the focus.
    inner.addEventListener('focus', () => this.frame.classList.add('focused'));
    inner.addEventListener('blur', () => this.frame.classList.remove('focused'));
    inner.addEventListener('keydown', pass);
    inner.addEventListener('keyup', pass);
  }

  private colour(): void {
    if (this.frame.contentDocument) inColours(this.frame.contentDocument);
  }
}

/** Keys that a frame sees are no concern of the editor around it, unless they are passed on; copying is the frame's own. */
function pass(event: KeyboardEvent): void {
  const isOwn = (event.ctrlKey || event.metaKey) && /^[acx]$/i.test(event.key);
  if (isOwn) return;
  const { type, key, code, keyCode, location, repeat, shiftKey, ctrlKey, altKey, metaKey } = event;
  const how = {
    key,
    code,
    keyCode,
    location,
    repeat,
    shiftKey,
    ctrlKey,
    altKey,
    metaKey,
    bubbles: true,
    cancelable: true,
  };
  if (!window.dispatchEvent(new KeyboardEvent(type, how))) event.preventDefault();
}
