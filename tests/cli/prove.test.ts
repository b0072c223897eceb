import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf } from './program.js';

const MACHINE = `machine lever-4 "Four levers"
  setting 4
  counter 3
  result 7
  bell
machine plain
  setting 2
  result 4
  subtract none
`;
const cwd = folderOf({ 'machines.crank': MACHINE, 'taken.crank': '# mine\n' });
const prove = (...args: string[]) => cranknote(['prove', ...args], { cwd });

describe('prove', () => {
  it('prints a whole file that brings its machine with it, and says what it is worth', () => {
    const { out, err, code } = prove('lever-4');
    expect(code).toBe(0);
    expect(out).toMatch(/^use "machines\.crank"\n\n# Catches all \d+ faults/);
    expect(out).toContain('sequence prove-lever-4 "Proves every part that moves" on lever-4');
    expect(err).toMatch(/^Catches all \d+ faults that can act on this machine\./);
    expect(err).toMatch(/Effort \d+ .* No sequence does it with less than \d+\./);
  });
  it('writes a file that check passes and format leaves as it is', () => {
    expect(prove('lever-4', '--out', 'proof.crank').code).toBe(0);
    expect(cranknote(['check', 'proof.crank', '--level', 'hint'], { cwd }).out).toContain('nothing to remark');
    expect(cranknote(['format', '--check', 'proof.crank'], { cwd }).code).toBe(0);
  });
  it('proves one part alone', () => {
    const { out } = prove('lever-4', '--mechanism', 'bell');
    expect(out).toContain('"Proves bell"');
    expect(out).not.toContain('note "Levers');
    expect(prove('plain', '--mechanism', 'bell')).toMatchObject({ code: 2 });
  });
  it('overwrites nothing', () => {
    const { err, code } = prove('lever-4', '--out', 'taken.crank');
    expect(err).toContain('taken.crank is there already');
    expect(code).toBe(2);
    expect(readFileSync(path.join(cwd, 'taken.crank'), 'utf8')).toBe('# mine\n');
  });
  it('says which machine may have been meant, and where it can not write', () => {
    expect(prove('lever-5').err).toContain('Did you mean lever-4?');
    expect(prove('lever-4', '--out', 'nowhere/proof.crank')).toMatchObject({ code: 2 });
  });
});
