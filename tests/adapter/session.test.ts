/** A scripted session of the debug protocol, over all that it can do, with the program that users run. */
import { writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { machine } from '../sequence/machines.js';
import { refusal, startStepping } from './client.js';

const MACHINE = machine('full');
const POTS = `use "stores.crank"

sequence pots "Pots" (rows = 12, pots = 31) on stores
  case rows = 15, pots = 28
  goal result = rows * pots

  clear all
  set rows
  repeat 2 {
    turn 2; clear counter
  }
  multiply by pots
  run rest (7)
  mode subtract
  turn 2
  expect result 1

sequence idle on stores
  clear all
`;
const REST = `${MACHINE}
sequence rest (extra = 3) on stores
  clear result
  shift to 1
  set extra
  turn 2
`;
const FILES = { 'a.crank': POTS, 'stores.crank': REST };

describe('launching', () => {
  test('says what can be done, and stops before the first step', async () => {
    const stepper = await startStepping(FILES);
    const stopped = await stepper.launch({ sequence: 'pots' });
    expect(stopped).toMatchObject({ reason: 'entry', description: 'Before the first step', threadId: 1 });
    const threads = await stepper.client.threadsRequest();
    expect(threads.body.threads).toEqual([{ id: 1, name: 'pots on stores' }]);
    expect(await stepper.at()).toBe('7: clear all (in pots)');
    const [{ source, column, endColumn }] = await stepper.stack();
    expect(source).toMatchObject({ name: 'a.crank', path: stepper.path('a.crank') });
    expect([column, endColumn]).toEqual([3, 12]);
  });

  test('takes a case, a fault, a line instead of a name, and a language', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch({ line: 7, case: 1, fault: 'lever-dead 1', language: 'de' });
    expect(await stepper.at()).toBe('7: clear all (in pots, Fall 1)');
    expect(await stepper.scope('Zahlen')).toMatchObject([
      { name: 'rows', value: '15' },
      { name: 'pots', value: '28' },
    ]);
    expect(stepper.output).toEqual(['Die Maschine hat einen Fehler: Hebel 1 treibt nichts.']);
    expect((await stepper.scope('Lauf')).at(-1)).toMatchObject({ name: 'Fehler', value: 'Hebel 1 treibt nichts' });
  });

  test('refuses what it can not step through, in a sentence', async () => {
    const stepper = await startStepping({
      ...FILES,
      'none.crank': MACHINE,
      'broken.crank': 'sequence s on nowhere\n  turn\n',
    });
    const { client } = stepper;
    await client.initializeRequest();
    const launch = (args: object) => refusal(client.launchRequest(args as never));
    const program = stepper.path('a.crank');
    expect(await launch({})).toBe('Which file is to be stepped through? Give its path or address as program.');
    expect(await launch({ program: stepper.path('gone.crank') })).toBe('gone.crank can’t be read.');
    expect(await launch({ program: stepper.path('none.crank') })).toBe('There is no sequence in this file.');
    expect(await launch({ program: stepper.path('broken.crank') })).toContain('s can’t be run');
    expect(await launch({ program, sequence: 'pot' })).toBe('There is no sequence called pot in this file.');
    expect(await launch({ program, sequence: 'pots', case: 4 })).toBe(
      'pots has no case 4: there is 1 case, and 0 means the defaults.',
    );
    expect(await launch({ program, sequence: 'pots', fault: 'lever-dead 9' })).toContain("can't have the fault");
    expect(await refusal(client.stackTraceRequest({ threadId: 1 }))).toBe('Nothing is being stepped through yet.');
    expect(await refusal(client.customRequest('dance'))).toBe('dance is not answered here.');
  });

  test('runs to the end where nothing stops it, and ends with the next step', async () => {
    const stepper = await startStepping(FILES);
    const stopped = await stepper.launch({ sequence: 'idle', stopOnEntry: false });
    expect(stopped.description).toBe('The sequence has ended. The machine stands as after its last step.');
    expect(await stepper.at()).toBe('19: the end (in idle)');
    await stepper.toTheEnd(() => stepper.client.continueRequest({ threadId: 1 }));
  });
});

