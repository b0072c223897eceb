/** The steps that a goal asks for, written below it or in the place of those that are there. */
import type { Gradual } from '../../../grammar/gradual.js';
import type { LineSyntax } from '../../../grammar/tree.js';
import { type Goal, goalsOf, isRefused, linesOf, planFor, refusalOf } from '../plans.js';
import { INDENT, indentOf } from './edits.js';
import type { Outcome } from './open-out.js';
import type { Offered, Scene } from './scene.js';
import { endOfStep } from './subject.js';
import { Budget, rerun } from './trial.js';

/**
 * Offered at a goal, and at the header where it is clear which goal is meant. Planning takes a moment: where nobody has
 * asked for a list, the steps are worked out when they are wanted.
 */
export function planSteps(scene: Scene): Offered | undefined {
  const { section, report, words, isAsked } = scene;
  const goal = goalAt(scene);
  const profile = report?.profile;
  if (!goal || !profile) return undefined;
  const isNew = section.steps.length === 0;
  const title = isNew ? words.writeSteps : words.replaceSteps;
  const worked = (): Outcome => {
    const lost = isNew ? undefined : whyLost(scene);
    if (lost !== undefined) return { disabled: lost };
    const planned = planFor(section, goal, profile);
    if (isRefused(planned)) return { disabled: refusalOf(planned, scene.reader.locale) ?? '' };
    const body = linesOf(planned, scene.reader.locale);
    return section.steps.length === 0 ? below(scene, body) : inPlaceOf(scene, body);
  };
  const outcome = function* (): Gradual<Outcome> {
    yield;
    return worked();
  };
  if (!isAsked) return { title, outcome };
  const now = worked();
  if ('disabled' in now) return { title, outcome: now };
  const planned = planFor(section, goal, profile);
  if (isRefused(planned)) return { title, outcome: now };
  const { cost } = planned.effort;
  return { title: words.withEffort(title, cost, isNew ? undefined : report.runs[0]?.effort.cost), outcome: now };
}

function goalAt({ section, placed, range, isHeader }: Scene): Goal | undefined {
  const goals = goalsOf(section);
  const { line, character } = range.start;
  const here = goals.filter((goal) => placed.line + goal.line === line);
  const under = here.find(({ syntax }) => syntax.from <= character && character <= syntax.to);
  if (under || here.length > 0) return under ?? here[0];
  return isHeader && goals.length === 1 ? goals[0] : undefined;
}

/** Below the last goal or case, with a blank line between. */
function below(scene: Scene, body: readonly string[]): Outcome {
  const { section, draft } = scene;
  const last = Math.max(...[...section.goals, ...section.cases].map(({ line }) => line));
  const edits = [draft.linesAfter(last, ['', ...body], draft.margin(0))];
  return checked(scene, { edits });
}

/** The lines from the first step to the end of the last one. */
function stretchOf({ section: { steps } }: Scene): { readonly first: number; readonly last: number } {
  const first = steps[0]?.line ?? 0;
  return { first, last: Math.max(first, ...steps.map((step) => endOfStep(step).line)) };
}

const isKept = ({ kind }: LineSyntax['items'][number]): boolean => kind === 'goal' || kind === 'case';

/** What the writer would lose with the steps; undefined where it is steps alone. */
function whyLost(scene: Scene): string | undefined {
  const { section, draft, words } = scene;
  const { first, last } = stretchOf(scene);
  if (draft.hasProse(first, last)) return words.disabled.prose;
  const lines = section.lines.slice(first, last + 1);
  if (lines.some(({ errors }) => errors.length > 0)) return words.disabled.unread;
  return lines.some(({ comment, items }) => comment && !(items.length > 0 && items.every(isKept)))
    ? words.disabled.comments
    : undefined;
}

/** Goals and cases among the steps stay, above the new ones. */
function inPlaceOf(scene: Scene, body: readonly string[]): Outcome {
  const { section, draft, placed, document, words } = scene;
  const { first, last } = stretchOf(scene);
  const indent = indentOf(section.lines[0].text);
  const kept = section.lines.slice(first, last + 1).flatMap(({ text, header, items }) => {
    const all = [...(header ? [header] : []), ...items.filter(isKept)];
    if (all.length === 0) return [];
    // A line of its own keeps its comment.
    if (!header && items.every(isKept)) return [text.slice(Math.min(indent, indentOf(text))).trimEnd()];
    return [(header ? '' : INDENT) + all.map(({ from, to }) => text.slice(from, to).trim()).join('; ')];
  });
  const margin = draft.margin(0);
  const lines = kept.length > 0 ? [...kept, '', ...body] : body;
  const newText = lines.map((line) => (line === '' ? margin.trimEnd() : margin + line)).join(document.eol);
  const written = document.lines.slice(placed.line + first, placed.line + last + 1).map((line) => line.trimEnd());
  if (written.join(document.eol) === newText) return { disabled: words.disabled.planned };
  const range = {
    start: { line: placed.line + first, character: 0 },
    end: { line: placed.line + last, character: document.lines[placed.line + last].length },
  };
  return checked(scene, { edits: [{ range, newText }] });
}

/** Steps are planned for one goal: they may not do for another. */
function checked(scene: Scene, outcome: Extract<Outcome, { edits: unknown }>): Outcome {
  const { document, placed, report, section, words } = scene;
  if (section.goals.length < 2 || !report) return outcome;
  const after = rerun(document, placed, outcome.edits, report, new Budget());
  const isMissed = after?.some(({ findings }) => findings.some(({ facts }) => facts.code === 'goal-missed'));
  return isMissed ? { disabled: words.disabled.otherGoal } : outcome;
}
