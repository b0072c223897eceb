/** How what is being typed is written, and which part of it comes next. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WORDS } from '../../grammar/tokens.js';
import { formOf } from '../../server/service/completion/forms.js';
import { signatureHelp } from '../../server/service/signature.js';
import { anyFile } from '../grammar/generate.js';
import { openMarked, reader } from './editor.js';

const SHED = 'machine shed\n  setting 6\n  counter 5\n  result 10\n';

/** The forms that are shown, the part in hand of each between ⟦ ⟧. */
function shown(marked: string): string[] | undefined {
  const { document, cursor } = openMarked(marked);
  return signatureHelp(document, cursor, reader())?.signatures.map(({ label, parameters, activeParameter }) => {
    const span = activeParameter == null ? undefined : parameters?.[activeParameter]?.label;
    if (!Array.isArray(span)) return label;
    return `${label.slice(0, span[0])}⟦${label.slice(...span)}⟧${label.slice(span[1])}`;
  });
}
const inStep = (text: string) => shown(`${SHED}sequence pots (a = 5)\n  ${text}`);
const inMachine = (text: string) => shown(`machine shed\n  ${text}`);

describe('a step', () => {
  it.each([
    ['set ‸', ['set ⟦N⟧ [at K] [and N [at K]]']],
    ['set 24‸', ['set ⟦N⟧ [at K] [and N [at K]]']],
    ['set a ‸', ['set N [⟦at K⟧] [and N [at K]]']],
    ['set 24 at ‸', ['set N [⟦at K⟧] [and N [at K]]']],
    ['set 24 at 2 ‸', ['set N [at K] [⟦and N⟧ [at K]]']],
    ['set 24 and 17 at ‸', ['set N [at K] [and N [⟦at K⟧]]']],
    ['multiply ‸', ['multiply ⟦by N⟧ [short]']],
    ['multiply by ‸', ['multiply ⟦by N⟧ [short]']],
    ['turn ‸', ['turn [⟦back⟧] [N]', 'turn [⟦back⟧] until overdraw', 'turn ⟦until stop⟧']],
    ['turn back ‸', ['turn [back] [⟦N⟧]', 'turn [back] ⟦until overdraw⟧']],
    ['turn back 2‸', ['turn [back] [⟦N⟧]']],
    ['turn unt‸', ['turn [back] [⟦N⟧]', 'turn [back] ⟦until overdraw⟧', 'turn ⟦until stop⟧']],
    ['shift right ‸', ['shift right [⟦N⟧]', 'shift ⟦right half⟧']],
    ['shift to ‸', ['shift ⟦to N⟧']],
    ['points ‸', ['points ⟦REGISTER⟧ N …']],
    ['points setting ‸', ['points REGISTER ⟦N⟧ …']],
    ['points setting 2 coun‸', ['points ⟦REGISTER⟧ N …']],
    ['expect ‸', ['expect ⟦REGISTER⟧ N …', 'expect ⟦bell | overflow | overdraw | parked⟧', 'expect ⟦carriage N⟧']],
    ['expect result -‸', ['expect REGISTER ⟦N⟧ …']],
    ['expect result -42 as total counter ‸', ['expect REGISTER ⟦N⟧ …']],
    ['goal result = a * ‸', ['goal REGISTER ⟦= EXPRESSION⟧']],
    ['goal ‸', ['goal ⟦REGISTER⟧ = EXPRESSION']],
    ['case a ‸', ['case NAME ⟦= N⟧, …']],
    ['case a = 2, ‸', ['case ⟦NAME⟧ = N, …']],
    ['repeat ‸', ['repeat ⟦N⟧ { … }']],
    ['divide to ‸', ['divide [⟦to K⟧] [short]']],
    ['run ‸', ['run ⟦NAME⟧ [(N, …)]']],
    ['note "‸', ['note ⟦"…"⟧']],
    ['turn; set ‸', ['set ⟦N⟧ [at K] [and N [at K]]']],
    ['repeat 2 { mode ‸ }', ['mode ⟦add⟧', 'mode ⟦subtract⟧']],
  ])('%s', (text, forms) => {
    expect(inStep(text)).toEqual(forms);
  });

  it('that is finished, not begun, or none has no form', () => {
    for (const text of [
      '‸',
      'tu‸',
      'mode add ‸',
      'expect parked ‸',
      'turn # set ‸',
      'pots ‸',
      'found ‸',
      'setting ‸',
    ]) {
      expect(inStep(text), text).toBeUndefined();
    }
  });

  it('that is written otherwise shows every form, with no part in hand', () => {
    expect(inStep('mode x‸')).toEqual(['mode add', 'mode subtract']);
    expect(inStep('set ? ‸')).toEqual(['set N [at K] [and N [at K]]']);
  });

  it('takes a word that is half written for one of the notation', () => {
    const { document, cursor } = openMarked(`${SHED}sequence pots\n  turn unt‸`);
    expect(signatureHelp(document, cursor, reader())).toMatchObject({ activeSignature: 1, activeParameter: 1 });
  });

  it('says what it means', () => {
    const { document, cursor } = openMarked(`${SHED}sequence pots\n  mode ‸`);
    const help = signatureHelp(document, cursor, reader());
    expect(help?.signatures[0].documentation).toEqual({
      kind: 'markdown',
      value: 'Moves the drive lever to add or to subtract\\.',
    });
    expect(help?.activeParameter).toBe(0);
  });
});

