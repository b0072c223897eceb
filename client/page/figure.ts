/**
 * The machine as it is drawn, with a button over each of its parts; and the short movement from one moment to the next.
 *
 * Invariant: a movement never keeps the next moment waiting. It belongs to the drawing, and goes with it.
 */
import type { MachineFigure, MachinePart } from '../protocol.js';
import { GROUPS, type Group, groupOf } from './groups.js';

/** Milliseconds that figures and carriage take to where they stand. */
const MOVEMENT = 180;

export class FigureView {
  private readonly drawing = document.createElement('div');
  private readonly groups = new Map<Group, HTMLElement>();
  private readonly buttons = new Map<string, HTMLButtonElement>();
  private shown: MachineFigure | undefined;

  /** @param chosen somebody wants to know of a part */
  constructor(
    private readonly frame: HTMLElement,
    chosen: (part: string) => void,
  ) {
    this.drawing.id = 'drawing';
    frame.append(this.drawing);
    for (const group of GROUPS) {
      const element = document.createElement('div');
      element.setAttribute('role', 'group');
      this.groups.set(group, element);
      this.drawing.append(element);
    }
    frame.addEventListener('click', ({ target }) => {
      const part = target instanceof HTMLElement ? target.dataset.part : undefined;
      if (part !== undefined) chosen(part);
    });
    frame.addEventListener('focusin', ({ target }) => {
      if (target instanceof HTMLButtonElement) this.stopAt(target);
    });
  }

  name(group: Group, text: string): void {
    this.groups.get(group)?.setAttribute('aria-label', text);
  }

  /** The part that has the focus goes on to the next higher (1) or lower (−1) place; says whether there is one. */
  goOn(way: 1 | -1): boolean {
    const now = document.activeElement;
    if (!(now instanceof HTMLButtonElement) || now.dataset.part === undefined) return false;
    const next = way > 0 ? now.nextElementSibling : now.previousElementSibling;
    if (next instanceof HTMLElement) next.focus();
    return true;
  }

  /** @param isNear it is the next moment, or that before, and nobody is in a hurry */
  show(figure: MachineFigure | undefined, isNear: boolean): void {
    const before = this.shown;
    this.shown = figure;
    this.frame.hidden = figure === undefined;
    const old = this.drawing.querySelector('svg');
    if (!figure) {
      old?.remove();
      return;
    }
    const drawn = parsed(figure.svg);
    if (old) old.replaceWith(drawn);
    else this.drawing.prepend(drawn);
    this.drawing.style.setProperty('--width', String(figure.width));
    this.cover(figure);
    if (isNear && before && old) this.move(old, drawn, before.carriageAt - figure.carriageAt);
  }

  /** A button over each part; those that are there stay, and with them the focus. */
  private cover({ parts, width, height }: MachineFigure): void {
    const gone = new Set(this.buttons.keys());
    const share = (value: number, of: number): string => `${(100 * value) / of}%`;
    for (const { part, label, box } of parts) {
      gone.delete(part);
      const button = this.buttons.get(part) ?? this.addButton(part, parts);
      if (button.getAttribute('aria-label') !== label) {
        button.setAttribute('aria-label', label);
        button.title = label;
      }
      const { style } = button;
      style.left = share(box.x, width);
      style.top = share(box.y, height);
      style.width = share(box.width, width);
      style.height = share(box.height, height);
    }
    for (const part of gone) {
      const button = this.buttons.get(part);
      this.buttons.delete(part);
      if (button === document.activeElement) this.neighbour(button)?.focus();
      button?.remove();
    }
    for (const group of this.groups.values()) this.keepStop(group);
  }

  private addButton(part: string, parts: readonly MachinePart[]): HTMLButtonElement {
    const button = document.createElement('button');
    button.type = 'button';
    button.dataset.part = part;
    button.tabIndex = -1;
    this.buttons.set(part, button);
    // In the order in which the parts are told.
    const own = groupOf(part);
    const behind = parts.slice(parts.findIndex((one) => one.part === part) + 1);
    const next = behind.find((one) => groupOf(one.part) === own && this.buttons.has(one.part));
    this.groups.get(own)?.insertBefore(button, (next && this.buttons.get(next.part)) ?? null);
    return button;
  }

  private neighbour(button: HTMLElement): HTMLElement | undefined {
    const next = button.previousElementSibling ?? button.nextElementSibling;
    return next instanceof HTMLElement ? next : undefined;
  }

  /** One button of each group can be reached with Tab. */
  private keepStop(group: HTMLElement): void {
    if (group.querySelector('button[tabindex="0"]')) return;
    group.querySelector('button')?.setAttribute('tabindex', '0');
  }

  private stopAt(button: HTMLButtonElement): void {
    for (const other of button.parentElement?.querySelectorAll('button') ?? []) other.tabIndex = -1;
    button.tabIndex = 0;
  }

  private move(old: Element, drawn: Element, carriage: number): void {
    if (wishesLessMotion()) return;
    if (carriage !== 0) slide(drawn.querySelector('[data-carriage]'), 'X', carriage);
    for (const now of drawn.querySelectorAll('[data-part]')) {
      const then = old.querySelector(`[data-part="${CSS.escape(now.getAttribute('data-part') ?? '')}"]`);
      if (!then) continue;
      roll(then.querySelector('[data-figure]'), now.querySelector('[data-figure]'));
      const knob = now.querySelector('[data-knob]');
      const [from, to] = [then.querySelector('[data-knob] rect'), knob?.querySelector('rect')].map((rect) =>
        Number(rect?.getAttribute('y')),
      );
      if (from !== to) slide(knob, 'Y', from - to);
    }
  }
}

/** The system or the editor itself is told so. */
const wishesLessMotion = (): boolean =>
  matchMedia('(prefers-reduced-motion: reduce)').matches || document.body.classList.contains('vscode-reduce-motion');

/** From so far away to where it stands. */
function slide(element: Element | null | undefined, axis: 'X' | 'Y', from: number): void {
  element?.animate([{ transform: `translate${axis}(${from}px)` }, { transform: 'none' }], {
    duration: MOVEMENT,
    easing: 'ease-out',
  });
}

/** The figure before goes out of the window and the present one comes in: upwards where it is the greater one. */
function roll(then: Element | null, now: Element | null): void {
  const [before, after] = [then, now].map((window) => window?.querySelector('text')?.textContent ?? '');
  if (!then || !now || before === after) return;
  const height = Number(now.getAttribute('height')) * (Number(after) > Number(before) ? 1 : -1);
  const leaving = then.firstElementChild?.cloneNode(true);
  slide(now.firstElementChild, 'Y', height);
  if (!(leaving instanceof Element)) return;
  now.append(leaving);
  const gone = leaving.animate([{ transform: 'none' }, { transform: `translateY(${-height}px)` }], {
    duration: MOVEMENT,
    easing: 'ease-out',
  });
  gone.addEventListener('finish', () => leaving.remove());
  gone.addEventListener('cancel', () => leaving.remove());
}

/** The drawing that the server has made; the window's policy keeps anything in it from being more than that. */
function parsed(svg: string): Element {
  const { documentElement } = new DOMParser().parseFromString(svg, 'image/svg+xml');
  return document.adoptNode(documentElement);
}
