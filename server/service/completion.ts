/**
 * What may be written next.
 *
 * Words come from the grammar, asked what could follow the tokens of the item that is being typed; names from the
 * library; readings from a run of what stands above. What the machine of the sequence can't do comes last and says why.
 */
import type { CompletionItem, CompletionList, Position } from 'vscode-languageserver';
import { LineReader } from '../../grammar/lines.js';
import { nextTokens } from '../../grammar/parser.js';
import type { Placed, SequenceSection, Step } from '../../grammar/tree.js';
import { has, type Profile, REFUSED } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { type Finding, rankOf, severityOf } from '../sequence/findings.js';
import { firstSentence } from './completion/abilities.js';
import { type Candidate, type CompletionOptions, type ItemData, itemOf, markdown } from './completion/candidate.js';
import { type Context, contextAt, wordsOfItem } from './completion/context.js';
import { expectedCandidates } from './completion/expected.js';
import { insetCompletions } from './completion/insets.js';
import { gapCandidates, machineCandidates } from './completion/machine-lines.js';
import { nameCandidates } from './completion/names.js';
import { type At, outlook, stepFrom } from './completion/outlook.js';
import { isAtPath, pathCandidates } from './completion/paths.js';
import { plannedCandidates } from './completion/planned.js';
import { sectionCandidates, wordCandidates } from './completion/words.js';
import type { ParsedDocument, Reader } from './document.js';
import { plain } from './markdown.js';
import { changes } from './readings.js';
import { sectionAt } from './spots.js';

export type { CompletionOptions } from './completion/candidate.js';

/** Whether the files that `use` could lead to have to be known for `completions`. */
export function wantsFiles(document: ParsedDocument, position: Position): boolean {
  const context = contextAt(document, position);
  return context !== undefined && isAtPath(context);
}

/** What may be written at a position. Whatever fits is in the list, however much of it is typed already. */
export function completions(
  document: ParsedDocument,
  position: Position,
  reader: Reader,
  options: CompletionOptions = {},
): CompletionList {
  const insets = insetCompletions(document, position, reader);
  if (insets) return { isIncomplete: false, items: insets };
  const context = contextAt(document, position);
  const candidates =
    context && isWanted(context, options.trigger) ? candidatesAt(document, context, reader, options) : [];
  const items = context ? candidates.map((one, i) => itemOf(one, i, context, document, options)) : [];
  return { isIncomplete: false, items };
}

/**
 * A sign that is typed brings up the list only where it helps: behind a blank at a place where the item could end as
 * well, the next Enter is to end the line and not to choose something.
 */
function isWanted({ begun, isInText, text, start, character, place }: Context, trigger: string | undefined): boolean {
  if (trigger === '"' || trigger === '/') return isInText || begun.at(-1)?.text === '/';
  if (trigger !== ' ') return true;
  if (begun.length === 0 || isInText) return false;
  const { header, items, errors } = new LineReader().read(text.slice(start, character), place);
  return errors.length > 0 || (!header && items.length === 0);
}

function candidatesAt(
  document: ParsedDocument,
  context: Context,
  reader: Reader,
  { files = [] }: CompletionOptions,
): Candidate[] {
  const { rule, begun, typed, isInText, isFirst } = context;
  if (isAtPath(context)) return pathCandidates(document, context, files);
  if (isInText) return rule === 'profileLine' && begun[0]?.text === 'phrase' ? gapCandidates(context) : [];
  const isAtStart = begun.length === 0;
  if (typed?.kind === 'number') return readingsAt(document, context, reader);
  const sections = isAtStart && isFirst ? sectionCandidates(rule ? 'sections' : 'first', reader) : [];
  if (!rule) return sections;
  if (rule === 'profileLine') return [...machineCandidates(document, context, reader), ...sections];
  const next = nextTokens(rule, wordsOfItem(context));
  const profile = profileAt(document, context);
  const words = wordCandidates(context, next, { reader, profile, shown: () => shownAt(document, context, reader) });
  const names = next.filter(({ token }) => token === 'Name').flatMap((one) => nameCandidates(document, context, one));
  const all = rule === 'step' ? plannedCandidates(document, context, profile, reader) : [];
  return [...all, ...readingsAt(document, context, reader), ...names, ...words, ...sections];
}

function profileAt({ library, file }: ParsedDocument, { placed: { section } }: Context): Profile | undefined {
  const machine = section.kind === 'sequence' ? library.scope(file).machineOf(section) : undefined;
  return machine && library.machine(machine).profile;
}

