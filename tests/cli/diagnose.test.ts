import { describe, expect, it } from 'vitest';
import { SCRIPT } from './bench-script.js';
import { cranknote, folderOf } from './program.js';

const cwd = folderOf({
  'before.crank': `${SCRIPT}bench "Before cleaning" of nines on lever-6\n  found noughts result 9999990000\n`,
  'after.crank': `${SCRIPT}bench "After" of nines on lever-6\n  found nines bell\n  found noughts result 0\n`,
  'slip.crank': `${SCRIPT}bench "Slip" of nines on lever-6\n  found nuns bell\n`,
  'none.crank': SCRIPT,
  'evil.crank': `${SCRIPT}bench "\u001b[31m<b>" of nines on lever-6\n  found 1 no bell\n`,
});
const diagnose = (...args: string[]) => cranknote(['diagnose', ...args], { cwd });

describe('diagnose', () => {
  it('names the fault that explains a record, and fails', () => {
    const { out, code } = diagnose('before.crank');
    expect(out).toContain('before.crank:15  Before cleaning');
    expect(out).toContain('carry-lost result 4 add: a carry out of result place 4 is not delivered in turns that add');
    expect(out).toContain('the tens carry of the result from place 4 to 5');
    expect(code).toBe(1);
  });
  it('says that a record is a pass', () => {
    const { out, code } = diagnose('after.crank');
    expect(out).toMatch(/Pass: both readings noted are as on the sound machine/);
    expect(code).toBe(0);
  });
  it('says what is wrong with the record itself', () => {
    const { out, code } = diagnose('slip.crank');
    expect(out).toContain('Did you mean nines?');
    expect(code).toBe(1);
  });
  it('has nothing to do without a record', () => {
    const { err, code } = diagnose('none.crank');
    expect(err).toContain('no bench record');
    expect(code).toBe(2);
  });
  it('sends nothing from a file to the terminal as it stands', () => {
    const { out } = diagnose('evil.crank');
    expect(out).not.toContain('\u001b[31m');
    expect(out).toContain('bell-dead');
  });
  it('tells other programs the same', () => {
    const { records } = JSON.parse(diagnose('before.crank', '--format', 'json').out);
    expect(records[0]).toMatchObject({
      file: 'before.crank',
      line: 15,
      verdict: 'explained',
      faults: [{ fault: 'carry-lost result 4 add', mechanism: 'tens-carry' }],
      readings: [{ number: 2, what: 'result', found: '9999990000', sound: '0' }],
      next: null,
    });
  });
});
