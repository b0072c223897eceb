/** Readings and steps by which a sequence catches the faults of its machine that now go by. */
import type { TextEdit } from 'vscode-languageserver';
import type { Gradual } from '../../../grammar/gradual.js';
import { coverageOf } from '../../proving/coverage.js';
import { type Missing, missingFrom } from '../../proving/missing.js';
import { unproved } from '../../proving/script.js';
import type { SequenceReport } from '../../sequence/check.js';
import { severityOf } from '../../sequence/findings.js';
import { grouped } from '../../sequence/grouped.js';
import { INDENT } from './edits.js';
import { namesTaken, nextFree } from './free-names.js';
import { MOST_LINES, type Outcome } from './open-out.js';
import type { Offered, Scene } from './scene.js';
import { endOfStep } from './subject.js';

/**
 * Offered on the header of a sequence that can be judged and has no error, where a person asks; it takes a moment to
 * know. Further steps might make good what is wrong in those that are there, and nobody would see it any more.
 */
export function proveMore(scene: Scene): Offered | undefined {
  const { report, words, isAsked, isHeader, section } = scene;
  if (!isAsked || !isHeader || !report?.profile || section.steps.length === 0) return undefined;
  if (report.findings.some((finding) => severityOf(finding) === 'error')) return undefined;
  const why = unproved(report);
  if (why !== undefined && why !== 'nobody-looks') return undefined;
  return { title: words.proveMore, outcome: () => outcomeOf(scene, report) };
}

function* outcomeOf(scene: Scene, report: SequenceReport): Gradual<Outcome> {
  const { words } = scene;
  const missing = yield* missingFrom(yield* coverageOf(report.runs));
  const lines = missing.looks.length + missing.steps.length;
  if (lines === 0) return { disabled: words.disabled.provedAll };
  if (lines > MOST_LINES) return { disabled: words.disabled.tooMany(lines, MOST_LINES) };
  return { edits: [...lookEdits(scene, missing), ...stepEdits(scene, missing)] };
}

/** One edit for each step behind which, or in which, somebody is to look. */
function lookEdits({ draft }: Scene, { looks }: Missing): TextEdit[] {
  const bySteps = grouped(looks, ({ place }) => {
    const at = 'step' in place ? place.step : undefined;
    return at ? `${place.is} ${at.line} ${at.syntax.from}` : '';
  });
  return [...bySteps.values()].flatMap((ofStep): TextEdit[] => {
    const { place } = ofStep[0];
    if (!('step' in place)) return [];
    const lines = ofStep.flatMap((one) => one.lines);
    const { step } = place;
    if (place.is === 'into') return [draft.insert(step.line, step.syntax.to, ` ${lines.join(' ')}`)];
    return [draft.after(endOfStep(step), joined(lines))];
  });
}

/** Several readings of one kind in one step. */
function joined(lines: readonly string[]): string[] {
  const readings = ['expect', 'ask'].flatMap((word) => {
    const items = lines.flatMap((line) => (line.startsWith(`${word} `) ? [line.slice(word.length + 1)] : []));
    return items.length > 0 ? [`${word} ${items.join(' ')}`] : [];
  });
  return readings;
}

function stepEdits(scene: Scene, { steps, isApart }: Missing): TextEdit[] {
  const { draft, section, words, report } = scene;
  const last = section.steps.at(-1);
  const name = section.header?.name.name;
  if (steps.length === 0 || !last || name === undefined) return [];
  if (!isApart) return [draft.after(endOfStep(last), steps)];
  const free = nextFree(`${name}-${words.moreName}`, namesTaken(scene));
  const on = report?.machine?.header?.name.name;
  const header = `sequence ${free}${on === undefined ? '' : ` on ${on}`}`;
  return [draft.atEnd(['', header, ...steps.map((step) => INDENT + step)])];
}
