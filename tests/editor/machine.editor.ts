/** The machine beside the text, in VS Code itself, followed, stepped through and asked: beside a process, and in a web worker. */
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { type Editor, isInstalled, startEditor } from './editor.js';
import { chooseTheme, flawsIn, lineIn, pageIn, THEMES } from './panel.js';

const DIST = fileURLToPath(new URL('../../dist', import.meta.url));
const POTS = `use "machines.crank"

sequence pots "Pots on the benches" (rows = 12, pots = 34) on pinwheel-9
  case rows = 15, pots = 28
  clear all
  points setting 1 result 1
  set rows
  repeat 2 {
    turn 3
    shift right
  }
  multiply by 21
  expect result 3050
  turn back 2

sequence trays "Trays in the shed" on pinwheel-9
  clear all
  set 48
  turn 6
  expect result 288
`;

const ROWS = 250;
/** 1,000 steps, a line each. */
const LONG = `use "machines.crank"

sequence shelves on pinwheel-9
${Array.from({ length: ROWS }, (_, i) => `  set ${i + 1}\n  turn\n  shift right\n  shift left\n`).join('')}`;

/** However long a busy machine takes. */
const until = (holds: () => Promise<void>) => vi.waitFor(holds, { timeout: 40_000, interval: 100 });

