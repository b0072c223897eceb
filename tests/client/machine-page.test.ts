/** Parts of the page that shows the machine, where no browser is needed to try them. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { groupOf } from '../../client/page/groups.js';
import { Live } from '../../client/page/live.js';
import { deedOf, type Pressed } from '../../client/page/machine-keys.js';

const key = (name: string, held: Partial<Pressed> = {}) =>
  deedOf({ key: name, shiftKey: false, ctrlKey: false, altKey: false, metaKey: false, ...held });

describe('keys', () => {
  it('go by steps, turns and lines, to the start and the end', () => {
    expect([key('ArrowRight'), key('ArrowLeft')]).toEqual([
      { by: 'step', count: 1 },
      { by: 'step', count: -1 },
    ]);
    expect(key('ArrowRight', { shiftKey: true })).toEqual({ by: 'turn', count: 1 });
    expect(key('ArrowLeft', { shiftKey: true })).toEqual({ by: 'turn', count: -1 });
    expect(['PageDown', 'PageUp'].map((name) => key(name))).toEqual([
      { by: 'line', count: 1 },
      { by: 'line', count: -1 },
    ]);
    expect(['Home', 'End', 'ArrowUp', 'ArrowDown'].map((name) => key(name))).toEqual(['start', 'end', 'up', 'down']);
  });

  it('are left to the editor where another one is held, and where they mean nothing here', () => {
    for (const held of [{ ctrlKey: true }, { altKey: true }, { metaKey: true }]) {
      expect(key('ArrowRight', held)).toBeUndefined();
      expect(key('Home', held)).toBeUndefined();
    }
    for (const name of ['a', 'Enter', ' ', 'Tab', 'Escape', 'F1']) expect(key(name)).toBeUndefined();
    expect(key('Home', { shiftKey: true })).toBeUndefined();
  });
});

it('parts are grouped by registers, and all else together', () => {
  expect(['setting-1', 'result-13', 'counter-8'].map(groupOf)).toEqual(['setting', 'result', 'counter']);
  const others = ['marker-result', 'carriage', 'drive', 'auto-clear', 'bell', 'result', 'x-1', ''];
  expect(others.map(groupOf)).toEqual(others.map(() => 'rest'));
});

describe('what is read out', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('is the last of several things, once somebody rests, and nothing twice', () => {
    const place = { textContent: '' };
    const live = new Live(place);
    for (const text of ['result 12', 'result 24', 'result 36']) live.say(text);
    expect(place.textContent).toBe('');
    vi.runAllTimers();
    expect(place.textContent).toBe('result 36');
    place.textContent = '';
    live.say('result 36');
    vi.runAllTimers();
    expect(place.textContent).toBe('');
  });

  it('is not what was there at the beginning', () => {
    const place = { textContent: '' };
    const live = new Live(place);
    live.say('result 12');
    live.know('result 12');
    vi.runAllTimers();
    expect(place.textContent).toBe('');
    live.say('result 12');
    vi.runAllTimers();
    expect(place.textContent).toBe('');
  });
});
