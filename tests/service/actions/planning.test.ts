/** Steps that are worked out for a goal, and sequences that are carried over to another machine. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { CodeAction } from 'vscode-languageserver';
import { type ActionContext, codeActions, resolveAction } from '../../../server/service/actions.js';
import { machine } from '../../sequence/machines.js';
import { type Opened, openMarked, reader, unmark } from '../editor.js';
import { edited } from './acting.js';

const MACHINES = readFileSync(new URL('../../../samples/machines.crank', import.meta.url), 'utf8');
const OTHERS = { 'machines.crank': MACHINES };
const USE = 'use "machines.crank"\n';

interface Asking extends ActionContext {
  readonly locale?: string;
}

function actionsOf(opened: Opened, { locale = 'en', ...context }: Asking = {}): CodeAction[] {
  const range = opened.ranges[0] ?? { start: opened.cursor, end: opened.cursor };
  return codeActions(opened.document, range, { only: ['refactor'], ...context }, reader({ locale }));
}

const titles = (text: string, asking?: Asking): string[] =>
  actionsOf(openMarked(text, OTHERS), asking).map(({ title }) => title);

/** The action at the mark whose title begins so. */
function actionAt(opened: Opened, title: string, asking?: Asking): CodeAction {
  const actions = actionsOf(opened, asking);
  const found = actions.find((action) => action.title.startsWith(title));
  if (!found)
    throw new Error(`${title} is not offered, but ${actions.map((one) => one.title).join(', ') || 'nothing'}`);
  return found;
}

/** The text after the action, in which nothing at all may be found. */
function becomes(before: string, title: string, asking: Asking = {}, name = 'test.crank', others = OTHERS): string {
  const opened = openMarked(before, others, name);
  const action = actionAt(opened, title, asking);
  expect(action.disabled).toBeUndefined();
  expect(action.edit, 'is worked out later').toBeUndefined();
  const { edit } = resolveAction(opened.document, action, reader({ locale: asking.locale ?? 'en' }));
  const after = edited(opened.text, edit?.changes?.[opened.document.uri] ?? []);
  const { report } = openMarked(after, others, name).document;
  const found = report.findings.filter(({ facts }) => facts.code !== 'unused');
  expect(
    found.map(({ facts }) => facts),
    after,
  ).toEqual([]);
  return after;
}

const refusal = (text: string, title: string, asking?: Asking): string | undefined =>
  actionAt(openMarked(text, OTHERS), title, asking).disabled?.reason;

const WRITE = 'Write the steps for this goal';
const REPLACE = 'Replace the steps by planned ones';
const GLASS = `${USE}
sequence glass "Glass for one frame" on pinwheel-9
  goal result = 24 * 98
`;
const GLASS_STEPS = `  clear all
  set 98
  turn 4
  shift right
  turn 2
  expect result 2352
`;

