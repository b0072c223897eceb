/**
 * What can be done at a place of a document: fixes for what was found there, and steps written in another way.
 *
 * Invariant: asking costs little, for it happens at every move of the cursor. Fixes are worked out for the findings in
 * the range alone. Whoever offers to rewrite steps says so at once, and works the edits out when they are wanted. What
 * takes longer is looked into only where a person asks, or has chosen it.
 */
import { type CodeAction, CodeActionKind, type Range, type TextEdit, type WorkspaceEdit } from 'vscode-languageserver';
import { finish, type Gradual } from '../../grammar/gradual.js';
import type { Finding } from '../sequence/findings.js';
import { overlaps } from './actions/edits.js';
import { fixesFor, isPossiblySafe, safeFixesFor } from './actions/fixes.js';
import { offeredRefactorings, refactoring } from './actions/refactorings.js';
import { Budget } from './actions/trial.js';
import type { AnalysedDocument, ParsedDocument, Reader } from './document.js';
import { sequenceReport } from './readings.js';
import { locationOf } from './spots.js';
import { rangeIn } from './text.js';

/** Mends everything in a document that can be mended unseen. */
export const FIX_ALL = `${CodeActionKind.SourceFixAll}.cranknote`;

/** The kinds of action that there are. */
export const ACTION_KINDS: readonly CodeActionKind[] = [
  CodeActionKind.QuickFix,
  CodeActionKind.RefactorInline,
  CodeActionKind.RefactorExtract,
  CodeActionKind.RefactorRewrite,
  FIX_ALL,
];

/** What whoever asks wants to see. */
export interface ActionContext {
  /** Kinds; all but those of `source` where none are named. */
  readonly only?: readonly CodeActionKind[] | undefined;
  /** Codes of findings; those of the range where none are named. */
  readonly codes?: readonly string[] | undefined;
  /** The editor asks by itself, wherever the cursor goes. */
  readonly isAutomatic?: boolean | undefined;
}

/** What stands in `data` of an action: the finding that it mends, or what is to be worked out. */
export interface ActionData {
  /** The finding's code, for whoever puts diagnostics to actions. */
  readonly code?: string;
  /** The refactoring, and the range that it was asked for. */
  readonly refactoring?: string;
  readonly of?: string;
  readonly range?: Range;
}

/** Findings in one range for which fixes are worked out. */
const MOST_FINDINGS = 50;
/** Findings of a document that are mended at once. */
const MOST_MENDED = 2_000;

export const codeActions = (...asked: Parameters<typeof codeActionsGradually>): CodeAction[] =>
  finish(codeActionsGradually(...asked));

/** The same with pauses: whoever moves on does not want to know any more. */
export function* codeActionsGradually(
  document: AnalysedDocument,
  range: Range,
  context: ActionContext,
  reader: Reader,
): Gradual<CodeAction[]> {
  const { words } = reader;
  const asked = rangeIn(document.lines, range);
  const actions: CodeAction[] = [];
  if (wants(context, CodeActionKind.QuickFix)) {
    const budget = new Budget();
    for (const { finding, placed } of findingsIn(document, asked, context.codes)) {
      const report = sequenceReport(document, placed.section);
      yield;
      for (const fix of yield* fixesFor(document, placed, finding, words.actions, report, budget)) {
        actions.push({
          title: shown(fix.title),
          kind: CodeActionKind.QuickFix,
          ...(fix.isPreferred && { isPreferred: true }),
          edit: workspaceEdit(document, fix.edits),
          data: { code: finding.facts.code } satisfies ActionData,
        });
      }
    }
  }
  const isWanted = (kind: CodeActionKind) => wants(context, kind);
  const how = {
    isAsked: context.isAutomatic !== true,
    isNamed: context.only?.some((kind) => isWithin(kind, CodeActionKind.Refactor)) === true,
  };
  const offers = yield* offeredRefactorings(document, asked, reader, how, isWanted);
  for (const { name, of, kind, title, disabled } of offers) {
    actions.push({
      title: shown(title),
      kind,
      ...(disabled !== undefined && { disabled: { reason: disabled } }),
      data: { refactoring: name, range: asked, ...(of !== undefined && { of }) } satisfies ActionData,
    });
  }
  const namesSource = context.only?.some((kind) => isWithin(FIX_ALL, kind));
  if (namesSource) {
    const edits = fixAll(document, reader);
    if (edits.length > 0) {
      actions.push({ title: words.actions.fixAll, kind: FIX_ALL, edit: workspaceEdit(document, edits) });
    }
  }
  return actions;
}

