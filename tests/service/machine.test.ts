/** The machine at the step of the cursor: which moment that is, what is told of it, and what is about to go wrong. */
import { describe, expect, test } from 'vitest';
import { finish } from '../../grammar/gradual.js';
import {
  type MachineAnswer,
  machineAsked,
  originAsked,
  originOfPart,
  shownMachine,
} from '../../server/service/machine.js';
import { stepThrough } from '../../server/stepping/stepped-run.js';
import { addressOf, type Opened, openMarked, reader } from './editor.js';

const URI = addressOf('test.crank');
const DESK = `machine desk
  setting 6
  counter 6
  result 8
  subtract lever
  count lever
  bell
  auto-clear
  transfer result
`;

interface Wish extends Readonly<Record<string, unknown>> {
  readonly locale?: string;
}

function shown(opened: Opened, { locale = 'en', ...sent }: Wish = {}): MachineAnswer {
  const asked = machineAsked({ uri: URI, ...sent });
  if (typeof asked === 'string') throw new Error(asked);
  return finish(shownMachine(opened.document, asked, reader({ locale })));
}
const atCursor = (text: string, wish: Wish = {}): MachineAnswer => {
  const opened = openMarked(text);
  return shown(opened, { ...opened.cursor, ...wish });
};
const frameOf = ({ frame, trouble }: MachineAnswer) => {
  if (!frame) throw new Error(trouble?.message ?? 'there is no frame');
  return frame;
};
const on = (steps: string, machine = DESK) => `${machine}sequence pots on desk\n  clear all\n${steps}\n`;
/** The parts that are hatched, in the order of the figure. */
const hatched = (answer: MachineAnswer) =>
  frameOf(answer)
    .figure.parts.filter(({ label }) => label.endsWith(', hatched'))
    .map(({ part }) => part);
const remarks = (answer: MachineAnswer) => frameOf(answer).remarks.map(({ when, message }) => `${when}: ${message}`);

describe('the moment of the cursor', () => {
  test.each([
    ['behind the step that it stands on', '  set 1‸2\n  turn 3', 'set 12', 'Step 2 of 3'],
    ['all of its turns made', '  set 12\n  turn 3‸\n  turn', 'turn 3', 'Step 3 of 4 · turn 3 of 3'],
    ['of several on a line the one at the column', '  set 12; tu‸rn 3; turn', 'turn 3', 'Step 3 of 4 · turn 3 of 3'],
    ['the first where it stands before them', '‸  set 12; turn 3; turn', 'set 12', 'Step 2 of 4'],
    ['the step above on a blank line and beside a comment', '  set 12\n\n  # pots‸\n  turn', 'set 12', 'Step 2 of 3'],
    [
      'the last round of a step in it',
      '  repeat 3 {\n    set 5\n    tu‸rn\n  }\n',
      'turn',
      'Step 7 of 7 · round 3 of 3',
    ],
    [
      'the end of the rounds where they begin',
      '  rep‸eat 2 {\n    turn\n    set 5\n  }\n',
      'set 5',
      'Step 5 of 5 · round 2 of 2',
    ],
    [
      'the end of the rounds where they close',
      '  repeat 2 {\n    turn\n  }‸\n  turn',
      'turn',
      'Step 3 of 4 · round 2 of 2',
    ],
    [
      'the end of what it stands for',
      '  set 7\n  multiply by 12‸\n  clear all',
      'turn',
      'Step 5 of 6 · in multiply by 12',
    ],
    ['the step above where nothing was carried out', '  set 7\n  note‸ 5\n', 'set 7', 'Step 2 of 2'],
  ])('is %s', (_, steps, text, where) => {
    const { step, where: told } = frameOf(atCursor(on(steps)));
    expect([step?.text, told]).toEqual([text, where]);
  });

  test('is the start above the first step', () => {
    const { moment, step, where } = frameOf(atCursor(on('').replace('sequence', 'sequ‸ence')));
    expect([moment, step, where]).toEqual([0, undefined, 'Before the first step']);
    expect(frameOf(atCursor(`${DESK}sequence pots on desk\n  goal ‸result = 5\n  turn`)).moment).toBe(0);
  });

  test('is in the round that somebody looks at', () => {
    const opened = openMarked(on('  repeat 3 {\n    set 5\n    turn 2‸\n  }'));
    const second = frameOf(shown(opened, { sequence: 'pots', moment: 5 }));
    expect(second.where).toBe('Step 4 of 7 · round 2 of 3');
    expect(frameOf(shown(opened, { ...opened.cursor, moment: 5 })).where).toBe(
      'Step 5 of 7 · round 2 of 3 · turn 2 of 2',
    );
    // Looking elsewhere is looking at no round.
    expect(frameOf(shown(opened, { ...opened.cursor, moment: 1 })).where).toContain('round 3 of 3');
  });

  test('is that of the sequence that runs, in the steps of the other one', () => {
    const text = `${DESK}sequence once on desk\n  turn\n\nsequence pots on desk\n  clear all\n  set 5\n  run on‸ce\n`;
    const { step, where } = frameOf(atCursor(text));
    expect(where).toBe('Step 3 of 3 · in run once');
    expect(step?.at.range.start.line).toBe(10);
  });
});