describe('writing the steps', () => {
  test('below the goal, a blank line between', () => {
    const marked = GLASS.replace('24', '‸24');
    expect(becomes(marked, WRITE)).toBe(`${GLASS}\n${GLASS_STEPS}`);
    expect(becomes(`${marked}\nsequence next on desk-8\n  clear all\n`, WRITE)).toBe(
      `${GLASS}\n${GLASS_STEPS}\nsequence next on desk-8\n  clear all\n`,
    );
  });
  test('says what they cost, where a list was asked for', () => {
    expect(titles(GLASS.replace('24', '‸24'))).toEqual([`${WRITE} (effort 7)`]);
    expect(titles(GLASS.replace('24', '‸24'), { locale: 'de' })).toEqual([
      'Die Schritte zu diesem Ziel schreiben (Aufwand 7)',
    ]);
  });
  test('from the header too, if there is one goal', () => {
    expect(becomes(GLASS.replace('glass "', 'gl‸ass "'), WRITE)).toBe(`${GLASS}\n${GLASS_STEPS}`);
    const two = `${GLASS.replace('glass "', 'gl‸ass "')}  goal counter = 24\n`;
    expect(titles(two).filter((title) => title.startsWith('Write'))).toEqual([]);
  });
  test('below the cases, right for each of them', () => {
    const after = becomes(
      `${USE}sequence panes (width = 3.2, height = 1.75) on pinwheel-9
  goal result = width‸ * height
  case width = 4.8, height = 2.25
`,
      WRITE,
    );
    expect(after).toContain('height = 2.25\n\n  clear all\n');
    expect(after).toMatch(/set (?:width|height)\n/);
    const [sequence] = openMarked(after, OTHERS).document.report.sequences;
    expect(sequence.runs.map(({ goals }) => goals[0]?.met)).toEqual(['exact', 'exact']);
    expect(sequence.runs.map(({ goals }) => goals[0]?.reading)).toEqual(['5.600', '10.800']);
  });
  test('with the notes in the reader’s language', () => {
    const quotient = `${USE}sequence pots on pinwheel-9\n  goal counter‸ = 912 / 38\n`;
    expect(becomes(quotient, WRITE)).toContain('note "Build up 912 in the result');
    const german = becomes(quotient, 'Die Schritte', { locale: 'de' });
    expect(german).toContain('note "');
    expect(german).not.toContain('Build up');
  });
  test('in the fences of a page, and in a quotation', () => {
    const page = `# Glass\n\n\`\`\`crank\n${GLASS.replace('24', '‸24')}\`\`\`\n\nText.\n`;
    expect(becomes(page, WRITE, {}, 'page.md')).toBe(
      `# Glass\n\n\`\`\`crank\n${GLASS}\n${GLASS_STEPS}\`\`\`\n\nText.\n`,
    );
    const quoted = (text: string) => text.replace(/^(?=.)/gm, '> ').replace(/^$(?=\n)/gm, '>');
    const inQuote = (text: string) => quoted(`\`\`\`crank\n${text}\`\`\`\n`);
    expect(becomes(inQuote(GLASS.replace('24', '‸24')), WRITE, {}, 'page.md')).toBe(
      inQuote(`${GLASS}\n${GLASS_STEPS}`),
    );
  });
  test('not where there is no goal that is cranked, or no machine', () => {
    expect(titles(`${USE}sequence pots on pinwheel-9\n  goal setting = ‸24 * 98\n`)).toEqual([]);
    expect(titles(GLASS.replace('pinwheel-9', 'no-such').replace('24', '‸24'))).toEqual([]);
    expect(titles(`${USE}sequence‸ pots on pinwheel-9\n`)).toEqual([]);
  });
  test('what stands in the way is told', () => {
    const long = GLASS.replace('24 * 98', '‸123456789 * 987654321').replace('pinwheel-9', 'desk-8');
    expect(refusal(long, WRITE)).toMatch(/12 places/);
    expect(refusal(long, 'Die Schritte', { locale: 'de' })).toMatch(/12 Stellen/);
    expect(refusal(GLASS.replace('result = 24 * 98', 'counter = ‸7').replace('pinwheel-9', 'adder-9'), WRITE)).toBe(
      'The machine has no counter.',
    );
  });
  test('an editor that asks by itself is not kept waiting, and is told later', () => {
    const opened = openMarked(
      GLASS.replace('24 * 98', '‸123456789 * 987654321').replace('pinwheel-9', 'desk-8'),
      OTHERS,
    );
    const action = actionAt(opened, WRITE, { isAutomatic: true });
    expect(action.disabled).toBeUndefined();
    const resolved = resolveAction(opened.document, action, reader());
    expect(resolved.edit).toBeUndefined();
    expect(resolved.disabled?.reason).toMatch(/12 places/);
    expect(becomes(GLASS.replace('24', '‸24'), WRITE, { isAutomatic: true })).toBe(`${GLASS}\n${GLASS_STEPS}`);
  });
});