/**
 * The action with its edit, where that was left open, or with the reason why it can't be done after all; as it is where
 * it isn't offered any more.
 */
export const resolveAction = (...asked: Parameters<typeof resolveActionGradually>): CodeAction =>
  finish(resolveActionGradually(...asked));

export function* resolveActionGradually(
  document: AnalysedDocument,
  action: CodeAction,
  reader: Reader,
): Gradual<CodeAction> {
  const { refactoring: name, of, range } = (action.data ?? {}) as ActionData;
  if (action.edit || action.disabled || typeof name !== 'string' || !range) return action;
  const which = { name, ...(typeof of === 'string' && { of }) };
  const outcome = yield* refactoring(document, which, rangeIn(document.lines, range), reader);
  if (!outcome) return action;
  return 'edits' in outcome
    ? { ...action, edit: workspaceEdit(document, outcome.edits) }
    : { ...action, disabled: { reason: outcome.disabled } };
}

/**
 * All fixes that change nothing that a machine does or shows, and no reading. Of two that touch the same text the first
 * is made; what is left is there for the next time.
 */
export function fixAll(document: AnalysedDocument, { words }: Reader): TextEdit[] {
  const made: TextEdit[] = [];
  const last = { line: document.lines.length - 1, character: document.lines.at(-1)?.length ?? 0 };
  const all = { start: { line: 0, character: 0 }, end: last };
  for (const { finding, placed } of findingsIn(document, all, undefined, MOST_MENDED, isPossiblySafe)) {
    const report = sequenceReport(document, placed.section);
    const [fix] = safeFixesFor(document, placed, finding, words.actions, report);
    if (!fix || fix.edits.some((edit) => made.some((other) => overlaps(edit, other)))) continue;
    made.push(...fix.edits);
  }
  return made.sort(
    (a, b) => a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character,
  );
}

/** The findings whose place touches a range, from the top. */
function* findingsIn(
  document: AnalysedDocument,
  { start, end }: Range,
  codes?: readonly string[],
  most = MOST_FINDINGS,
  isWanted: (code: Finding['facts']['code']) => boolean = () => true,
) {
  const { report, tree } = document;
  let told = 0;
  for (const [i, { section, findings }] of report.sections.entries()) {
    const placed = tree.sections[i];
    if (!placed || placed.section !== section) continue;
    if (placed.line > end.line || placed.line + section.lines.length <= start.line) continue;
    for (const finding of findings) {
      const { code } = finding.facts;
      if ((codes && !codes.includes(code)) || !isWanted(code)) continue;
      const { range } = locationOf(document, finding.at);
      const isBefore =
        range.end.line < start.line || (range.end.line === start.line && range.end.character < start.character);
      const isBehind =
        range.start.line > end.line || (range.start.line === end.line && range.start.character > end.character);
      if (isBefore || isBehind) continue;
      if (++told > most) return;
      yield { finding, placed };
    }
  }
}

const isWithin = (kind: CodeActionKind, wanted: CodeActionKind): boolean =>
  kind === wanted || kind.startsWith(`${wanted}.`) || wanted === '';

const wants = ({ only }: ActionContext, kind: CodeActionKind): boolean =>
  only === undefined || only.length === 0 || only.some((wanted) => isWithin(kind, wanted));

const workspaceEdit = ({ uri }: ParsedDocument, edits: readonly TextEdit[]): WorkspaceEdit => ({
  changes: { [uri]: [...edits] },
});

const LONGEST_TITLE = 100;
/** Text from a file in one line of a menu. */
function shown(title: string): string {
  const line = title.replace(/[\p{C}\s]+/gu, ' ').trim();
  return line.length > LONGEST_TITLE ? `${line.slice(0, LONGEST_TITLE - 1)}…` : line;
}