describe.skipIf(!isInstalled).each([
  ['a process', 'cranknote.vsix'],
  ['a web worker', 'cranknote-web.vsix'],
])('with the server in %s', (_, vsix) => {
  let editor: Editor;
  const said: string[] = [];
  const name = `machine-${vsix.replace('.vsix', '')}`;
  beforeAll(async () => {
    editor = await startEditor(`${DIST}/${vsix}`, { 'pots.crank': POTS, 'long.crank': LONG });
    editor.page.on('console', (message) => said.push(message.text()));
    await editor.openFile('pots.crank');
  }, 180_000);
  afterAll(() => editor?.close());
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await editor?.picture(`${name}-failed-${task.name.replaceAll(' ', '-')}`);
  });
  const line = (text: string) => lineIn(editor, text);
  const control = (selector: string) => pageIn(editor).locator(selector);
  const where = (text: string) => control('#where').filter({ hasText: text }).waitFor();
  const button = (part: string) => control(`#drawing button[data-part="${part}"]`);
  const at = (text: string) => editor.page.locator('.statusbar-item', { hasText: text }).first().waitFor();
  /** The keys of the page go to the slider. */
  const press = async (key: string) => {
    await control('#moment').focus();
    await editor.page.keyboard.press(key);
  };

  it('opens beside the text, at the step of the cursor', async () => {
    await line('turn 3').click();
    await editor.run('Cranknote: Show the Machine Beside the Text');
    await where('Step 6 of 12 · round 2 of 2 · turn 3 of 3');
    expect(await control('#place').textContent()).toBe('turn 3');
    expect(await control('#sentence').textContent()).toBe('Turn the crank 3 times.');
    expect(await button('result-2').getAttribute('aria-label')).toBe('Result, place 2: 9');
    await editor.picture(`${name}-opened`);
  });

  it('follows the cursor, and what is written', async () => {
    await line('set 48').click();
    await where('Step 2 of 4');
    await line('turn 6').click();
    await where('turn 6 of 6');
    await editor.page.keyboard.press('End');
    await editor.page.keyboard.press('Backspace');
    await editor.page.keyboard.type('5');
    await where('turn 5 of 5');
    await editor.page.keyboard.press('Backspace');
    await editor.page.keyboard.type('6');
    await where('turn 6 of 6');
    await line('sequence trays').click();
    await where('Before the first step');
  });

  it('is gone through with keys: steps, turns, lines, start and end', async () => {
    await line('shift right').click();
    await where('Step 7 of 12 · round 2 of 2');
    await press('ArrowLeft');
    await where('Step 6 of 12 · round 2 of 2 · turn 3 of 3');
    await press('Shift+ArrowLeft');
    await where('turn 2 of 3');
    await press('ArrowLeft');
    await where('Step 5 of 12 · round 1 of 2');
    await press('PageDown');
    await where('Step 6 of 12 · round 2 of 2 · turn 3 of 3');
    await press('Home');
    await where('Before the first step');
    await press('End');
    await where('Step 12 of 12');
    // The line of the step is marked in the text, for the cursor stands elsewhere.
    await press('PageUp');
    await where('Step 11 of 12');
    await editor.picture(`${name}-stepped`);
  });

  it('stays in the round that somebody has gone to', async () => {
    await press('Home');
    for (let i = 0; i < 4; i++) await press('ArrowRight');
    await where('Step 4 of 12 · round 1 of 2');
    await line('shift right').click();
    await where('Step 5 of 12 · round 1 of 2');
  });

  it('has buttons and a slider for the same', async () => {
    await control('#start').click();
    await where('Before the first step');
    await control('#step').click();
    await where('Step 1 of 12');
    for (let i = 0; i < 3; i++) await control('#step').click();
    await where('Step 4 of 12 · round 1 of 2 · turn 3 of 3');
    await control('#turnBack').click();
    await where('turn 2 of 3');
    await control('#turn').click();
    await where('turn 3 of 3');
    await control('#stepBack').click();
    await where('Step 3 of 12');
    await control('#moment').fill('5');
    await where('Step 4 of 12 · round 1 of 2 · turn 2 of 3');
    await control('#end').click();
    await where('Step 12 of 12');
    await until(async () => expect(await control('#step').getAttribute('aria-disabled')).toBe('true'));
  });

  it('marks what is about to go wrong, before it does', async () => {
    await line('multiply by 21').click();
    await control('#remarks').filter({ hasText: 'With the next step: The result reads' }).waitFor();
    await control('#remarks').filter({ hasText: 'Hatched: result' }).waitFor();
    expect(await control('[data-heeded]').count()).toBeGreaterThan(0);
    await editor.picture(`${name}-about-to-go-wrong`);
    await line('expect result 3050').click();
    await control('#remarks').filter({ hasText: 'Now: The result reads' }).waitFor();
  });

  it('leads from a wheel, the carriage and the step to the text', async () => {
    await control('#end').click();
    await where('Step 12 of 12');
    await button('setting-2').click();
    await at('Ln 7');
    await where('Step 3 of 12');
    await control('#end').click();
    await where('Step 12 of 12');
    await button('carriage').click();
    await at('Ln 12');
    await control('#end').click();
    await where('Step 12 of 12');
    await control('#place').click();
    await at('Ln 14');
    // A wheel that nothing has moved leads to the machine.
    await button('result-13').click();
    await editor.page.locator('.tab.active[data-resource-name="machines.crank"]').waitFor();
    await editor.run('View: Close Editor');
    await where('Step 12 of 12');
  });

  it('is used with keys alone', async () => {
    const { page } = editor;
    await line('multiply by 21').click();
    await where('in multiply by 21');
    await control('#sequence').focus();
    const way: string[] = [];
    for (let i = 0; i < 14; i++) {
      way.push(
        String(await control('body').evaluate('document.activeElement.id || document.activeElement.dataset.part')),
      );
      await page.keyboard.press('Tab');
    }
    expect(way).toEqual([
      ...['sequence', 'case', 'follow', 'moment', 'start', 'stepBack', 'turnBack', 'turn', 'step', 'end', 'place'],
      // Of each register the part that was asked for last.
      ...['setting-2', 'result-13', 'counter-1'],
    ]);
    await button('result-1').focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowUp');
    const focused = () => control('body').evaluate('document.activeElement.dataset.part');
    expect(await focused()).toBe('result-4');
    await page.keyboard.press('ArrowDown');
    expect(await focused()).toBe('result-3');
    await editor.picture(`${name}-focus`);
    // The step changes below it, and the focus stays.
    await page.keyboard.press('ArrowLeft');
    await where('Step 9 of 12');
    expect(await focused()).toBe('result-3');
    await page.keyboard.press('Enter');
    await at('Ln 12');
  });

  it('tells what has changed once somebody rests', async () => {
    await line('set rows').click();
    await where('Step 3 of 12');
    await press('ArrowRight');
    await control('#live').filter({ hasText: 'result' }).waitFor({ state: 'attached' });
    expect(await control('#live').getAttribute('role')).toBe('status');
    expect(await control('#moment').getAttribute('aria-valuetext')).toBe(
      'Step 4 of 12 · round 1 of 2 · turn 3 of 3: turn 3',
    );
  });

  it('shows the case that is chosen, there and beside the text', async () => {
    await control('#case').selectOption('1');
    await editor.page.locator('.codelens-decoration', { hasText: 'case 1: rows = 15, pots = 28 (shown)' }).waitFor();
    await control('#end').click();
    await button('setting-1').and(control('[aria-label="Lever 1: 5"]')).waitFor({ state: 'attached' });
    await editor.page.locator('.codelens-decoration a[role=button]', { hasText: 'defaults' }).click();
    await button('setting-1').and(control('[aria-label="Lever 1: 2"]')).waitFor({ state: 'attached' });
    expect(await control('#case').inputValue()).toBe('0');
  });

  it('moves for a short while from one step to the next, and not where less motion is wished', async () => {
    const moving = () =>
      control('body').evaluate<number, void>(
        'document.getAnimations().filter((a) => a.effect.getTiming().duration > 0).length',
      );
    const most = async () => {
      await line('turn 3').click();
      await where('Step 6 of 12');
      await editor.page.waitForTimeout(400);
      const seen = control('body').evaluate<number, void>(`new Promise((done) => {
        let most = 0;
        const end = performance.now() + 1500;
        const look = () => {
          most = Math.max(most, document.getAnimations().length);
          if (performance.now() < end) requestAnimationFrame(look); else done(most);
        };
        look();
      })`);
      await press('ArrowRight');
      return seen;
    };
    expect(await most()).toBeGreaterThan(0);
    expect(await moving()).toBe(0);
    await editor.page.emulateMedia({ reducedMotion: 'reduce' });
    expect(await most()).toBe(0);
    await editor.page.emulateMedia({ reducedMotion: 'no-preference' });
  });

  it('says what it leaves out where the text is wrong, and leads there', async () => {
    await line('turn back 2').click();
    await editor.page.keyboard.press('End');
    await editor.page.keyboard.type('; trun');
    await control('#trouble').filter({ hasText: 'The machine is shown as if this were not there.' }).waitFor();
    expect(await flawsIn(editor)).toEqual([]);
    await editor.picture(`${name}-trouble`);
    await control('#trouble button').filter({ hasText: 'Line 14' }).click();
    await at('Ln 14');
    await line('turn back 2').click();
    await editor.page.keyboard.press('End');
    for (let i = 0; i < 6; i++) await editor.page.keyboard.press('Backspace');
    await until(async () => expect(await control('#trouble').isVisible()).toBe(false));
  });

  it('can be used in every theme', async () => {
    await line('multiply by 21').click();
    await control('#remarks').filter({ hasText: 'With the next step' }).waitFor();
    for (const theme of THEMES) {
      await chooseTheme(editor, theme);
      expect(await flawsIn(editor), theme).toEqual([]);
      await editor.picture(`${name}-${theme.replaceAll(' ', '-').toLowerCase()}`);
    }
  });

  it('can be used at twice the size, and where there is little room', async () => {
    const { page } = editor;
    await page.setViewportSize({ width: 700, height: 450 });
    expect(await flawsIn(editor)).toEqual([]);
    await editor.picture(`${name}-twice-the-size`);
    // Nothing but the drawing itself is wider than the page.
    const body = control('body');
    expect(await body.evaluate('document.documentElement.scrollWidth <= innerWidth')).toBe(true);
    expect(
      await body.evaluate('document.querySelector("main").scrollWidth <= document.querySelector("main").clientWidth'),
    ).toBe(true);
    await control('#effort').scrollIntoViewIfNeeded();
    await editor.picture(`${name}-twice-the-size-below`);
    await page.setViewportSize({ width: 1400, height: 900 });
  });

  it('is there again after the window was loaded anew', async () => {
    await control('#follow').uncheck();
    await press('Home');
    for (let i = 0; i < 4; i++) await press('ArrowRight');
    await where('Step 4 of 12 · round 1 of 2');
    await Promise.all([editor.page.waitForEvent('load'), editor.run('Developer: Reload Window')]);
    // The window and all that is in it begin anew.
    await control('#where')
      .filter({ hasText: 'Step 4 of 12 · round 1 of 2 · turn 3 of 3' })
      .waitFor({ timeout: 120_000 });
    expect(await control('#follow').isChecked()).toBe(false);
    await control('#follow').check();
  }, 180_000);

  it('opens from the line above a sequence, and holds what it is told to', async () => {
    const lens = editor.page.locator('.codelens-decoration a[role=button]', { hasText: 'machine' }).last();
    // While these lines are still brought up anew, a click may go to another of them.
    await until(async () => {
      await lens.click({ timeout: 2_000 });
      await vi.waitFor(async () => expect(await control('#sequence').inputValue()).toBe('trays'), 4_000);
    });
    await control('#sequence').selectOption('pots');
    await until(async () => expect(await control('#follow').isChecked()).toBe(false));
    await where('Before the first step');
    await control('#follow').check();
  });

  it('keeps up with a cursor that is held down through a thousand steps', async () => {
    const { page } = editor;
    // In the group of the texts, beside the panel.
    await line('clear all').click();
    await editor.openFile('long.crank');
    await line('sequence shelves').click();
    await where('Before the first step');
    await control('body').evaluate(`(() => {
      const seen = { times: [], work: [] };
      window.seen = seen;
      addEventListener('message', (event) => {
        if (event.data.is !== 'view') return;
        seen.times.push(performance.now());
        seen.work.push(performance.now() - event.timeStamp);
      });
    })()`);
    await line('sequence shelves').click();
    const begun = Date.now();
    const moves = 4 * ROWS;
    for (let i = 0; i < moves; i++) {
      await page.keyboard.down('ArrowDown');
      // As fast as a keyboard goes on by itself.
      await page.waitForTimeout(Math.max(0, begun + 33 * (i + 1) - Date.now()));
    }
    await page.keyboard.up('ArrowDown');
    const held = Date.now() - begun;
    await where(`Step ${moves} of ${moves}`);
    const lag = Date.now() - begun - held;
    const { times, work } = await control('body').evaluate<{ times: number[]; work: number[] }, void>('window.seen');
    const between = times.slice(1).map((time, i) => time - times[i]);
    const share = (all: number[], part: number) =>
      Math.round([...all].sort((a, b) => a - b)[Math.floor(all.length * part)]);
    console.log(
      `${name}: ${moves} cursor moves in ${held} ms, ${times.length} frames; ` +
        `${share(between, 0.5)} ms from frame to frame (95 %: ${share(between, 0.95)}), ` +
        `${share(work, 0.5)} ms to draw one (95 %: ${share(work, 0.95)}); the last is there ${lag} ms after the key is let go`,
    );
    expect(times.length).toBeGreaterThan(10);
    // One more for the click at its start.
    expect(times.length).toBeLessThanOrEqual(moves + 1);
  }, 400_000);

  it('is where the cursor has gone to while nobody saw it', async () => {
    await editor.page.locator('.tab', { hasText: ': machine' }).click();
    // Another text over it, in its own group.
    await editor.openFile('machines.crank');
    await editor.page.locator('.tab', { hasText: 'pots.crank' }).click();
    await line('set 48').click();
    await editor.page.locator('.tab', { hasText: 'machines.crank' }).click();
    await editor.run('View: Close Editor');
    await where('Step 2 of 4');
    expect(await control('#sequence').inputValue()).toBe('trays');
    expect(said.filter((text) => /Content Security Policy/.test(text) && /page\.(js|css)/.test(text))).toEqual([]);
  });
});
