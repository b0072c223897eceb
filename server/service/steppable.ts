/** What can be stepped through in a document, and with which faults: `cranknote/steppable` and `cranknote/faults`. */
import { faultsOf, isWithinReach, MECHANISMS, type MechanismPart, mechanismOf } from '../machine/index.js';
import { provingWording } from '../proving/wording/index.js';
import { nameOf } from '../sequence/check.js';
import { faultText } from '../sequence/fault-text.js';
import type { AnalysedDocument, Reader } from './document.js';
import { caseTitle } from './lens.js';
import { sequenceReport } from './readings.js';
import { type Outline, outlineOf, sequencesOf } from './sequences.js';

export interface Steppable extends Outline {
  /** Its cases, the defaults first; none where it can't be run. */
  readonly cases: readonly { readonly number: number; readonly label: string }[];
}

export interface SteppableAnswer {
  /** From the top of the document. */
  readonly sequences: readonly Steppable[];
  /** The one that a line belongs to, if it lies in one. */
  readonly at?: string;
}

export function steppableIn(document: AnalysedDocument, line: number | undefined, { words }: Reader): SteppableAnswer {
  const sequences = sequencesOf(document).map((named): Steppable => {
    const runs = sequenceReport(document, named.section)?.runs ?? [];
    const cases = runs.map(({ order }) => ({ number: order.case, label: caseTitle(named.section, order.case, words) }));
    return { ...outlineOf(named), cases };
  });
  const isAt = ({ range }: Steppable) => line !== undefined && range.start.line <= line && line < range.end.line;
  const at = sequences.find(isAt)?.name;
  return { sequences, ...(at !== undefined && { at }) };
}

/** The faults that show in a part of a machine. */
export interface FaultGroup {
  readonly part: MechanismPart;
  readonly label: string;
  readonly faults: readonly { readonly value: string; readonly label: string }[];
}

/** The faults that a sequence's machine can have and that can act on it; undefined where it can't be run. */
export function faultsFor(document: AnalysedDocument, sequence: string, { locale }: Reader): FaultGroup[] | undefined {
  const profile = document.report.sequences.find((report) => nameOf(report) === sequence)?.profile;
  if (!profile) return undefined;
  const wording = provingWording(locale);
  const faults = faultsOf(profile).filter((fault) => isWithinReach(fault, profile));
  return MECHANISMS.flatMap((part): FaultGroup[] => {
    const own = faults.filter((fault) => mechanismOf(fault) === part);
    if (own.length === 0) return [];
    const told = own.map((fault) => ({ value: faultText(fault), label: wording.faultSentence(fault) }));
    return [{ part, label: wording.part[part], faults: told }];
  });
}