describe('steps that are there already', () => {
  const long = `  clear all
  set 24
  turn 8
  shift right; turn 9
  expect result 2352
`;
  test('are replaced, and both efforts told', () => {
    const marked = `${GLASS.replace('24', '‸24')}\n${long}`;
    expect(titles(marked)).toContain(`${REPLACE} (effort 7 in place of 18)`);
    expect(becomes(marked, REPLACE)).toBe(`${GLASS}\n${GLASS_STEPS}`);
    expect(actionAt(openMarked(marked, OTHERS), REPLACE).isPreferred).toBeUndefined();
  });
  test('goals and cases among them stay', () => {
    const before = `${USE}
sequence glass on pinwheel-9
  clear all
  goal result‸ = 24 * 98  # for one frame
  set 24; turn 8; goal counter = 24
  shift right
  turn 9
`;
    expect(becomes(before, REPLACE)).toBe(`${USE}
sequence glass on pinwheel-9
  goal result = 24 * 98  # for one frame
  goal counter = 24

${GLASS_STEPS}`);
    const quoted = (text: string) =>
      `\`\`\`crank\n${text}\`\`\`\n`.replace(/^(?=.)/gm, '> ').replace(/^$(?=\n)/gm, '>');
    const head = `${USE}sequence glass on pinwheel-9`;
    expect(
      becomes(quoted(`${head}; clear all\n  goal result‸ = 24 * 98  # one\n  turn\n`), REPLACE, {}, 'page.md'),
    ).toBe(quoted(`${head}\n  goal result = 24 * 98  # one\n\n${GLASS_STEPS}`));
  });
  test('decimals that they give to the register are kept', () => {
    const before = `${USE}sequence share on pinwheel-9
  goal counter‸ = 355 / 113
  clear all
  points counter 3
`;
    expect(becomes(before, REPLACE)).toMatch(/expect counter 3\.141(?!\d)/);
    const open = becomes(before.replace('  points counter 3\n', ''), REPLACE);
    expect(open).toMatch(/expect counter 3\.14159\d+/);
  });
  test('stay where something of the writer’s would be lost', () => {
    const marked = (steps: string) => `${GLASS.replace('24', '‸24')}\n${steps}`;
    expect(refusal(marked(long.replace('turn 8', 'turn 8  # rows')), REPLACE)).toMatch(/comments/);
    expect(refusal(marked(long.replace('turn 8', '# rows\n  turn 8')), REPLACE)).toMatch(/comments/);
    expect(refusal(marked(long.replace('turn 8', 'trun 8')), REPLACE)).toMatch(/not understood/);
    const page = `\`\`\`crank\n${GLASS.replace('24', '‸24')}  clear all\n\`\`\`\n\nThen set:\n\n\`\`\`crank\n  set 24\n\`\`\`\n`;
    expect(actionAt(openMarked(page, OTHERS, 'page.md'), REPLACE).disabled?.reason).toMatch(/prose/);
    expect(refusal(marked(`# What follows\n${long}# What comes next\n`), REPLACE)).toBeUndefined();
  });
  test('stay where they are the planned ones', () => {
    expect(refusal(`${GLASS.replace('24', '‸24')}\n${GLASS_STEPS}`, REPLACE)).toMatch(/already/);
  });
  test('stay where another goal would be missed', () => {
    const two = `${GLASS.replace('24', '‸24')}  goal counter = 98\n`;
    expect(refusal(two, WRITE)).toMatch(/Another goal/);
    expect(becomes(two.replace('98\n', '98 \n').replace('counter = 98', 'counter = 24'), WRITE)).toContain('set 98');
  });
});

test.each(['pinwheel-9', 'halfstep-10', 'drum-8', 'desk-8', 'signed-9', 'short-reach-8', 'large-20'])(
  'on %s: whatever is written for a goal meets it without a finding',
  (on) => {
    const goals = [
      'result = 3.2 * 1.75',
      'result = 48.35 + 7.90 + 112.05',
      'result = 940 - 85',
      'counter = 912 / 38',
      'counter = 355 / 113',
      'result = (12.5 + 3.75) * 4',
      'counter = sqrt(2)',
    ];
    let written = 0;
    for (const goal of goals) {
      const text = `${USE}\nsequence trial on ${on}\n  goal ‸${goal}\n`;
      if (actionAt(openMarked(text, OTHERS), WRITE).disabled) continue;
      const after = becomes(text, WRITE);
      expect(after.startsWith(unmark(text).text)).toBe(true);
      written++;
    }
    expect(written).toBe(goals.length);
  },
);

