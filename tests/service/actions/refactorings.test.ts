/** Steps written in another way: the text that comes of it, and a machine that goes through the same states. */
import { describe, expect, test } from 'vitest';
import { severityOf } from '../../../server/sequence/findings.js';
import type { AnalysedDocument } from '../../../server/service/document.js';
import { type MachineName, machine } from '../../sequence/machines.js';
import { openMarked, unmark } from '../editor.js';
import { actionsAt, edited, editsOf, type Files, statesIn } from './acting.js';

interface Trial {
  readonly title: string;
  readonly others?: Files;
  readonly name?: string;
  /** Rows are joined or parted, so that only what is shown at the end can be compared. */
  readonly atEnd?: boolean;
}

/** Does what a title says at the mark, and compares text and states. */
function rewrites(before: string, after: string, { title, others = {}, name, atEnd = false }: Trial): void {
  const opened = openMarked(before, others, name);
  const actions = actionsAt(opened, { only: ['refactor'] });
  const action = actions.find((one) => one.title.includes(title));
  expect(action, actions.map((one) => one.title).join('\n') || 'nothing is offered').toBeDefined();
  if (!action) return;
  expect(action.disabled).toBeUndefined();
  expect(action.edit, 'is worked out later').toBeUndefined();
  const text = edited(opened.text, editsOf(opened.document, action));
  expect(text).toBe(after);
  const now = openMarked(text, others, name).document;
  const [was, is] = [statesIn(opened.document), statesIn(now)];
  if (atEnd) {
    const last = (runs: unknown[]) => (runs as { turns: number }[][]).map((run) => ({ ...run.at(-1), turns: 0 }));
    expect(last(is)).toEqual(last(was));
  } else expect(is).toEqual(was);
  const errors = ({ report }: AnalysedDocument) => report.findings.filter((one) => severityOf(one) === 'error');
  expect(errors(now).length).toBeLessThanOrEqual(errors(opened.document).length);
}

/** The same for the steps of a sequence that begins cleared. */
function onMachine(on: MachineName, before: string, after: string, trial: Trial): void {
  const head = `${machine(on)}sequence trial on stores\n  clear all\n`;
  rewrites(`${head}${before}\n`, `${head}${after}\n`, trial);
}

/** Why something at the mark can't be done. */
function refusal(text: string, title: string, others: Files = {}): string | undefined {
  const action = actionsAt(openMarked(text, others), { only: ['refactor'] }).find((one) => one.title.includes(title));
  expect(action?.title).toContain(title);
  return action?.disabled?.reason;
}
const offered = (text: string): string[] =>
  actionsAt(openMarked(text), { only: ['refactor'] }).map(({ title }) => title);
const trial = (steps: string, on: MachineName = 'reverse') =>
  `${machine(on)}sequence trial on stores\n  clear all\n${steps}\n`;

