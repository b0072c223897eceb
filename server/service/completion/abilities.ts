/** What a machine can't do, told from the words with which a step begins. */
import { hasDriveLever, hasHalfSteps, leftmost, type Profile } from '../../machine/index.js';
import type { Device, Facts } from '../../sequence/findings.js';
import type { Reader } from '../document.js';

/** A step that begins with these words, and when a machine lacks something for it. */
interface Need {
  readonly begins: RegExp;
  readonly device: Device;
  readonly isMissing: (profile: Profile) => boolean;
}

const hasNoSubtraction = ({ subtract }: Profile): boolean => subtract === 'none';
const hasNoParking = (profile: Profile): boolean => leftmost(profile) !== 0;

const NEEDS: readonly Need[] = [
  { begins: /^mode\b/, device: 'mode', isMissing: (profile) => !hasDriveLever(profile) },
  { begins: /^count\b/, device: 'count', isMissing: ({ count }) => count !== 'lever' },
  { begins: /^auto-clear\b/, device: 'auto-clear', isMissing: ({ autoClear }) => !autoClear },
  { begins: /^auto-divide\b/, device: 'auto-divide', isMissing: ({ autoDivide }) => !autoDivide },
  { begins: /^turn (?:back )?until stop\b/, device: 'auto-divide', isMissing: ({ autoDivide }) => !autoDivide },
  { begins: /^dial\b/, device: 'dial', isMissing: ({ dials }) => !dials },
  {
    begins: /^transfer$/,
    device: 'transfer result',
    isMissing: ({ transferResult, transferCounter }) => transferResult === 'none' && !transferCounter,
  },
  {
    begins: /^transfer result\b/,
    device: 'transfer result',
    isMissing: ({ transferResult }) => transferResult === 'none',
  },
  { begins: /^transfer counter\b/, device: 'transfer counter', isMissing: ({ transferCounter }) => !transferCounter },
  { begins: /^shift out\b/, device: 'shift out', isMissing: hasNoParking },
  { begins: /^expect (?:.* )?parked$/, device: 'shift out', isMissing: hasNoParking },
  { begins: /^shift (?:right|left) half\b/, device: 'half steps', isMissing: (profile) => !hasHalfSteps(profile) },
  { begins: /^turn until(?: overdraw)?$/, device: 'subtract', isMissing: hasNoSubtraction },
  { begins: /^divide\b/, device: 'subtract', isMissing: hasNoSubtraction },
  { begins: /^expect (?:.* )?overdraw$/, device: 'subtract', isMissing: hasNoSubtraction },
  { begins: /^expect (?:.* )?bell$/, device: 'bell', isMissing: ({ bell }) => !bell },
  {
    begins: /^(?:clear|points|expect|ask|goal) (?:.* )?counter$/,
    device: 'counter',
    isMissing: ({ counter }) => counter === 0,
  },
];

/** What a machine would say to a step that begins with these words; undefined where it can be done. */
export function lackOf(begun: readonly string[], profile: Profile): Facts | undefined {
  const text = begun.join(' ');
  if (/^turn back\b/.test(text) && profile.subtract !== 'reverse') {
    return { code: 'one-way-crank', machine: profile.name, subtracts: profile.subtract !== 'none' };
  }
  const need = NEEDS.find(({ begins, isMissing }) => begins.test(text) && isMissing(profile));
  return need && { code: 'not-on-this-machine', device: need.device, machine: profile.name };
}

/** What a finding says first, without the advice behind it. */
export const firstSentence = (facts: Facts, { wording }: Reader): string =>
  /^.*?\.(?=\s|$)/su.exec(wording.messageOf(facts))?.[0] ?? wording.messageOf(facts);
