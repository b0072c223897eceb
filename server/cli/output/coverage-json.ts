/** What scripts catch, for other programs: format 1. A key is never given another meaning. */

import { keyOf, mechanismOf } from '../../machine/index.js';
import type { Caught, Judged } from '../../proving/coverage.js';
import type { Proposal } from '../../proving/script.js';
import { nameOf } from '../../sequence/check.js';
import { faultText } from '../../sequence/fault-text.js';
import { writtenAt } from '../../sequence/trace.js';
import type { Judgement, Script } from '../judgement.js';
import { harmlessJson } from '../terminal.js';

export function coverageJson({ library, scripts, leftOut }: Judgement): string {
  const object = {
    format: 1,
    scripts: scripts.map((script) => scriptOf(script, library)),
    leftOut: leftOut.map(({ file, report, why }) => ({ file, sequence: nameOf(report), why })),
  };
  return harmlessJson(`${JSON.stringify(object, null, 2)}\n`);
}

function scriptOf(script: Script, library: Judgement['library']) {
  const { coverage, sequences, profile, proposals } = script;
  const additions = new Map(proposals.flatMap((one) => one.faults.map((fault) => [keyOf(fault), one] as const)));
  return {
    machine: profile.name,
    sequences: sequences.map(({ file, report }) => ({ file, name: nameOf(report) })),
    ...coverage.total,
    outOfReach: coverage.judged.filter(({ isWithinReach }) => !isWithinReach).length,
    mechanisms: Object.fromEntries(coverage.byMechanism),
    faults: coverage.judged.map((one) => faultOf(one, additions.get(keyOf(one.fault)), script, library)),
  };
}

function faultOf(
  { fault, isWithinReach, caught }: Judged,
  proposal: Proposal | undefined,
  script: Script,
  library: Judgement['library'],
) {
  const addition = proposal?.addition;
  return {
    fault: faultText(fault),
    mechanism: mechanismOf(fault),
    withinReach: isWithinReach,
    ...(caught && { caught: caughtAt(caught, script, library) }),
    ...(addition && {
      addition: {
        sequence: nameOfRun(script, addition.run),
        place: addition.place.is,
        ...('step' in addition.place && { line: lineOf(script, addition.run, addition.place.step.line, library) }),
        lines: addition.lines,
      },
    }),
  };
}

const runOf = ({ coverage }: Script, run: number) => coverage.trials[run].course.run;
const nameOfRun = (script: Script, run: number): string => runOf(script, run).order.section.header?.name.name ?? '';
const lineOf = (script: Script, run: number, line: number, library: Judgement['library']): number =>
  library.lineOf(runOf(script, run).order.section) + line + 1;

function caughtAt({ run, row, neverEnds }: Caught, script: Script, library: Judgement['library']) {
  const sound = runOf(script, run);
  const file = library.fileOf(sound.order.section) ?? '';
  const written = sound.tape.length > row ? writtenAt(library, file, sound, row) : undefined;
  return { sequence: nameOfRun(script, run), case: sound.order.case, ...written, neverEnds };
}
