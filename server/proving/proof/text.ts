/** A proving sequence as it is written: cautions, a note over each part, and every reading with a label for bench records. */
import { formatLines } from '../../../grammar/formatter.js';
import { Parser } from '../../../grammar/sections.js';
import { MECHANISMS, type MechanismPart } from '../../machine/index.js';
import type { ProvingWording } from '../wording/index.js';
import type { ProvingScript } from './index.js';
import { expectText } from './written.js';

/** The beginning of the labels of each part: `carry-3`. */
const LABEL: Readonly<Record<MechanismPart, string>> = {
  levers: 'lever',
  'tens-carry': 'carry',
  counter: 'count',
  clearing: 'cleared',
  transfer: 'transfer',
  bell: 'bell',
};

/** The lines of a sequence with that name; its parts are those of the script. */
export function proofLines(
  { profile, groups, shown }: ProvingScript,
  name: string,
  parts: readonly MechanismPart[],
  wording: ProvingWording,
): string[] {
  const isWhole = parts.length === MECHANISMS.length;
  const title = isWhole ? wording.proofTitle : wording.proofTitleOf(parts.map((part) => wording.part[part]));
  const lines = [
    `sequence ${name} "${title}" on ${profile.name}`,
    ...wording.proofCautions.map((text) => `caution "${text}"`),
  ];
  let look = 0;
  for (const [i, { part, lines: own }] of groups.entries()) {
    const [first, ...rest] = own;
    const isStart = i === 0 && first && 'step' in first && first.step === 'clear all';
    if (isStart) lines.push(first.step);
    const left = isStart ? rest : own;
    if (left.length === 0) continue;
    lines.push(`note "${wording.proofNote[part]}"`);
    let number = 0;
    for (const line of left) {
      if ('step' in line) lines.push(line.step);
      else {
        number++;
        lines.push(expectText(line.looks, shown[look++], `${LABEL[part]}-${number}`));
      }
    }
  }
  return formatLines(new Parser().parseLines(lines));
}
