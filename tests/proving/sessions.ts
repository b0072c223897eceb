/** A proving sequence cranked on a faulty machine, and what its readings lead to. */
import { finish } from '../../grammar/gradual.js';
import { type Fault, keyOf, MECHANISMS, type Profile } from '../../server/machine/index.js';
import { diagnoseAmong } from '../../server/proving/diagnosis.js';
import { type NextLook, nextStep } from '../../server/proving/next-step.js';
import { probesOn, shownByProbe } from '../../server/proving/probes.js';
import { provingScript } from '../../server/proving/proof/index.js';
import { proofLines } from '../../server/proving/proof/text.js';
import { type Suspect, shownAt, suspectsOf } from '../../server/proving/suspects.js';
import { provingWording } from '../../server/proving/wording/index.js';
import type { BenchReport, Noted } from '../../server/sequence/bench.js';
import type { Look } from '../../server/sequence/looks.js';
import { checkText } from '../marked.js';

/** A record of a machine's own proving sequence, with everything noted as on the sound machine. */
export function ownProof(machine: string, profile: Profile) {
  const script = finish(provingScript(profile));
  const lines = proofLines(script, 'proof', MECHANISMS, provingWording('en'));
  const found = lines
    .filter((line) => line.trim().startsWith('expect'))
    .map(
      (line, i) =>
        `  found ${i + 1} ${line
          .trim()
          .replace(/^expect /, '')
          .replace(/ as \S+/, '')}`,
    );
  const text = `${machine}\n${lines.join('\n')}\nbench "All" of proof on ${profile.name}\n${found.join('\n')}\n`;
  const bench = checkText(text).report.sections.at(-1)?.bench;
  if (!bench?.run) throw new Error('The record is of nothing.');
  return { script, bench, order: bench.run.order, suspects: finish(suspectsOf(bench.run, script.caught)) };
}

type Proof = ReturnType<typeof ownProof>;

const notedOn = ({ bench, order }: Proof, { expectings }: Suspect): Noted[] =>
  bench.noted.flatMap((one) => {
    const shown = shownAt(expectings, one.at, one.what, order.profile);
    return shown === undefined ? [] : [{ ...one, shown }];
  });

/** The record that somebody makes on a machine with this fault, and the faults that explain it. */
export function sessionOn(proof: Proof, suspect: Suspect) {
  const bench: BenchReport = { ...proof.bench, noted: notedOn(proof, suspect) };
  return { bench, diagnosis: finish(diagnoseAmong(bench, proof.order, proof.suspects)) };
}

/** How many next steps are tried until one fault, or a group that nothing tells apart, is left. */
export function stepsToTheEnd({ order, suspects }: Proof, session: ReturnType<typeof sessionOn>, own: Fault) {
  const explaining = new Set(session.diagnosis.explaining.map(({ fault }) => keyOf(fault)));
  let left = suspects.filter(({ fault }) => explaining.has(keyOf(fault)));
  let bench = session.bench;
  let steps = 0;
  while (left.length > 1) {
    const next = finish(nextStep(bench, order, left));
    if (next.is === 'alike') break;
    steps++;
    const shown = (suspect: Suspect) => shownBy(next.look, suspect, order.profile);
    const mine = left.find(({ fault }) => keyOf(fault) === keyOf(own));
    if (!mine) throw new Error('The fault is lost on the way.');
    const seen = shown(mine);
    left = left.filter((suspect) => shown(suspect) === seen);
    if (next.look.is !== 'reading' || seen === undefined) continue;
    const { at, what } = next.look;
    const one = { ...bench.noted[0], at, what, shown: seen };
    bench = { ...bench, noted: [...bench.noted, one] };
  }
  return { steps, left };
}

function shownBy(look: NextLook, { fault, expectings }: Suspect, profile: Profile): Look['shown'] | undefined {
  if (look.is === 'reading') return shownAt(expectings, look.at, look.what, profile);
  const probe = probesOn(profile).find(({ steps }) => steps === look.steps);
  return probe && shownByProbe(profile, probe, fault, look.what);
}
