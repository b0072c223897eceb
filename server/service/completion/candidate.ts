/** Something that could be written next, before it is put into the protocol's form. */
import {
  type CompletionItem,
  CompletionItemKind,
  InsertTextFormat,
  InsertTextMode,
  type MarkupContent,
  MarkupKind,
} from 'vscode-languageserver';
import { wordOf } from '../../../grammar/tokens.js';
import type { ParsedDocument, Reader } from '../document.js';
import { code, plain } from '../markdown.js';
import { type Context, rangeFrom } from './context.js';

export interface CompletionOptions {
  /**
   * The files that `use` could lead to, as paths from the folder of the document, parted by `/`. They are looked at
   * only where `wantsFiles` says so.
   */
  readonly files?: readonly string[];
  /** The client knows snippets with places to fill in. */
  readonly snippets?: boolean;
  /** The client distinguishes what inserting replaces from what replacing does. */
  readonly insertReplace?: boolean;
  /** The sign whose typing has asked for this by itself; missing where a person has asked. */
  readonly trigger?: string;
}

/** In what order things are offered: what fits best, what is of another kind, what would be odd, what can't be done. */
export const TIERS = ['first', 'later', 'odd', 'unable', 'sections'] as const;
export type Tier = (typeof TIERS)[number];

export interface Candidate {
  /** What is shown, and written if `insert` says nothing else. */
  readonly label: string;
  readonly kind: CompletionItemKind;
  readonly tier: Tier;
  readonly detail?: string;
  /** Right behind the label, with no space between. */
  readonly beside?: string;
  readonly insert?: string;
  readonly snippet?: string;
  /** Markdown. */
  readonly documentation?: string;
  /** Where the edit begins, if that is left of the word being typed; and where it ends, if right of the cursor. */
  readonly from?: number;
  readonly to?: number;
  /** The sequence that would be run. */
  readonly runs?: string;
  /** Several lines, each of which begins where it is to begin. */
  readonly isWhole?: boolean;
}

/** What comes back when an item is to be filled in: enough to find the place again, in a document that went on. */
export interface ItemData {
  readonly uri: string;
  readonly line: number;
  /** The column at which the item of the line begins. */
  readonly start: number;
  /** What the item would be. */
  readonly step: string;
  readonly runs?: string;
}

/** A word of the notation; its kind is told by what it begins or details. */
export function wordCandidate(word: string, tier: Tier, reader: Reader, detail?: string): Candidate {
  const kinds = wordOf(word)?.kinds ?? [];
  const kind = kinds.includes('register')
    ? CompletionItemKind.Field
    : kinds.includes('detail') && kinds.length === 1
      ? CompletionItemKind.EnumMember
      : CompletionItemKind.Keyword;
  return { label: word, kind, tier, documentation: meaningOf(word, reader), ...(detail && { detail }) };
}

/** What a word means and how what it begins is written. */
function meaningOf(word: string, { words }: Reader): string {
  const entry = wordOf(word);
  if (!entry) return '';
  const forms = Object.values(entry.forms ?? {}).flat();
  return [plain(words.meanings[word] ?? entry.meaning), ...forms.map((form) => `- ${code(form)}`)].join('\n');
}

export const markdown = (value: string): MarkupContent => ({ kind: MarkupKind.Markdown, value });

export function itemOf(
  candidate: Candidate,
  order: number,
  context: Context,
  document: ParsedDocument,
  { snippets, insertReplace }: CompletionOptions,
): CompletionItem {
  const { label, kind, tier, detail, beside, insert, snippet, documentation, runs } = candidate;
  const { typed, character, rule, start, text } = context;
  const from = candidate.from ?? typed?.from ?? character;
  const isSnippet = snippets === true && snippet !== undefined;
  const newText = isSnippet ? snippet : (insert ?? label);
  const to = candidate.to ?? character;
  const wordEnd = Math.max(to, typed?.to ?? character);
  const step = text.slice(start, from) + label;
  const data: ItemData = { uri: document.uri, line: context.line, start, step, ...(runs !== undefined && { runs }) };
  return {
    label,
    kind,
    sortText: `${TIERS.indexOf(tier)}${String(order).padStart(4, '0')}`,
    filterText: label,
    textEdit:
      insertReplace === true
        ? { newText, insert: rangeFrom(context, from, to), replace: rangeFrom(context, from, wordEnd) }
        : { newText, range: rangeFrom(context, from, to) },
    ...(isSnippet && { insertTextFormat: InsertTextFormat.Snippet }),
    ...(candidate.isWhole && { insertTextMode: InsertTextMode.asIs }),
    ...(detail !== undefined && { detail }),
    ...(beside !== undefined && { labelDetails: { detail: beside } }),
    ...(documentation && { documentation: markdown(documentation) }),
    ...(rule === 'step' && { data }),
  };
}
