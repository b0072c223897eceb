/** What `coverage` hands to its outputs. */
import type { Profile } from '../machine/index.js';
import type { Coverage } from '../proving/coverage.js';
import type { Proposal, Unproved } from '../proving/script.js';
import type { SequenceReport } from '../sequence/check.js';
import type { Library } from '../sequence/library.js';

export interface Written {
  readonly file: string;
  readonly report: SequenceReport;
}

/** Sequences on one machine that are judged as one script. */
export interface Script {
  readonly profile: Profile;
  readonly sequences: readonly Written[];
  readonly coverage: Coverage;
  readonly proposals: readonly Proposal[];
}

export interface LeftOut extends Written {
  readonly why: Unproved;
}

export interface Judgement {
  readonly library: Library;
  readonly scripts: readonly Script[];
  readonly leftOut: readonly LeftOut[];
}

export const nameOf = ({ section }: SequenceReport): string => section.header?.name.name ?? '';