describe('moving', () => {
  const opened = openMarked(on('  set 5; turn 3\n  repeat 2 {\n    turn\n    multiply by 12\n  }\n  set 6'));
  const goes = (moment: number, ...moves: object[]) => frameOf(shown(opened, { sequence: 'pots', moment, moves }));
  const wheres = (by: string) => {
    const found = ['0'];
    for (let at = 0; ; ) {
      const { moment } = goes(at, { by, count: 1 });
      if (moment === at) return found.join(' ');
      found.push(String(moment));
      at = moment;
    }
  };

  test('goes by turns, steps and lines of the text, and ends', () => {
    expect(wheres('turn')).toBe('0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16');
    expect(wheres('step')).toBe('0 1 2 5 6 8 9 10 11 13 14 15 16');
    expect(wheres('line')).toBe('0 1 5 6 10 11 15 16');
  });

  test('goes back the same way', () => {
    const back = (by: string) => {
      const found = [16];
      while (found[0] > 0) found.unshift(goes(found[0], { by, count: -1 }).moment);
      return found.join(' ');
    };
    for (const by of ['turn', 'step', 'line']) expect(back(by)).toBe(wheres(by));
  });

  test('goes to the end of what is under way, and back to its beginning', () => {
    expect([goes(3, { by: 'step', count: 1 }).moment, goes(3, { by: 'step', count: -1 }).moment]).toEqual([5, 2]);
    expect(goes(3, { by: 'line', count: 1 }, { by: 'turn', count: -2 }).moment).toBe(3);
    expect(goes(99, { by: 'step', count: 9_999 }).moment).toBe(16);
  });
});