describe('stepping', () => {
  test('over, into, out, turn by turn', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch({ sequence: 'pots' });
    await stepper.next();
    await stepper.next();
    expect(await stepper.at()).toBe('9: repeat 2 (in pots)');
    await stepper.into();
    expect((await stepper.stack()).map(({ name, line }) => `${line}: ${name}`)).toEqual([
      '10: turn 2 (round 1 of 2)',
      '9: pots',
    ]);
    await stepper.into();
    expect(await stepper.at()).toBe('10: turn 2, 1 of 2 made (round 1 of 2)');
    expect(await stepper.scope('Registers')).toMatchObject([
      { name: 'setting', value: '0012 = 12' },
      { name: 'counter', value: '0001 = 1' },
      { name: 'result', value: '00000012 = 12' },
    ]);
    await stepper.out();
    expect(await stepper.at()).toBe('10: clear counter (round 1 of 2)');
    await stepper.next();
    expect(await stepper.at()).toBe('10: turn 2 (round 2 of 2)');
    await stepper.out();
    expect(await stepper.at()).toBe('12: multiply by 31 (in pots)');
    await stepper.into();
    expect((await stepper.stack()).map(({ name }) => name)).toEqual(['turn (in multiply by 31)', 'pots']);
    await stepper.next();
    expect(await stepper.at()).toBe('12: shift right (in multiply by 31)');
    await stepper.out();
    await stepper.into();
    const stack = await stepper.stack();
    expect(stack.map(({ name, line, source }) => `${source?.name} ${line}: ${name}`)).toEqual([
      'stores.crank 15: clear result (in run rest (7))',
      'a.crank 13: pots',
    ]);
    expect(await stepper.scope('Numbers')).toMatchObject([{ name: 'extra', value: '7' }]);
    expect(await stepper.scope('Numbers', 1)).toHaveLength(2);
    expect(await stepper.evaluate('extra * 2')).toBe('14');
    expect(await stepper.evaluate('rows * pots', 'watch', 1)).toBe('372');
    await stepper.out();
    expect(await stepper.at()).toBe('14: mode subtract (in pots)');
  });

  test('back and reverse', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch({ sequence: 'pots' }, { 'a.crank': [{ line: 10 }] });
    const forward: string[][] = [];
    for (;;) {
      forward.push([await stepper.at(), ...(await stepper.shown())]);
      if ((await stepper.into()).description?.startsWith('The sequence has ended')) break;
    }
    const backward: string[][] = [];
    do {
      await stepper.until(() => stepper.client.stepBackRequest({ threadId: 1, granularity: 'instruction' }));
      backward.unshift([await stepper.at(), ...(await stepper.shown())]);
    } while (!backward[0][0].startsWith('7: clear all'));
    expect(backward).toEqual(forward);
    await stepper.goOn();
    await stepper.goOn();
    expect(await stepper.at()).toBe('10: turn 2 (round 2 of 2)');
    await stepper.reverse();
    expect(await stepper.at()).toBe('10: turn 2 (round 1 of 2)');
    const { description } = await stepper.reverse();
    expect([await stepper.at(), description]).toEqual(['7: clear all (in pots)', 'Before the first step']);
    expect((await stepper.back()).description).toBe('Before the first step');
  });

  test('a thousand steps, and back to the start: each with the readings of the way there', async () => {
    const steps = Array.from(
      { length: 250 },
      (_, i) => `  set ${i % 97}\n  turn ${1 + (i % 4)}\n  shift to ${1 + (i % 4)}\n  clear counter\n`,
    );
    const stepper = await startStepping({ 'a.crank': `${MACHINE}sequence long on stores\n${steps.join('')}` });
    await stepper.launch({});
    const result = async () => {
      const all = await stepper.inside(1);
      return all.map(({ value }) => value).join(' ');
    };
    const forward = [await result()];
    for (let step = 1; step < 1000; step++) {
      await stepper.next();
      forward.push(await result());
    }
    expect((await stepper.next()).description).toContain('has ended');
    const backward: string[] = [];
    for (let step = 0; step < 1000; step++) {
      await stepper.back();
      backward.unshift(await result());
    }
    expect(backward).toEqual(forward);
    expect(await stepper.at()).toBe('14: set 0 (in long)');
    expect(new Set(forward).size).toBeGreaterThan(700);
  });
});