describe('opening out', () => {
  test('a multiplication', () => {
    onMachine(
      'reverse',
      '  set 12\n  multi‸ply by 302  # rows',
      '  set 12\n  turn 2\n  shift right 2\n  turn 3  # rows',
      { title: 'Open multiply by 302 out' },
    );
  });
  test('a multiplication by a value', () => {
    onMachine(
      'reverse',
      '  points counter 1; set 12\n  ‸multiply by 2.5',
      '  points counter 1; set 12\n  turn 5\n  shift right\n  turn 2',
      { title: 'Open' },
    );
  });
  test('a short multiplication', () => {
    onMachine(
      'signed',
      '  set 12\n  multiply ‸by 98 short\n  ask result',
      '  set 12\n  turn back 2\n  shift right 2\n  turn\n  ask result',
      { title: 'Open multiply by 98 short out' },
    );
    const head = `${machine('signed', 'subtract lever')}sequence trial on stores\n  clear all\n`;
    rewrites(
      `${head}  set 12; multiply by 8‸ short; multiply by 5 short\n`,
      `${head}  set 12; mode subtract; turn 2; shift right; mode add; turn; multiply by 5 short\n`,
      { title: 'Open multiply by 8 short out' },
    );
  });
  test('a short division', () => {
    onMachine(
      'full',
      '  dial result 68; set 5; shift right\n  divide‸ short\n  ask counter',
      `  dial result 68; set 5; shift right
  count minus
  mode subtract
  turn until overdraw
  shift left
  mode add
  turn 7
  count plus
  ask counter`,
      { title: 'Open divide short out' },
    );
    const differs = (number: string) =>
      `${machine('full')}sequence trial (n = 68) on stores\n  case n = ${number}\n  clear all\n  dial result n; set 5; shift right\n  divide‸ short\n`;
    expect(refusal(differs('69'), 'Open divide short')).toBeUndefined();
    expect(refusal(differs('58'), 'Open divide short')).toMatch(/differently/);
  });
  test('by nothing', () => {
    onMachine('reverse', '  set 12\n  ‸multiply by 0\n  turn', '  set 12\n  turn', { title: 'Open' });
  });
  test('among other steps of a line, and in a repeat', () => {
    onMachine('reverse', '  set 12; multiply‸ by 12; shift to 1', '  set 12; turn 2; shift right; turn; shift to 1', {
      title: 'Open',
    });
    onMachine(
      'reverse',
      '  set 1\n  repeat 2 { multiply‸ by 12; shift to 1 }',
      '  set 1\n  repeat 2 { turn 2; shift right; turn; shift to 1 }',
      { title: 'Open' },
    );
  });
  test('a division by hand', () => {
    onMachine(
      'reverse',
      '  set 35; turn 9; set 4; shift right\n  ‸divide',
      '  set 35; turn 9; set 4; shift right\n  turn back until overdraw\n  turn\n  shift left\n  turn back until overdraw\n  turn',
      { title: 'Open divide' },
    );
    onMachine(
      'full',
      '  set 35; turn 9; set 4; shift right 2\n  ‸divide to 2',
      '  set 35; turn 9; set 4; shift right 2\n  count minus\n  mode subtract\n  turn until overdraw\n  mode add\n  turn\n  shift left\n  mode subtract\n  turn until overdraw\n  mode add\n  turn\n  count plus',
      { title: 'Open divide to 2' },
    );
  });
  test('a division by the machine', () => {
    const before =
      '  set 35; turn 9; set 4; shift right 2; clear counter; mode subtract; count minus; auto-divide on\n';
    const after = '\n  auto-divide off; count plus; mode add';
    onMachine('full', `${before}  ‸divide${after}`, `${before}  turn until stop${after}`, { title: 'Open divide' });
    onMachine('full', `${before}  ‸divide to 2${after}`, `${before}  turn 11${after}`, { title: 'Open divide to 2' });
  });
  test('not where a parameter decides, or the machine cannot', () => {
    const text = `${machine('reverse')}sequence trial (a = 2) on stores\n  clear all; set 1\n  multi‸ply by a\n`;
    expect(refusal(text, 'multiply by a')).toMatch(/parameter a/);
    expect(refusal(trial('  set 1\n  multi‸ply by 12345'), 'multiply')).toMatch(/cannot carry it out/);
    const rounds =
      '  set 1\n  repeat 2 {\n    points counter 1\n    multi‸ply by 1.0\n    shift to 1\n    repeat 2 { points counter 2; multiply by 1.0 }\n    shift to 1\n  }';
    expect(refusal(trial(rounds), 'multiply')).toBeUndefined();
  });
  test('not where it is cranked in another way in the next round', () => {
    const steps =
      '  set 1\n  points counter 1\n  repeat 2 {\n    multi‸ply by 1.0\n    shift to 1; points counter 2\n  }';
    expect(refusal(trial(steps), 'multiply')).toMatch(/differently/);
  });

  test('a repeat on one line', () => {
    onMachine(
      'reverse',
      '  set 1\n  re‸peat 3 { turn; shift right }',
      '  set 1\n  turn\n  shift right\n  turn\n  shift right\n  turn\n  shift right',
      { title: 'Open repeat 3 out' },
    );
    onMachine(
      'reverse',
      '  set 1; re‸peat 2 { turn; shift right }; turn',
      '  set 1; turn; shift right; turn; shift right; turn',
      { title: 'Open' },
    );
  });
  test('a repeat over several lines, with what is written beside it', () => {
    onMachine(
      'reverse',
      '  set 1\n  repeat‸ 2 {  # twice\n    # the units\n    turn 2  # two\n\n    repeat 2 {\n      shift right\n    }\n    expect carriage 3 as third\n    shift to 1\n  }  # done\n  turn',
      '  set 1\n  # twice\n  # the units\n  turn 2  # two\n\n  repeat 2 {\n    shift right\n  }\n  expect carriage 3 as third\n  shift to 1\n  # done\n  turn 2\n  repeat 2 {\n    shift right\n  }\n  expect carriage 3\n  shift to 1\n  turn',
      { title: 'Open repeat 2 out' },
    );
  });
  test('the inner one of two, and from its closing brace', () => {
    onMachine(
      'reverse',
      '  set 1\n  repeat 2 {\n    repeat‸ 2 { turn }\n  }',
      '  set 1\n  repeat 2 {\n    turn\n    turn\n  }',
      { title: 'Open' },
    );
    onMachine('reverse', '  set 1\n  repeat 2 {\n    turn\n  ‸}', '  set 1\n  turn\n  turn', { title: 'Open' });
  });
  test('no repeat that would fill pages, nor one of a parameter', () => {
    expect(refusal(trial('  repeat‸ 999 {\n    set 1\n    set 2\n    set 3\n  }'), 'repeat 999')).toMatch(
      /2,997 lines; 2,000/,
    );
    const text = `${machine('reverse')}sequence trial (a = 2) on stores\n  repeat‸ a { turn }\n`;
    expect(refusal(text, 'repeat a')).toMatch(/parameter a/);
  });
  test('nothing where a line of it cannot be read, or a goal stands in it', () => {
    expect(offered(trial('  repeat‸ 2 {\n    trun\n  }'))).not.toContainEqual(expect.stringContaining('Open'));
    expect(offered(trial('  repeat‸ 2 {\n    goal result = 0\n    turn\n  }'))).not.toContainEqual(
      expect.stringContaining('Open'),
    );
    expect(offered(trial('  se‸t 2'))).toEqual(['Expect the readings at the end']);
  });

  test('a run, with its numbers', () => {
    const other =
      'sequence adding (n = 5, times = 2) on stores\n  set n\n  turn times\n  repeat 2 {\n    shift right\n  }\n  expect result 14 as sum\n';
    rewrites(
      `${machine('reverse')}${other}sequence trial (a = 7) on stores\n  clear all\n  run‸ adding (a)  # once\n`,
      `${machine('reverse')}${other}sequence trial (a = 7) on stores\n  clear all\n  set a\n  turn 2\n  repeat 2 {\n    shift right\n  }\n  expect result 14 as sum  # once\n`,
      { title: 'Open run adding (a) out' },
    );
    rewrites(
      `${machine('reverse')}${other}sequence trial on stores\n  clear all; run‸ adding (7); turn\n  expect result 21 as sum\n`,
      `${machine('reverse')}${other}sequence trial on stores\n  clear all; set 7; turn 2; repeat 2 { shift right } expect result 14; turn\n  expect result 21 as sum\n`.replace(
        'result 21',
        'result 21',
      ),
      { title: 'Open' },
    );
  });
  test('no run of what would mean something else here', () => {
    const others = {
      'b.crank': 'use "c.crank"\nsequence outer on stores\n  run inner\n',
      'c.crank': 'sequence inner on stores\n  shift right\n',
    };
    const text = `use "b.crank"\n${machine('reverse')}sequence inner on stores\n  turn\nsequence trial on stores\n  run‸ outer\n`;
    expect(refusal(text, 'run outer', others)).toMatch(/inner means something else/);
  });
  test('no run of itself', () => {
    expect(refusal(trial('  run‸ trial'), 'run trial')).toMatch(/cannot carry it out/);
  });
});