describe('what is about to go wrong', () => {
  const justBefore = (steps: string, machine = DESK, moves = 0) => {
    const opened = openMarked(on(steps, machine));
    const end = frameOf(shown(opened, { sequence: 'pots', moment: 1e6 })).moment;
    return shown(opened, { sequence: 'pots', moment: end, moves: [{ by: 'step', count: -1 + moves }] });
  };
  const REACH = DESK.replace('result 8', 'result 8 reach 6');

  test.each([
    [
      'a reading that will differ: the wheels that do',
      '  set 418\n  turn\n  expect result 508',
      ['result-2', 'result-3'],
    ],
    ['a reading with a marker', '  points result 1\n  set 418\n  turn\n  expect result 41.9', ['result-1']],
    ['a carry that ends too soon: the wheel that misses it', '  set 999999\n  turn\n  turn', ['result-7'], REACH],
    ['an overflow: the highest wheel', '  shift to 3\n  set 999999\n  turn\n  turn', ['result-8']],
    ['going below zero: the highest wheel', '  mode subtract\n  count minus\n  set 5\n  turn', ['result-8']],
    ['levers without a wheel below them', '  set 120450\n  shift to 6\n  turn', ['setting-5', 'setting-6']],
    ['a counter past its end', '  count minus\n  set 5\n  turn', ['counter-6']],
    ['the carriage at its end', '  shift right 9', ['carriage']],
    ['the carriage elsewhere', '  expect carriage 4', ['carriage']],
    ['a button that clears too soon', '  auto-clear on\n  set 5\n  turn 3', ['auto-clear']],
    ['too many figures', '  set 1234567', ['setting-6']],
    ['two numbers for one lever', '  set 12 and 3 at 2', ['setting-2']],
    ['levers that stand in the way', '  set 120\n  transfer result', ['setting-2', 'setting-3']],
    ['decimals for which there is no room', '  points setting 1\n  set 1.25', ['marker-setting']],
  ])('is marked: %s', (_, steps, parts, machine = DESK) => {
    const answer = justBefore(steps, machine);
    expect(hatched(answer)).toEqual(parts);
    expect(remarks(answer)[0]).toMatch(/^With the next step: /);
    expect(frameOf(answer).remarks[0].marked).toMatch(/^Hatched: /);
    // A step before that nobody knows of it yet.
    if (steps.includes('\n')) expect(remarks(justBefore(steps, machine, -1)).join()).not.toContain('next step');
  });

  test('is marked: a missed goal, at the last step that moves anything', () => {
    const steps = '  goal result = 36\n  set 12\n  turn 4\n  note "Done."';
    const opened = openMarked(on(steps));
    const at = (moment: number) => shown(opened, { sequence: 'pots', moment });
    expect(remarks(at(1))).toEqual([]);
    expect(remarks(at(2))[0]).toMatch(/^With the next step: .*36/);
    // 48 stands where 36 should.
    expect(hatched(at(2))).toEqual(['result-1', 'result-2']);
    expect(remarks(at(7))[0]).toMatch(/^Now: .*36/);
  });

  test('says which turns are to come, and afterwards that it is so', () => {
    const opened = openMarked(on('  shift to 3\n  set 333333\n  turn 5'));
    const at = (moment: number) =>
      remarks(shown(opened, { sequence: 'pots', moment })).map((told) => told.slice(0, 30));
    expect(at(3)[0]).toMatch(/^With the next step: Turn 4/);
    expect(at(5)[0]).toMatch(/^With the turns to come: Turn 4/);
    expect(at(7)[0]).toMatch(/^Now: Turn 4/);
  });

  test('is not marked where the machine does what is meant', () => {
    const answer = justBefore('  mode subtract\n  count minus\n  set 5\n  turn\n  expect overdraw', DESK, -1);
    expect([hatched(answer), remarks(answer)]).toEqual([[], []]);
  });
});

describe('where a part came to stand so', () => {
  const text = `machine old
  setting 6
  counter 6
  result 8
  bell

machine desk like old
  subtract lever
  count lever

sequence once on desk
  turn

sequence pots on desk
  clear all
  set 12
  multiply by 11
  run once
  mode subtract
  points result 2
`;
  const opened = openMarked(text);
  const origin = (part: string, moment: number) => {
    const asked = originAsked({ uri: URI, sequence: 'pots', moment, part });
    if (typeof asked === 'string') throw new Error(asked);
    const { origin: found } = finish(originOfPart(opened.document, asked, reader()));
    return found && `${opened.document.lines[found.range.start.line].trim()} @${found.moment ?? '–'}`;
  };

  test('is the step that moved it last', () => {
    expect(origin('setting-2', 9)).toBe('set 12 @2');
    expect(origin('result-1', 3)).toBe('multiply by 11 @3');
    expect(origin('counter-2', 9)).toBe('turn @6');
    expect(origin('carriage', 9)).toBe('multiply by 11 @4');
    expect(origin('drive', 9)).toBe('mode subtract @7');
    expect(origin('marker-result', 9)).toBe('points result 2 @8');
  });

  test('is what the machine has where no step has moved it', () => {
    expect(origin('result-8', 9)).toBe('result 8 @–');
    expect(origin('setting-6', 1)).toBe('setting 6 @–');
    expect(origin('marker-result', 7)).toBe('result 8 @–');
    expect(origin('count', 9)).toBe('count lever @–');
    expect(origin('drive', 3)).toBe('subtract lever @–');
    expect(origin('carriage', 2)).toBe('counter 6 @–');
    expect(origin('bell', 9)).toBe('bell @–');
  });

  test('is nowhere for what is no part', () => {
    for (const part of ['', 'crank', 'result', 'result-', 'constructor', 'marker-x', '__proto__']) {
      expect(origin(part, 3), part).toBeUndefined();
    }
  });
});