describe('marks', () => {
  test('come to lie on the nearest step, and say where they can not', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch({ sequence: 'pots' });
    const told = await stepper.mark('a.crank', [
      { line: 4 },
      { line: 9 },
      { line: 10, column: 12 },
      { line: 11 },
      { line: 19 },
      { line: 1 },
    ]);
    expect(told.map(({ verified, line, column, message }) => [verified, line, column, message])).toEqual([
      [true, 7, 3, undefined],
      [true, 9, 3, undefined],
      [true, 10, 13, undefined],
      [true, 12, 3, undefined],
      [false, 19, 1, 'No sequence that is carried out in this session stands here.'],
      [false, 1, 1, 'No sequence that is carried out in this session stands here.'],
    ]);
    expect((await stepper.mark('stores.crank', [{ line: 18 }]))[0]).toMatchObject({ verified: true, line: 18 });
    const [other] = await stepper.mark('b.crank', [{ line: 1 }]);
    expect(other.message).toBe('No step that is carried out in this session stands in this file.');
    await stepper.mark('a.crank', []);
    await stepper.goOn();
    expect((await stepper.stack())[0]).toMatchObject({ line: 18, source: { name: 'stores.crank' } });
    const source = { path: stepper.path('a.crank') };
    const places = await stepper.client.customRequest('breakpointLocations', { source, line: 9, endLine: 10 });
    expect(places.body.breakpoints).toEqual([
      { line: 9, column: 3 },
      { line: 10, column: 5 },
      { line: 10, column: 13 },
    ]);
  });

  test('where a step is never come to', async () => {
    const text = `${MACHINE}sequence s on stores\n  clear all\n  mode subtract\n  set 1\n  turn\n  clear result\n  set 0\n  turn until overdraw\n  set 4\n`;
    const stepper = await startStepping({ 'a.crank': text });
    await stepper.launch({});
    const [reached, never] = await stepper.mark('a.crank', [{ line: 14 }, { line: 21 }]);
    expect([reached.verified, never.verified, never.message]).toEqual([
      true,
      false,
      'The machine does not come to this step in this run.',
    ]);
  });

  test('stop on conditions and counts', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch(
      { sequence: 'pots' },
      { 'a.crank': [{ line: 10, condition: 'result > 20 and position = 1' }] },
    );
    const stopped = await stepper.goOn();
    expect(stopped).toMatchObject({ reason: 'breakpoint', hitBreakpointIds: [1] });
    expect(await stepper.at()).toContain('round 2 of 2');
    await stepper.reverse();
    await stepper.mark('a.crank', [{ line: 10, hitCondition: '2' }]);
    await stepper.goOn();
    expect(await stepper.at()).toContain('round 2 of 2');
    await stepper.reverse();
    await stepper.mark('a.crank', [{ line: 10, hitCondition: '>= 3' }]);
    expect((await stepper.goOn()).description).toContain('ended');
    await stepper.mark('a.crank', [{ line: 10, hitCondition: '% 2' }]);
    await stepper.reverse();
    expect(await stepper.at()).toContain('round 2 of 2');
  });

  test('that can not be understood say so when they are set', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch({ sequence: 'pots' });
    const said = async (mark: object) => (await stepper.mark('a.crank', [{ line: 10, ...mark }]))[0].message;
    expect(await said({ condition: 'result >' })).toContain('“result >” is not understood.');
    expect(await said({ condition: 'resutl > 3' })).toBe(
      'Nothing called resutl can be read here. Did you mean result?',
    );
    expect(await said({ condition: 'result + 1' })).toContain('result + 1 says how much, and not whether.');
    expect(await said({ condition: 'result at 12 = 3' })).toBe('The result has no place 12: places go from 1 to 8.');
    expect(await said({ hitCondition: 'often' })).toBe('often says not how often. Write 3, >= 3 or % 2.');
    expect(await said({ logMessage: 'reads {result' })).toContain('is not closed');
    expect(
      await said({ condition: 'rows = 12', hitCondition: '1', logMessage: 'reads {result at 1}' }),
    ).toBeUndefined();
  });

  test('write instead of stopping', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch(
      { sequence: 'pots' },
      { 'a.crank': [{ line: 10, logMessage: 'result {result}, turned {counter + 1}' }] },
    );
    expect((await stepper.goOn()).description).toContain('ended');
    expect(stepper.output).toEqual(['result 00000000 = 0, turned 1', 'result 00000024 = 24, turned 1']);
  });

  test('on a register and on one wheel stop where it changes', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch({ sequence: 'pots' });
    const registers = await stepper.scope('Registers');
    const result = registers.find(({ name }) => name === 'result');
    const info = await stepper.client.dataBreakpointInfoRequest({ variablesReference: 1, name: 'result' });
    expect(info.body).toMatchObject({ dataId: 'result', description: 'result' });
    const wheels = await stepper.inside(result?.variablesReference ?? 0);
    expect(wheels.map(({ name }) => name).slice(-2)).toEqual(['place 2', 'place 1']);
    const wheel = await stepper.client.dataBreakpointInfoRequest({
      variablesReference: result?.variablesReference ?? 0,
      name: 'place 2',
    });
    expect(wheel.body.dataId).toBe('result 2');
    expect((await stepper.client.dataBreakpointInfoRequest({ name: 'cost' })).body.dataId).toBeNull();
    await stepper.client.setDataBreakpointsRequest({ breakpoints: [{ dataId: 'result', condition: 'result > 12' }] });
    const stopped = await stepper.goOn();
    expect(stopped).toMatchObject({ reason: 'data breakpoint', description: 'result has changed' });
    expect(await stepper.at()).toBe('10: turn 2, done (round 1 of 2)');
    await stepper.client.setDataBreakpointsRequest({ breakpoints: [{ dataId: 'result 2' }, { dataId: 'fish' }] });
    await stepper.goOn();
    expect(await stepper.at()).toBe('10: turn 2, 1 of 2 made (round 2 of 2)');
    await stepper.reverse();
    expect(await stepper.at()).toBe('10: turn 2, done (round 1 of 2)');
  });
});