describe('gathering', () => {
  test('turns and shifts over several lines', () => {
    onMachine(
      'reverse',
      '  set 12\n  turn 5  # five\n  shift ri‸ght\n  turn 2\n  shift right 2  # two\n  turn 3\n  shift to 1',
      '  set 12\n  multiply by 3025  # five\n  # two\n  shift to 1',
      { title: 'into multiply by 3025' },
    );
  });
  test('on one line', () => {
    onMachine(
      'reverse',
      '  set 12; turn 5; shift‸ right; turn; shift right; clear setting',
      '  set 12; multiply by 15; shift right; clear setting',
      { title: 'into multiply by 15' },
    );
    onMachine(
      'reverse',
      '  set 1\n  repeat 2 { turn 5; shift‸ right; turn }',
      '  set 1\n  repeat 2 { multiply by 15 }',
      { title: 'into multiply by 15' },
    );
  });
  test('several turns in one position', () => {
    onMachine('reverse', '  set 12\n  turn‸ 2\n  turn 3\n  shift right\n  turn', '  set 12\n  multiply by 15', {
      title: 'into multiply by 15',
      atEnd: true,
    });
  });
  test('what is selected, and no more', () => {
    onMachine(
      'reverse',
      '  set 12\n  turn\n  shift right\n⟦  turn 2\n  shift right\n  turn 3\n⟧',
      '  set 12\n  turn\n  shift right\n  multiply by 32\n',
      { title: 'into multiply by 32' },
    );
  });
  test.each([
    ['turns back', '  turn‸ 5\n  shift right\n  turn back'],
    ['a shift to the left', '  shift to 3\n  turn‸ 5\n  shift left\n  turn'],
    ['ten turns', '  turn‸ 5\n  turn 5\n  shift right\n  turn'],
    ['one position', '  turn‸ 5\n  turn 2'],
    ['past the last position', '  turn‸ 5\n  shift right 4\n  turn 2'],
  ])('not %s', (_, steps) => {
    expect(offered(trial(`  set 1\n${steps}`))).not.toContainEqual(expect.stringContaining('Gather'));
  });
});

