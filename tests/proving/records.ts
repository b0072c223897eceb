/** Scripts with bench records, and what is made of them. */
import { finish } from '../../grammar/gradual.js';
import { type Diagnosis, diagnose } from '../../server/proving/diagnosis.js';
import type { BenchReport } from '../../server/sequence/bench.js';
import { faultText } from '../../server/sequence/fault-text.js';
import { checkText } from '../marked.js';

export interface Recorded {
  readonly bench: BenchReport;
  readonly diagnosis: Diagnosis | undefined;
  /** The faults that explain all, as they are written. */
  readonly explaining: readonly string[];
}

/** The last record of a text. */
export function recorded(text: string): Recorded {
  const bench = checkText(text).report.sections.at(-1)?.bench;
  if (!bench) throw new Error('The text does not end in a record.');
  const diagnosis = finish(diagnose(bench));
  return { bench, diagnosis, explaining: (diagnosis?.explaining ?? []).map(({ fault }) => faultText(fault)) };
}