/** What the machine has done up to the item that is being typed; undefined where that can't be told. */
function shownAt(document: ParsedDocument, { placed, line, start }: Context, reader: Reader): CaseRun | undefined {
  if (!isSequence(placed)) return undefined;
  const run = outlook(document, placed, { line: line - placed.line, character: start }, reader);
  return run?.brokeOff ? undefined : run;
}

const isSequence = (placed: Placed): placed is Placed<SequenceSection> => placed.section.kind === 'sequence';

function readingsAt(document: ParsedDocument, context: Context, reader: Reader): Candidate[] {
  const words = wordsOfItem(context);
  if (context.rule !== 'step' || words[0] !== 'expect') return [];
  if (!nextTokens('step', words).some(({ token }) => token === 'Number')) return [];
  const run = shownAt(document, context, reader);
  return run ? expectedCandidates(context, run, run.order.profile, reader) : [];
}

/** The same item with what takes a moment to know: what the machine would then show, and what a sequence takes. */
export function resolveCompletion(document: ParsedDocument, item: CompletionItem, reader: Reader): CompletionItem {
  const asked = dataOf(item.data);
  const placed = asked && sectionAt(document, asked.line);
  if (!asked || !placed || !isSequence(placed)) return item;
  const at: At = { line: asked.line - placed.line, character: asked.start };
  const step = stepFrom(asked.step, at);
  const before = step && outlook(document, placed, at, reader);
  const after = before && !before.brokeOff ? outlook(document, placed, at, reader, [step]) : undefined;
  if (!step || !before || !after) return item;
  const { completion } = reader.words;
  const told = after.findings.filter((finding) => isTold(finding, step, at));
  const { kind } = step.syntax;
  const isLooking = kind === 'expect' || kind === 'ask' || kind === 'note' || kind === 'caution';
  const then = isLooking || after.brokeOff ? undefined : thenText(before, after, told, reader);
  const turns = after.effort.turns - before.effort.turns;
  const shifts = after.effort.shifts - before.effort.shifts;
  const effort =
    asked.runs === undefined ? '' : ` · ${completion.effort(turns, shifts, after.effort.cost - before.effort.cost)}`;
  const detail = item.detail === undefined ? then : item.detail + effort;
  const paragraphs = [
    documentationOf(item),
    ...(item.detail !== undefined && then ? [plain(then)] : []),
    ...told.map(({ facts }) => plain(reader.wording.messageOf(facts))),
  ].filter((paragraph) => paragraph !== '');
  return {
    ...item,
    ...(detail !== undefined && { detail }),
    ...(paragraphs.length > 0 && { documentation: markdown(paragraphs.join('\n\n')) }),
  };
}

/** What becomes of the machine, in a line. */
function thenText(before: CaseRun, after: CaseRun, told: readonly Finding[], reader: Reader): string {
  const { words } = reader;
  const { completion } = words;
  if (has(after.state, REFUSED)) return told[0] ? firstSentence(told[0].facts, reader) : completion.nothing;
  const changed = changes(before.state, after.state, after.order.profile, words);
  return changed.length > 0 ? completion.shows(changed.join(' · ')) : completion.nothing;
}

/** Errors and warnings on the step itself. That it takes the result below zero is what `until overdraw` is for. */
function isTold(finding: Finding, { syntax }: Step, at: At): boolean {
  const isMeant = syntax.kind === 'turn' && syntax.until === 'overdraw' && finding.facts.code === 'result-overdraw';
  const isHere = finding.at.line === at.line && finding.at.from === at.character;
  return isHere && !isMeant && rankOf(severityOf(finding)) <= 1;
}

const documentationOf = ({ documentation }: CompletionItem): string =>
  documentation === undefined ? '' : typeof documentation === 'string' ? plain(documentation) : documentation.value;

/** What an item carries, if it is one of ours: it has been to the client and back. */
function dataOf(data: unknown): ItemData | undefined {
  if (typeof data !== 'object' || data === null) return undefined;
  const { uri, line, start, step, runs } = data as Partial<Record<keyof ItemData, unknown>>;
  if (typeof uri !== 'string' || typeof step !== 'string' || !isCount(line) || !isCount(start)) return undefined;
  return { uri, line, start, step, ...(typeof runs === 'string' && { runs }) };
}

const isCount = (value: unknown): value is number => Number.isSafeInteger(value) && (value as number) >= 0;