describe('findings', () => {
  const text = `${MACHINE}sequence s on stores\n  goal result = 5\n  clear all\n  set 1\n  mode subtract\n  turn\n  expect result 7\n  mode add\n  turn 10\n`;

  test('of the chosen levels stop right behind the step in which they are noticed', async () => {
    const stepper = await startStepping({ 'a.crank': text });
    await stepper.launch({}, {}, ['error']);
    const stopped = await stepper.goOn();
    expect(stopped).toMatchObject({ reason: 'exception', description: 'error' });
    expect(stopped.text).toContain('below zero');
    expect(await stepper.at()).toBe('18: turn, done (in s)');
    const info = await stepper.client.exceptionInfoRequest({ threadId: 1 });
    expect(info.body).toMatchObject({ exceptionId: 'result-overdraw', description: stopped.text, breakMode: 'always' });
    await stepper.goOn();
    expect(await stepper.at()).toBe('19: expect result 7, done (in s)');
    expect((await stepper.next()).reason).toBe('step');
    expect(await stepper.at()).toBe('20: mode add (in s)');
    await stepper.goOn();
    expect((await stepper.client.exceptionInfoRequest({ threadId: 1 })).body.exceptionId).toBe('counter-overflow');
    const end = await stepper.goOn();
    expect(end).toMatchObject({ reason: 'exception', description: 'error' });
    expect((await stepper.client.exceptionInfoRequest({ threadId: 1 })).body.exceptionId).toBe('goal-missed');
    expect(await stepper.at()).toBe('21: the end (in s)');
    await stepper.toTheEnd(() => stepper.client.nextRequest({ threadId: 1 }));
  });

  test('are passed over where nobody asked for their level', async () => {
    const stepper = await startStepping({ 'a.crank': text });
    await stepper.launch({}, {}, ['hint']);
    await stepper.goOn();
    expect(await stepper.at()).toBe('21: turn 10, done (in s)');
    expect((await stepper.client.exceptionInfoRequest({ threadId: 1 })).body.exceptionId).toBe('many-turns');
  });
});

