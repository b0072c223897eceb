/** All the steps that a goal asks for, where none are written yet. */
import { CompletionItemKind } from 'vscode-languageserver';
import type { SequenceSection } from '../../../grammar/tree.js';
import type { Profile } from '../../machine/index.js';
import { INDENT } from '../actions/edits.js';
import type { ParsedDocument, Reader } from '../document.js';
import { goalsOf, isRefused, linesOf, planFor } from '../plans.js';
import type { Candidate } from './candidate.js';
import type { Context } from './context.js';

/**
 * One candidate on an empty line below the only goal of a sequence without steps. It is worked out at once: what an item
 * inserts can't be told later.
 */
export function plannedCandidates(
  document: ParsedDocument,
  context: Context,
  profile: Profile | undefined,
  reader: Reader,
): Candidate[] {
  const { placed, typed, begun, isFirst, line } = context;
  const { section } = placed;
  if (section.kind !== 'sequence' || !profile || !isFirst || begun.length > 0 || !isAlone(context)) return [];
  const label = reader.words.completion.writeSteps;
  // Who has begun another word is not kept waiting.
  if (typed && !label.toLowerCase().startsWith(typed.text.toLowerCase())) return [];
  const [goal, ...others] = goalsOf(section);
  if (!goal || others.length > 0 || section.steps.length > 0 || line - placed.line <= lastGiven(section)) return [];
  const planned = planFor(section, goal, profile);
  if (isRefused(planned)) return [];
  const { effort, reading } = planned;
  return [
    {
      label,
      kind: CompletionItemKind.Function,
      tier: 'first',
      detail: `${reading} · ${reader.words.completion.cost(effort.cost)}`,
      insert: indented(document, context, linesOf(planned, reader.locale)),
      isWhole: true,
    },
  ];
}

/** Nothing stands right of what is being typed. */
const isAlone = ({ text, typed, character }: Context): boolean => text.slice(typed?.to ?? character).trim() === '';

/** The line of the last goal or case. */
const lastGiven = ({ goals, cases }: SequenceSection): number =>
  Math.max(0, ...[...goals, ...cases].map(({ line }) => line));

/** The first line goes on where the cursor stands, the others begin as far in as it does. */
function indented(document: ParsedDocument, { line, start, placed }: Context, lines: readonly string[]): string {
  const head = document.lines[placed.line] ?? '';
  const wanted = head.slice(0, Math.max(0, head.search(/[^\s>]/))) + INDENT;
  const margin = (document.lines[line] ?? '').slice(0, start);
  const missing = wanted.startsWith(margin) ? wanted.slice(margin.length) : '';
  return lines.map((text, i) => (i === 0 ? missing : margin + missing) + text.slice(INDENT.length)).join(document.eol);
}
