/** The first steps: each has its picture as it would be drawn now, leads to commands that there are, and ticks itself off. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { firstSteps } from '../pictures/first-steps.js';

const client = fileURLToPath(new URL('../../client', import.meta.url));
const json = (file: string) => JSON.parse(readFileSync(`${client}/${file}`, 'utf8'));
interface Step {
  readonly id: string;
  readonly description: string;
  readonly media: { readonly svg: string; readonly altText: string };
  readonly completionEvents: readonly string[];
}
const { contributes } = json('package.json');
const [{ id, steps }]: { id: string; steps: Step[] }[] = contributes.walkthroughs;
const commands = [
  ...contributes.commands.map(({ command }: { command: string }) => command),
  // The editor's own.
  'workbench.actions.view.problems',
];
const linked = (text: string) => Array.from(text.matchAll(/\]\(command:([\w.]+)\)/g), ([, command]) => command);

describe.each(['package.nls.json', 'package.nls.de.json'])('the first steps of %s', (file) => {
  const texts: Record<string, string> = json(file);
  const text = (key: string) => texts[key.replaceAll('%', '')];

  it.each(steps.map((step) => [step.id, step] as const))('%s leads on, by a button of its own line', (_, step) => {
    const lines = text(step.description).split('\n');
    const buttons = lines.filter((line) => /^\[[^\]]+\]\(command:[\w.]+\)$/.test(line));
    expect(buttons.length).toBe(linked(text(step.description)).length);
    expect(buttons.length).toBeGreaterThan(0);
    for (const command of linked(text(step.description))) expect(commands).toContain(command);
  });

  it.each(steps.map((step) => [step.id, step] as const))('%s is done when somebody goes there', (_, step) => {
    const [first] = linked(text(step.description));
    expect(step.completionEvents).toContain(`onCommand:${first}`);
    for (const event of step.completionEvents) expect(commands).toContain(event.replace('onCommand:', ''));
  });

  it('have pictures that are told in words as well', () => {
    const pictures = steps.map(({ media }) => text(media.svg));
    const all = readdirSync(`${client}/walkthrough`).map((name) => `walkthrough/${name}`);
    for (const picture of pictures) expect(all).toContain(picture);
    expect(new Set(pictures).size).toBe(steps.length);
    for (const { media } of steps) expect(text(media.altText)).toMatch(/\w{3}/);
  });
});

it('are opened by their name', () => {
  expect(readFileSync(`${client}/activate.ts`, 'utf8')).toContain(`#${id}\``);
});

describe('the pictures', () => {
  const drawn = firstSteps();

  it('are those that are there, as the program draws them now', () => {
    expect([...drawn.keys()].sort()).toEqual(readdirSync(`${client}/walkthrough`).sort());
    for (const [name, svg] of drawn)
      expect(readFileSync(`${client}/walkthrough/${name}`, 'utf8'), `${name} is stale: npm run picture`).toBe(svg);
  });

  it('take every colour from the theme, and run nothing', () => {
    for (const [name, svg] of drawn) {
      const colours = Array.from(svg.matchAll(/ (?:fill|stroke|color)="([^"]+)"/g), ([, colour]) => colour);
      expect(colours.length).toBeGreaterThan(10);
      for (const colour of colours) expect(colour, name).toMatch(/^(?:var\(--vscode-|none$|currentColor$)/);
      expect(svg, name).not.toMatch(/<script|<style|href|style=/);
    }
  });
});