describe('what is shown', () => {
  test('every part of the machine, and what was done so far', async () => {
    const stepper = await startStepping({
      'a.crank': `${MACHINE}sequence s on stores\n  points setting 1 result 1\n  set 12.5\n  count minus\n  turn 3\n  shift right 2\n  auto-clear on\n`,
    });
    await stepper.launch({});
    for (let i = 0; i < 4; i++) await stepper.next();
    expect(await stepper.shown()).toEqual([
      'setting: 0125 = 12.5',
      'counter: 9997 = 9\u202f997 (−3)',
      'result: 00000375 = 37.5',
      'position: 1',
      'drive: add',
      'count lever: minus',
      'auto-clear: off',
      'auto-divide: off',
      'setting: 1',
      'counter: 0',
      'result: 1',
      'overflows less overdraws: 0',
      'bell in the last turn or step: silent',
      'step: 4 of 6',
      'turns: 3',
      'shifts: 0',
      'levers moved: 1',
      'effort: 5',
    ]);
    const [setting] = await stepper.scope('Registers');
    expect((await stepper.inside(setting.variablesReference)).map(({ name, value }) => `${name} ${value}`)).toEqual([
      'place 4 0',
      'place 3 1',
      'place 2 2',
      'place 1 5',
    ]);
  });

  test('whatever is asked of it', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch({ sequence: 'pots' }, { 'a.crank': [{ line: 12 }] });
    await stepper.goOn();
    expect(await stepper.evaluate('result', 'hover')).toBe('00000048 = 48');
    expect(await stepper.evaluate('rows * pots', 'hover')).toBe('372');
    expect(await stepper.evaluate('result / 7')).toBe('6.8571');
    expect(await stepper.evaluate('result at 1 + position')).toBe('9');
    expect(await stepper.evaluate('(result = 48 or wraps < 0) and setting ≤ 12')).toBe('yes');
    expect(await stepper.evaluate('result != 48')).toBe('no');
    expect(await refusal(stepper.evaluate('1 / 0'))).toContain('divides by zero');
    expect(await refusal(stepper.evaluate('turn', 'hover'))).toContain('not understood');
    expect(await refusal(stepper.evaluate('', 'watch'))).toContain('Nothing is asked');
  });
});

describe('by hand', () => {
  const text = `${MACHINE}sequence s (a = 7) on stores\n  clear all\n  set 12\n  turn 4\n  shift right\n  turn\n`;

  test('levers, wheels, carriage and markers are put where the machine allows it', async () => {
    const stepper = await startStepping({ 'a.crank': text });
    await stepper.launch({});
    await stepper.next();
    await stepper.next();
    await stepper.into();
    const [setting] = await stepper.scope('Registers');
    const wheel = { variablesReference: setting.variablesReference, name: 'place 3', value: '5' };
    expect((await stepper.client.setVariableRequest(wheel)).body.value).toBe('5');
    expect(stepper.output.at(-1)).toBe('By hand: set 0512. setting 512.');
    expect((await stepper.shown())[0]).toBe('setting: 0512 = 512');
    expect(await stepper.at()).toBe('16: turn 3 (in s)');
    expect(await stepper.put('Registers', 'setting', '0034 = 512')).toBe('0034 = 34');
    expect(await stepper.put('Registers', 'result', '1000')).toBe('00001000 = 1\u202f000');
    expect(await stepper.put('Registers', 'counter', '0')).toBe('0000 = 0');
    expect(await stepper.put('Carriage and levers', 'position', '3')).toBe('3');
    expect(await stepper.put('Carriage and levers', 'drive', 'subtract')).toBe('subtract');
    expect(await stepper.put('Carriage and levers', 'auto-clear', 'on')).toBe('on');
    expect(await stepper.put('Decimal markers', 'result', '2')).toBe('2');
    await stepper.into();
    expect((await stepper.shown()).slice(0, 4)).toEqual([
      'setting: 0000 = 0',
      'counter: 9900 = 9\u202f900',
      'result: 99997600 = 999\u202f976.00 (−24.00)',
      'position: 3',
    ]);
    await stepper.goOn();
    expect((await stepper.scope('Carriage and levers'))[0].value).toBe('4');
  });

  test('what it does not allow is refused in a sentence, and nothing moves', async () => {
    const stepper = await startStepping({ 'a.crank': text });
    await stepper.launch({});
    await stepper.next();
    const before = await stepper.shown();
    const put = (scope: string, name: string, value: string) => refusal(stepper.put(scope, name, value));
    expect(await put('Registers', 'setting', '12345')).toContain('levers');
    expect(await put('Registers', 'counter', '5')).toContain('turned by the crank alone');
    expect(await put('Registers', 'result', 'many')).toBe(
      '“many” is no number. Write figures as in a step: 245, or 24.5 at the marker.',
    );
    expect(await put('Carriage and levers', 'position', '9')).toContain('position');
    expect(await put('Carriage and levers', 'drive', 'sideways')).toBe(
      '“sideways” is no place of it. It stands at add or at subtract.',
    );
    expect(await put('Run', 'turns', '3')).toContain('can’t be set by hand');
    expect(await put('Numbers', 'a', '3')).toContain('can’t be set by hand');
    expect(await put('Decimal markers', 'result', '30')).toContain('result');
    expect(await stepper.shown()).toEqual(before);
    await stepper.goOn();
    expect(await put('Registers', 'setting', '1')).toContain('Step back first');
  });

  test('steps are typed, and going back before them and doing another drops what was done later', async () => {
    const stepper = await startStepping({ 'a.crank': text });
    await stepper.launch({});
    await stepper.next();
    await stepper.next();
    expect(await stepper.evaluate('set a; turn 2', 'repl')).toBe(
      'By hand: set 7. setting 7.\nBy hand: turn 2. counter 2, result 14.',
    );
    expect(await stepper.evaluate('result', 'repl')).toBe('00000014 = 14');
    expect(await refusal(stepper.evaluate('multiply by 3', 'repl'))).toBe(
      'multiply is more than one act of a hand. Write the single steps.',
    );
    expect(await refusal(stepper.evaluate('turn round', 'repl'))).toContain('Nothing called round can be read here.');
    expect(await refusal(stepper.evaluate('turn turn', 'repl'))).toContain('is no step');
    await stepper.back();
    expect(await stepper.at()).toBe('16: by hand: set 7 (in s)');
    await stepper.next();
    expect([await stepper.at(), await stepper.evaluate('result')]).toEqual(['17: shift right (in s)', '00000042 = 42']);
    await stepper.back();
    expect(await stepper.evaluate('set 2', 'repl')).toContain('What was done by hand later than this is dropped.');
    await stepper.goOn();
    expect(await stepper.evaluate('result')).toBe('00000028 = 28');
  });
});