describe('carrying over', () => {
  const STORES = `${machine('reverse')}
machine workshop
  setting 4
  counter 4
  result 8
  subtract lever

machine adder
  setting 4
  result 8

`;
  const COPIES = `sequence copies "Rows of pots" on stores
  clear all
  set 12  # a row
  turn 4
  ask counter
  turn back
  expect counter 3
  ask result
`;
  const carried = (title: string): string => becomes(`${STORES}${COPIES.replace('copies', 'cop‸ies')}`, title);

  test('to each other machine, those that stand nearest first', () => {
    const text = `${STORES}${COPIES.replace('copies', 'cop‸ies')}`;
    const offers = titles(text).filter((title) => title.startsWith('Carry'));
    expect(offers[1]).toBe('Carry over to workshop (effort 9 in place of 5)');
    expect(offers.map((title) => /to ([\w-]+)/.exec(title)?.[1])).toEqual(['adder', 'workshop']);
  });
  test('writes a new sequence below, as it is cranked there', () => {
    expect(carried('Carry over to workshop')).toBe(`${STORES}${COPIES}
sequence copies-on-workshop "Rows of pots" on workshop
  clear all
  set 12  # a row
  turn 4
  ask counter
  mode subtract
  turn
  mode add
  expect counter 3
  ask result
`);
  });
  test('under a name that is free', () => {
    const taken = `\nsequence copies-on-workshop on workshop\n  clear all\n`;
    const after = becomes(`${STORES}${COPIES.replace('copies', 'cop‸ies')}${taken}`, 'Carry over to workshop');
    expect(after).toContain('\nsequence copies-on-workshop-2 "Rows of pots" on workshop\n');
    expect(after.indexOf('copies-on-workshop-2')).toBeLessThan(after.indexOf('copies-on-workshop on'));
  });
  test('tells readings that differ in comments above', () => {
    const narrow = STORES.replace(/(machine workshop[\s\S]*?)result 8/, '$1result 7');
    const sum =
      'sequence below on stores\n  clear all\n  set 12\n  turn\n  set 24\n  turn back\n  expect overdraw\n  expect result 99999988\n';
    const after = becomes(`${narrow}${sum.replace('below', 'be‸low')}`, 'Carry over to workshop');
    expect(after).toContain(`${sum}
# Carried over from below. What is different on workshop:
#   expect result 99999988: The result shows 9999988 in place of 99999988: `);
    expect(after).toContain('  expect result 9999988\n');
  });
  test('tells what is to be read again, and an effort that stays', () => {
    const noted = COPIES.replace(
      'turn back',
      'note "The crank goes back once: one row has been sold and is not there."\n  turn back',
    );
    const text = `${STORES}${noted.replace('copies', 'cop‸ies')}`;
    expect(becomes(text, 'Carry over to workshop')).toContain(`
# Carried over from copies. What is different on workshop:
#   note "The crank goes back once: one row has been sold and i…: What is said there stays as it was written, `);
    const same = `${STORES}sequence same on stores\n  clear all\n  set 12\n  turn\n`.replace('same on', 'sa‸me on');
    expect(titles(same)).toContain('Carry over to workshop (effort 1, as now)');
    expect(titles(same, { locale: 'de' })).toContain('Auf workshop übertragen (Aufwand 1 wie jetzt)');
  });
  test('closes up what a page has said in between', () => {
    const [head, tail] = [COPIES.split('\n').slice(0, 3), COPIES.split('\n').slice(3)].map((lines) => lines.join('\n'));
    const page = `\`\`\`crank\n${STORES}${head.replace('copies', 'cop‸ies')}\n\`\`\`\n\nThen:\n\n\`\`\`crank\n${tail}\`\`\`\n`;
    expect(becomes(page, 'Carry over to workshop', {}, 'page.md')).toContain('  set 12  # a row\n\n  turn 4\n');
  });
  test('a long list of readings is worked out when it is wanted', () => {
    const long = `${USE}sequence lo‸ng on pinwheel-9\n  clear all\n  set 1\n${'  turn\n'.repeat(250)}`;
    const opened = openMarked(long, OTHERS);
    const action = actionAt(opened, 'Expect the readings after each step', { isAutomatic: true });
    expect(action.edit).toBeUndefined();
    expect(resolveAction(opened.document, action, reader()).edit?.changes?.[opened.document.uri]).toHaveLength(250);
  });
  test('says what the machine lacks', () => {
    const text = `${STORES}${COPIES.replace('copies', 'cop‸ies')}`;
    expect(refusal(text, 'Carry over to adder')).toMatch(/counter/);
    expect(refusal(text, 'Auf adder übertragen', { locale: 'de' })).toMatch(/zählwerk/i);
  });
  test('is offered on the header, and within where rewritings are asked for', () => {
    const within = `${STORES}${COPIES.replace('turn 4', 'tu‸rn 4')}`;
    const isOffered = (text: string, asking: Asking) => titles(text, asking).some((title) => /^Carry/.test(title));
    expect(isOffered(within, {})).toBe(true);
    expect(isOffered(within, { only: undefined })).toBe(false);
    const header = `${STORES}${COPIES.replace('copies', 'cop‸ies')}`;
    expect(isOffered(header, { only: undefined })).toBe(true);
    expect(isOffered(header, { only: undefined, isAutomatic: true })).toBe(false);
    expect(isOffered(header, { only: ['quickfix'] })).toBe(false);
  });
  test('of what is wrong already is refused once', () => {
    const text = `${STORES}${COPIES.replace('copies', 'cop‸ies').replace('set 12', 'set 12345')}`;
    expect(titles(text).filter((title) => title.startsWith('Carry'))).toEqual(['Carry over to another machine']);
    expect(refusal(text, 'Carry over')).toMatch(/setting-too-long/);
  });
  test('to eight machines at the most, its own left out', () => {
    const text = `${USE}${COPIES.replace('stores', 'pinwheel-9').replace('copies', 'cop‸ies')}\n${machine('plain')}`;
    const offers = titles(text).filter((title) => title.startsWith('Carry'));
    expect(offers).toHaveLength(8);
    expect(offers[0]).toMatch(/to stores/);
    expect(offers.join()).not.toMatch(/pinwheel-9[ ,]/);
  });
});
