/** A diagnosis in words, line by line: the same for a terminal, an editor and a page, each of which sets it its way. */

import { type Fault, type MechanismPart, mechanismOf } from '../machine/index.js';
import type { BenchReport } from '../sequence/bench.js';
import { faultText } from '../sequence/fault-text.js';
import type { Look, Looked } from '../sequence/looks.js';
import type { Diagnosis, Parting } from './diagnosis.js';
import type { NextStep } from './next-step.js';
import type { ProvingWording } from './wording/index.js';

/** A fault in words. */
export interface ToldFault {
  /** As it is written. */
  readonly fault: string;
  readonly mechanism: MechanismPart;
  /** What the machine does. */
  readonly does: string;
  /** Where to look, or where it parts from what was found. */
  readonly look: string;
}

export interface ToldDiagnosis {
  readonly verdict: Diagnosis['verdict'] | 'not-run';
  readonly summary: string;
  /** Further sentences: where the sound machine parts, and that cases are left aside. */
  readonly remarks: readonly string[];
  readonly faults: readonly ToldFault[];
  readonly next?: ToldNext;
}

export interface ToldNext {
  readonly text: string;
  readonly steps: readonly string[];
  readonly classes: readonly { readonly shown: string; readonly faults: readonly string[] }[];
}

/** The label of an `expect`, if one of its items has one. */
export const labelAt = ({ expectings }: BenchReport, at: number): string | undefined =>
  expectings[at]?.step.syntax.items.find(({ label }) => label)?.label?.name;

export function tell(bench: BenchReport, diagnosis: Diagnosis | undefined, wording: ProvingWording): ToldDiagnosis {
  if (!diagnosis) return { verdict: 'not-run', summary: wording.notRunText, remarks: [], faults: [] };
  const nameOf = (at: number) => wording.readingName(at, labelAt(bench, at));
  const { verdict, explaining, nearest, soundParts, next } = diagnosis;
  const toldFault = (fault: Fault, look: string): ToldFault => ({
    fault: faultText(fault),
    mechanism: mechanismOf(fault),
    does: wording.faultSentence(fault),
    look,
  });
  const parting = ({ noted: { at, what, shown: found }, shown }: Parting, say: typeof wording.faultPartsText) =>
    say(nameOf(at), shown === undefined ? undefined : wording.lookText({ what, shown }), text(what, found, wording));
  const faults =
    verdict === 'explained'
      ? explaining.map(({ fault }) => toldFault(fault, `${wording.lookAtText} ${wording.whereToLook(fault)}`))
      : nearest.map(({ fault, parts }) => toldFault(fault, parts ? parting(parts, wording.faultPartsText) : ''));
  const remarks = [
    ...(soundParts ? [parting(soundParts, (at, shown, found) => wording.soundPartsText(at, shown ?? '', found))] : []),
    ...((bench.script?.cases.length ?? 0) > 0 ? [wording.defaultsText] : []),
    ...(verdict === 'explained' || verdict === 'unexplained' ? [wording.cautionText] : []),
  ];
  return {
    verdict,
    summary: wording.verdictText(diagnosis),
    remarks,
    faults,
    ...(next && { next: toldNext(next, nameOf, wording) }),
  };
}

function toldNext(next: NextStep, nameOf: (at: number) => string, wording: ProvingWording): ToldNext {
  if (next.is === 'alike') return { text: wording.alikeText, steps: [], classes: [] };
  const { look, classes } = next;
  return {
    text: wording.nextText(look, look.is === 'reading' ? nameOf(look.at) : ''),
    steps: look.is === 'steps' ? look.steps : [],
    classes: classes.map(({ shown, faults }) => ({
      shown: wording.classText(shown === undefined ? undefined : text(look.what, shown, wording)),
      faults: faults.map(faultText),
    })),
  };
}

const text = (what: Looked, shown: Look['shown'], { lookText }: ProvingWording): string => lookText({ what, shown });