describe('taking out', () => {
  const header = (on: MachineName = 'reverse') => `${machine(on)}sequence trial on stores\n  clear all\n`;
  test('whole lines, with their comments', () => {
    rewrites(
      `${header()}  repeat 2 {\n⟦    # The row.\n    set 12  # pots\n    turn\n⟧  }\n\n# Next.\nsequence next on stores\n`,
      `${header()}  repeat 2 {\n    # The row.\n    run part\n  }\n\nsequence part on stores\n  set 12  # pots\n  turn\n\n# Next.\nsequence next on stores\n`,
      { title: 'into a sequence part' },
    );
  });
  test('some steps of a line', () => {
    rewrites(
      `${header()}  set 1; ⟦turn; repeat 2 { shift right }⟧; turn\nsequence part\n`,
      `${header()}  set 1; run part-2; turn\n\nsequence part-2 on stores\n  turn\n  repeat 2 {\n    shift right\n  }\nsequence part\n`,
      { title: 'into a sequence part-2' },
    );
  });
  test('parameters are handed over', () => {
    const head = `${machine('reverse')}sequence trial "T" (a = 12, b = 3) on stores\n  case a = 5\n  clear all\n`;
    rewrites(
      `${head}⟦  set a\n  turn b⟧\n`,
      `${head}  run part (a, b)\n\nsequence part (a = 12, b = 3) on stores\n  set a\n  turn b\n`,
      { title: 'into a sequence part' },
    );
  });
  test('not what needs the steps before it', () => {
    const text = `${header()}  set 12\n⟦  turn\n  expect result 12⟧\n`;
    expect(refusal(text, 'into a sequence')).toMatch(/the steps before them/);
  });
  test('nothing without whole steps', () => {
    expect(offered(`${header()}  set 1⟦2⟧\n`)).toEqual([]);
    expect(offered(`${header()}  set ‸12\n  turn\n`)).toEqual([]);
  });
});