describe('what is told', () => {
  const BAY = `${DESK}sequence bay (a = 12) on desk\n  case a = 15\n  clear all\n  set a\n  turn 3‸\n  expect result 36\n`;

  test('is the step as it is carried out, what it changed, and what all has cost', () => {
    const { step, effort, changed, figure } = frameOf(atCursor(BAY));
    expect(step).toMatchObject({ text: 'turn 3', sentence: 'Turn the crank 3 times.' });
    expect(effort).toBe('So far: effort 3: 3 turns');
    expect(changed).toBe('counter 3, result 36');
    expect(figure.svg).toMatch(/^<svg .*<\/svg>$/s);
    expect(figure.parts.map(({ label }) => label)).toContain('Result, place 2: 3');
  });

  test('is of the case that is wanted, or whose readings are shown', () => {
    const opened = openMarked(BAY);
    expect(shown(opened)).toMatchObject({ case: 0, cases: ['defaults', 'case 1: a = 15'] });
    const other = shown(opened, { case: 1, moment: 2, sequence: 'bay' });
    expect([other.case, other.frame?.step?.text]).toEqual([1, 'set 15']);
    expect(shown(opened, { case: 7 }).case).toBe(0);
  });

  test('is in German where that is the language', () => {
    const answer = atCursor(BAY, { locale: 'de' });
    expect(frameOf(answer).where).toBe('Schritt 3 von 4 · Umdrehung 3 von 3');
    expect(frameOf(answer).step?.sentence).toMatch(/Kurbel/);
    expect(frameOf(answer).figure.parts.map(({ label }) => label)).toContain('Hebel 1: 2');
  });

  test('is without the lines that can’t be read, and says so', () => {
    const answer = atCursor(on('  set 12\n  trun 3\n  turn‸'));
    expect(answer.trouble?.message).toContain('The machine is shown as if this were not there.');
    expect(answer.trouble?.at?.range.start.line).toBe(12);
    expect(frameOf(answer).where).toBe('Step 3 of 3');
  });

  test('is the reason where there is nothing to show', () => {
    expect(shown(openMarked('# nothing\n'))).toMatchObject({
      sequences: [],
      trouble: { message: 'There is no sequence in this file, and so no machine to show.' },
    });
    const lost = shown(openMarked(on('  turn')), { sequence: 'trays' });
    expect(lost.trouble?.message).toBe('There is no sequence called trays in this file any more.');
    const alone = shown(openMarked('sequence pots on nothing\n  turn\n'));
    expect([alone.frame, alone.trouble?.message]).toEqual([undefined, expect.stringContaining('nothing')]);
  });
});

describe('a session in which somebody goes through a sequence', () => {
  const opened = openMarked(`${DESK}sequence trays on desk\n  turn\nsequence pots on desk\n  set 12\n  turn 3\n`);
  const run = opened.document.report.sequences[1].runs[0];
  const underWay = {
    uri: URI,
    sequence: 'pots',
    stepped: finish(
      stepThrough({ ...run.order, fault: { kind: 'lever-dead', place: 2 } }, [
        { row: 2, afterTurns: 1, step: run.tape.stepAt(0).syntax },
      ]),
    ),
    stand: { moment: 2 },
  };
  const stands = (sent: object = {}) => {
    const asked = machineAsked({ uri: URI, stepping: 's1', ...sent });
    if (typeof asked === 'string') throw new Error(asked);
    return finish(shownMachine(opened.document, asked, reader(), underWay));
  };

  test('shows its own machine, with its fault and what was done by hand, where it stands', () => {
    const answer = stands();
    expect([answer.isStepping, answer.sequence]).toEqual([true, 'pots']);
    const { moment, where, changed } = frameOf(answer);
    // The lever of the tens drives nothing.
    expect([moment, where, changed]).toEqual([2, 'Step 2 of 4 · fault: lever 2 drives nothing', 'counter 1, result 2']);
    expect(frameOf(stands({ moves: [{ by: 'turn', count: 9 }] })).changed).toBe('counter 3, result 6');
    expect(frameOf(stands({ moment: 0 })).where).toBe('Before the first step · fault: lever 2 drives nothing');
  });

  test('tells where a part was moved in it', () => {
    const asked = originAsked({ uri: URI, stepping: 's1', part: 'result-1' });
    if (typeof asked === 'string') throw new Error(asked);
    const { origin } = finish(originOfPart(opened.document, asked, reader(), underWay));
    expect(origin).toMatchObject({ moment: 2, range: { start: { line: 13 } } });
  });
});