describe('run', () => {
  const text = `${SHED}sequence area "Area <b>" (a = 34, b = 2.5)\n  turn\nsequence once\n  turn\nsequence bay\n  `;

  it('shows what the sequence takes', () => {
    expect(shown(`${text}run area ‸`)).toEqual(['run area (⟦a = 34⟧, b = 2.5)']);
    expect(shown(`${text}run area (‸`)).toEqual(['run area (⟦a = 34⟧, b = 2.5)']);
    expect(shown(`${text}run area (12‸, 4)`)).toEqual(['run area (⟦a = 34⟧, b = 2.5)']);
    expect(shown(`${text}run area (12, ‸)`)).toEqual(['run area (a = 34, ⟦b = 2.5⟧)']);
    expect(shown(`${text}run area (12, 4, ‸`)).toEqual(['run area (a = 34, b = 2.5)']);
    expect(shown(`${text}run area (12, 4) ‸`)).toBeUndefined();
  });

  it('of one that takes nothing', () => {
    expect(shown(`${text}run once ‸`)).toBeUndefined();
    expect(shown(`${text}run once (‸`)).toEqual(['run once ()']);
  });

  it('of one that is not known shows the form', () => {
    expect(shown(`${text}run orchard (3, ‸`)).toEqual(['run NAME [(⟦N⟧, …)]']);
  });

  it('escapes the title', () => {
    const { document, cursor } = openMarked(`${text}run area (‸`);
    const documentation = signatureHelp(document, cursor, reader())?.signatures[0].documentation;
    expect(documentation).toEqual({ kind: 'markdown', value: 'Area \\<b\\>' });
  });
});

describe('other lines', () => {
  it.each([
    ['effort ‸', ['effort ⟦turn A⟧ shift B lever C']],
    ['effort turn 1 shift ‸', ['effort turn A ⟦shift B⟧ lever C']],
    ['counter 5 ‸', ['counter N [⟦carry | plain | signed⟧]']],
    ['result 10 dials ‸', ['result N [dials] [⟦reach K⟧]']],
    ['subtract ha‸', ['subtract ⟦reverse | lever | half-step | lift | none⟧']],
    ['transfer result ‸', ['transfer result [⟦at 1⟧]']],
    ['phrase turn back "‸', ['phrase STEP ⟦"…"⟧']],
    ['no ‸', ['no ⟦LINE⟧']],
    ['bell ‸', undefined],
  ])('of a machine: %s', (text, forms) => {
    expect(inMachine(text)).toEqual(forms);
  });

  it.each([
    ['machine shed ‸', ['machine NAME [⟦"Title"⟧] [like NAME]']],
    ['machine shed like ‸', ['machine NAME ["Title"] [⟦like NAME⟧]']],
    ['sequence area (a ‸', ['sequence NAME ["Title"] [(NAME ⟦= N⟧, …)] [on NAME]']],
    ['sequence area (a = 3, b = ‸', ['sequence NAME ["Title"] [(NAME ⟦= N⟧, …)] [on NAME]']],
    ['sequence area (a = 3) ‸', ['sequence NAME ["Title"] [(NAME = N, …)] [⟦on NAME⟧]']],
    ['bench "May" of area on ‸', ['bench "Title" of NAME ⟦on NAME⟧']],
    ['use "‸"', ['use ⟦"FILE"⟧']],
    ['bench "May" of area on shed\n  found 2 ‸', ['found NAME | N ⟦REGISTER⟧ N …']],
    ['bench "May" of area on shed\n  found 2 result ‸', ['found NAME | N REGISTER ⟦N⟧ …']],
  ])('%s', (text, forms) => {
    expect(shown(text)).toEqual(forms);
  });
});

describe('forms', () => {
  const forms = WORDS.flatMap((word) => Object.values(word.forms ?? {}).flat());

  it('have a place in a part for whatever is to be filled in', () => {
    for (const label of forms) {
      const { parts } = formOf(label);
      for (const match of label.matchAll(/[A-Z]+\b|"[^"]+"/g)) {
        if (label.slice(0, match.index).includes('{')) continue;
        const isHeld = parts.some(({ from, to }) => from <= match.index && match.index < to);
        expect(isHeld, `${match[0]} in ${label}`).toBe(true);
      }
    }
  });

  it('are found in any text, or nothing is', () => {
    fc.assert(
      fc.property(anyFile, fc.nat(), fc.nat(), ({ lines }, at, cut) => {
        if (lines.length === 0) return;
        const line = at % lines.length;
        const character = cut % (lines[line].length + 1);
        const text = [...lines.slice(0, line), lines[line].slice(0, character), ...lines.slice(line + 1)].join('\n');
        const { document } = openMarked(text);
        for (const signature of signatureHelp(document, { line, character }, reader())?.signatures ?? []) {
          expect(forms.includes(signature.label) || signature.label.startsWith('run ')).toBe(true);
        }
      }),
      { numRuns: 400 },
    );
  });
});