describe('expecting', () => {
  test('the readings at the end', () => {
    onMachine(
      'reverse',
      '  points result 2\n  set 125\n  tur‸n 3',
      '  points result 2\n  set 125\n  turn 3\n  expect counter 3 result 3.75',
      { title: 'at the end' },
    );
    onMachine('signed', '  set 125\n  turn‸ back 3', '  set 125\n  turn back 3\n  expect counter -3 result 99999625', {
      title: 'at the end',
    });
    onMachine('adder', '  set 125; turn‸', '  set 125; turn; expect result 125', { title: 'at the end' });
  });
  test('not where they differ from case to case', () => {
    const text = `${machine('reverse')}sequence tri‸al (a = 2) on stores\n  case a = 3\n  clear all; set a\n  turn\n`;
    expect(refusal(text, 'at the end')).toMatch(/one case/);
  });
  test('after each step what it has changed', () => {
    rewrites(
      `${machine('full')}sequence tri‸al on stores\n  clear all\n  set 12; turn 2\n  repeat 2 {\n    turn\n  }\n  expect result 48\n  note "."\n  mode subtract; turn 5; turn; mode add; turn\n  transfer result\n  ask setting\n`,
      `${machine('full')}sequence trial on stores\n  clear all\n  set 12; turn 2; expect counter 2 result 24\n  repeat 2 {\n    turn\n  }\n  expect result 48\n  note "."\n  mode subtract; turn 5; expect counter 9999; turn; expect counter 9998; mode add; turn; expect counter 9999\n  transfer result\n  ask setting\n`,
      { title: 'after each step' },
    );
  });
  test('what is asked for', () => {
    onMachine(
      'reverse',
      '  set 12; turn 3\n  as‸k result counter',
      '  set 12; turn 3\n  ask result counter\n  expect result 36 counter 3',
      { title: 'asked for' },
    );
  });
  test('not what is asked in rounds that differ', () => {
    expect(refusal(trial('  set 1\n  repeat 2 { turn; as‸k result }'), 'asked for')).toMatch(/round/);
  });
});

describe('in Markdown', () => {
  const page = (steps: string) =>
    `# Page\n\n> Text.\n>\n> \`\`\`crank\n> ${machine('reverse').trimEnd().replaceAll('\n', '\n> ')}\n> sequence trial on stores\n>   clear all\n${steps}> \`\`\`\n>\n> Text.\n`;
  test('lines keep the marks of a quotation', () => {
    rewrites(page('>   set 12\n>   multi‸ply by 12\n'), page('>   set 12\n>   turn 2\n>   shift right\n>   turn\n'), {
      title: 'Open',
      name: 'page.md',
    });
    rewrites(
      page('>   set 12\n>   repeat‸ 2 {\n>     turn\n>\n>     shift right\n>   }\n'),
      page('>   set 12\n>   turn\n>\n>   shift right\n>   turn\n>   shift right\n'),
      { title: 'Open', name: 'page.md' },
    );
    rewrites(page('>   set 12\n>   turn 5\n>   shift‸ right\n>   turn\n'), page('>   set 12\n>   multiply by 15\n'), {
      title: 'Gather',
      name: 'page.md',
    });
    rewrites(
      page('⟦>   set 12\n>   turn 5⟧\n'),
      page('>   run part\n>\n> sequence part on stores\n>   set 12\n>   turn 5\n'),
      { title: 'sequence part', name: 'page.md' },
    );
  });
  test('prose between two fences stays where it is', () => {
    const text = unmark(page('>   set 1\n')).text.replace(/> ```\n>\n> Text\.\n$/, '');
    const marked = `${text}>   repeat‸ 2 {\n>     turn\n> \`\`\`\n>\n> Then:\n>\n> \`\`\`crank\n>   }\n> \`\`\`\n`;
    const action = actionsAt(openMarked(marked, {}, 'page.md'), { only: ['refactor'] }).find(({ title }) =>
      title.includes('Open'),
    );
    expect(action?.disabled?.reason).toMatch(/prose/);
  });
});