describe('a file that changes on the disk', () => {
  test('is gone on with where the step is still there, and ended where it is not', async () => {
    const stepper = await startStepping(FILES);
    await stepper.launch({ sequence: 'pots' }, { 'a.crank': [{ line: 12 }] });
    await stepper.goOn();
    writeFileSync(
      stepper.path('a.crank'),
      POTS.replace('clear all\n', 'clear all\n  # more\n').replace('12, pots', '13, pots'),
    );
    await stepper.next();
    expect(stepper.output).toEqual(['The text has changed: the session goes on in the new run.']);
    expect(await stepper.at()).toBe('14: run rest (7) (in pots)');
    expect(await stepper.evaluate('rows', 'watch')).toBe('13');
    expect(stepper.events.filter(({ event }) => event === 'breakpoint').at(-1)?.body.breakpoint).toMatchObject({
      line: 13,
    });
    writeFileSync(stepper.path('a.crank'), POTS.replace('sequence pots', 'sequence jars'));
    await stepper.toTheEnd(() => stepper.client.nextRequest({ threadId: 1 }));
    expect(stepper.output.at(-1)).toBe('There is no sequence called pots in this file. The session ends.');
  });
});

test('a long run is gone through at once, and a search in it can be stopped', async () => {
  const text = `${MACHINE}sequence long on stores\n  clear all\n  repeat 999 {\n    repeat 100 { set 1; turn 9; clear result }\n  }\n`;
  const stepper = await startStepping({ 'a.crank': text });
  await stepper.launch({}, { 'a.crank': [{ line: 16, condition: 'sqrt(result) * sqrt(result + 1) > 1000000' }] });
  const paused = stepper.client.waitForEvent('stopped');
  // A pause counts that comes before the crank is turned at all.
  await Promise.all([stepper.client.continueRequest({ threadId: 1 }), stepper.client.pauseRequest({ threadId: 1 })]);
  expect(((await paused) as { body?: { reason: string } }).body?.reason).toBe('pause');
  await stepper.mark('a.crank', []);
  expect((await stepper.goOn()).description).toContain('broke off');
  await stepper.back();
  await stepper.back();
  await stepper.reverse();
  await stepper.toTheEnd(() => stepper.client.disconnectRequest());
});
