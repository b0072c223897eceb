/** What `coverage` hands to its outputs. */
import { print } from '../../grammar/printer.js';
import type { Profile } from '../machine/index.js';
import type { Coverage, Tally } from '../proving/coverage.js';
import type { Proposal, Unproved } from '../proving/script.js';
import { provingWording } from '../proving/wording/index.js';
import type { SequenceReport } from '../sequence/check.js';
import { grouped } from '../sequence/grouped.js';
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

export const WHY: Readonly<Record<Unproved, string>> = {
  'nobody-looks': 'nobody looks, for it has no expect and no ask',
  'not-run': 'it can not be run to its end; check says why',
  'too-long': 'it is too long to be tried with every fault',
};

/** Rounded down: 100 % is all of them. */
export const percent = ({ caught, all }: Tally): string => `${all === 0 ? 100 : Math.floor((100 * caught) / all)} %`;

const wording = provingWording('en');

/** What would catch the rest, by the place where it would have to be added, as that is told. */
export function byPlace({ coverage, proposals, sequences }: Script, library: Library): Map<string, Proposal[]> {
  return grouped(proposals, ({ addition }) => {
    if (!addition) return wording.noAddition;
    const { section } = coverage.trials[addition.run].course.run.order;
    const step = 'step' in addition.place ? addition.place.step : undefined;
    const line = library.lineOf(section) + (step?.line ?? 0) + 1;
    const place = wording.placeText(addition.place, line, step ? print(step.syntax) : '');
    return sequences.length > 1 ? `${section.header?.name.name ?? ''}, ${place}` : place;
  });
}
