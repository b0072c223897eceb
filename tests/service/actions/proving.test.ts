/** What a sequence lacks to catch more faults of its machine, written into it. */
import { describe, expect, test } from 'vitest';
import { finish } from '../../../grammar/gradual.js';
import { coverageOf } from '../../../server/proving/coverage.js';
import { severityOf } from '../../../server/sequence/findings.js';
import { codeActions, resolveAction } from '../../../server/service/actions.js';
import type { AnalysedDocument } from '../../../server/service/document.js';
import { type MachineName, machine } from '../../sequence/machines.js';
import { openMarked, reader } from '../editor.js';
import { edited, editsOf } from './acting.js';

const TITLE = 'Add what would catch more faults of the machine';

function offered(text: string) {
  const opened = openMarked(text);
  const range = { start: opened.cursor, end: opened.cursor };
  return { opened, action: codeActions(opened.document, range, {}, reader()).find(({ title }) => title === TITLE) };
}

/** The text with what is proposed. */
function proved(text: string): string {
  const { opened, action } = offered(text);
  if (!action) throw new Error('Nothing is offered.');
  expect(action.edit, 'is worked out later').toBeUndefined();
  return edited(opened.text, editsOf(opened.document, action));
}

const documentOf = (text: string): AnalysedDocument => openMarked(text).document;

const missedIn = (text: string): number => {
  const runs = documentOf(text).report.sequences.flatMap((one) => one.runs);
  const { total } = finish(coverageOf(runs));
  return total.all - total.caught;
};

const on = (name: MachineName, steps: string, header = 'trial') =>
  `${machine(name)}sequence ${header}‸ on stores\n  clear all\n${steps}\n`;

describe('adding what would catch more', () => {
  test.each<[MachineName, string]>([
    ['reverse', '  set 7  # levers\n  turn\n  expect result 7'],
    ['full', '  set 12; turn; mode subtract; turn; mode add'],
    ['full', '  auto-clear on\n  repeat 3 { set 5; turn }\n  auto-clear off'],
    ['halfStep', '  set 4\n  turn 3\n  ask result counter'],
    ['signed', '  note "nothing yet"'],
    ['adder', '  set 9; turn 9'],
  ])('leaves nothing that could be caught, and has no error: %s, %j', (name, steps) => {
    const text = on(name, steps);
    const after = proved(text);
    const errors = documentOf(after).report.findings.filter((one) => severityOf(one) === 'error');
    expect(errors.map(({ facts }) => facts.code)).toEqual([]);
    expect(missedIn(text)).toBeGreaterThan(0);
    expect(missedIn(after)).toBe(0);
  });

  test('puts readings into those that are there, and behind steps; comments stay', () => {
    const after = proved(on('reverse', '  set 7  # levers\n  turn\n  expect result 7 as seven  # read'));
    expect(after).toContain('  set 7  # levers\n');
    expect(after).toContain('  expect result 7 as seven counter 1  # read\n');
  });

  test('goes into a sequence by itself where a goal stands at the end', () => {
    const after = proved(on('adder', '  set 2\n  turn\n  goal result = 2\n  expect result 2'));
    expect(after).toContain('\nsequence trial-more on stores\n  set 1111\n  turn\n  expect result 1111\n');
    expect(missedIn(after)).toBe(0);
  });

  test('says so where there is nothing to add', () => {
    const all = proved(on('adder', '  note "nothing yet"'));
    const { opened, action } = offered(all.replace('sequence trial', 'sequence trial‸'));
    if (!action) throw new Error('Nothing is offered.');
    expect(resolveAction(opened.document, action, reader()).disabled?.reason).toBe(
      'Nothing was found that would catch more.',
    );
  });

  test('is offered on the header alone, where the sequence comes to its end without an error', () => {
    expect(offered(`${machine('adder')}sequence trial on stores\n  cle‸ar all\n`).action).toBeUndefined();
    expect(offered(on('reverse', '  turn back until overdraw\n')).action).toBeUndefined();
    expect(offered(on('reverse', '  set 1; turn back')).action).toBeUndefined();
    expect(offered('sequence trial‸ on nobody\n  clear all\n').action).toBeUndefined();
  });
});
