import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { cranknote, folderOf, LOOKS_BROKEN } from './program.js';

const cwd = folderOf({ 'taken.crank': '# mine\n' });
const begin = (...args: string[]) => cranknote(['new', ...args], { cwd });
const read = (name: string) => readFileSync(path.join(cwd, name), 'utf8');

describe('new', () => {
  it('prints a file that check passes and format leaves as it is', () => {
    const { out, err, code } = begin('--machine', 'half-step', '--task', 'multiply');
    expect({ err, code }).toEqual({ err: '', code: 0 });
    expect(out).toContain('machine halfstep-10 "Half-step machine"');
    expect(cranknote(['check', '-', '--level', 'hint'], { cwd, input: out })).toMatchObject({ code: 0 });
    expect(cranknote(['format', '-'], { cwd, input: out }).out).toBe(out);
  });

  it('writes it where it is told to, in German if that is wished', () => {
    const order = ['--machine', 'adding', '--task', 'add', '--language', 'de'];
    expect(begin(...order, '--out', 'markt.crank')).toMatchObject({ code: 0, out: '' });
    expect(read('markt.crank')).toContain('"Einnahmen eines Markttags"');
    expect(cranknote(['check', 'markt.crank', '--level', 'hint'], { cwd }).code).toBe(0);
  });

  it('writes over nothing, unless it is told to', () => {
    const order = ['--machine', 'learner', '--task', 'exercise', '--out', 'taken.crank'];
    const { err, code } = begin(...order);
    expect(err).toContain('taken.crank is there already');
    expect(err).toContain('--force');
    expect(code).toBe(2);
    expect(read('taken.crank')).toBe('# mine\n');
    expect(begin(...order, '--force').code).toBe(0);
    expect(read('taken.crank')).toContain('ask counter result');
  });

  it('says what there is to choose, and what a machine can not do', () => {
    const { out } = begin('--help');
    expect(out).toContain('lifted-crank    Drum machine, crank lifted to subtract');
    expect(out).toMatch(/exercise +An exercise with several cases/);
    expect(begin('--machine', 'loom', '--task', 'add').err).toContain('Allowed choices are pinwheel, ');
    expect(begin('--machine', 'learner')).toMatchObject({ code: 2, out: '' });
    const refused = begin('--machine', 'adding', '--task', 'divide', '--language', 'de');
    expect(refused).toMatchObject({ code: 1, out: '' });
    expect(refused.err).toContain('no counter');
    const nowhere = begin('--machine', 'adding', '--task', 'add', '--out', 'nowhere/a.crank');
    expect(nowhere.code).toBe(2);
    expect(nowhere.err).toContain('can’t be written'.replace('’', "'"));
    expect(nowhere.err).not.toMatch(LOOKS_BROKEN);
  });
});
