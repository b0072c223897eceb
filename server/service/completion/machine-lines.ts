/** What may stand next in a line of a machine: what is not written yet first. */
import { CompletionItemKind } from 'vscode-languageserver';
import { nextTokens } from '../../../grammar/parser.js';
import { print } from '../../../grammar/printer.js';
import { wordOf } from '../../../grammar/tokens.js';
import type { MachineSection } from '../../../grammar/tree.js';
import { keyOf, type Machine } from '../../sequence/profiles.js';
import type { ParsedDocument, Reader } from '../document.js';
import { firstSentence, lackOf } from './abilities.js';
import { type Candidate, wordCandidate } from './candidate.js';
import { type Context, wordsOfItem } from './context.js';

export function machineCandidates(document: ParsedDocument, context: Context, reader: Reader): Candidate[] {
  const begun = wordsOfItem(context);
  const { section } = context.placed;
  if (section.kind !== 'machine') return wordsAfter(begun, reader);
  const written = writtenLines(section, context.line - context.placed.line);
  if (begun.length === 0) return lines(document, section, written, reader);
  switch (begun[0]) {
    case 'no':
      return droppable(document, section, context, written);
    case 'phrase':
      return stepWords(begun.slice(1), document.library.machine(section), reader);
    case 'transfer':
      return wordsAfter(begun, reader).filter(({ label }) => !written.has(`transfer ${label}`));
    default:
      return wordsAfter(begun, reader);
  }
}

const wordsAfter = (begun: readonly string[], reader: Reader): Candidate[] =>
  nextTokens('profileLine', begun).flatMap(({ token }) =>
    wordOf(token) ? [wordCandidate(token, 'first', reader)] : [],
  );

/** Lines of a machine that no second line can say again, those that are dropped among them; the present one left aside. */
function writtenLines({ entries }: MachineSection, present: number): ReadonlySet<string> {
  return new Set(entries.flatMap(({ line, syntax }) => (line === present ? [] : [keyOf(syntax)])));
}

const parentOf = (document: ParsedDocument, { header }: MachineSection): Machine | undefined => {
  const section = header?.like && document.library.scope(document.file).machine(header.like.name);
  return section && document.library.machine(section);
};

function lines(
  document: ParsedDocument,
  section: MachineSection,
  written: ReadonlySet<string>,
  reader: Reader,
): Candidate[] {
  const parent = parentOf(document, section);
  const { completion } = reader.words;
  return wordsAfter([], reader).flatMap((candidate): Candidate[] => {
    const { label } = candidate;
    if (label === 'no') return parent ? [{ ...candidate, tier: 'later' }] : [];
    if (label === 'phrase') return [{ ...candidate, tier: 'later' }];
    const keys = label === 'transfer' ? ['transfer result', 'transfer counter'] : [label];
    if (keys.every((key) => written.has(key))) return [];
    const taken = keys.flatMap((key) => parent?.lines.get(key) ?? []);
    if (taken.length === 0 || !parent) return [candidate];
    const detail = completion.takenOver(parent.section.header?.name.name ?? '', taken.map(print).join('; '));
    return [{ ...candidate, tier: 'later', detail }];
  });
}

/** The lines that `like` takes over, but for those without which there is no machine. */
function droppable(
  document: ParsedDocument,
  section: MachineSection,
  { begun, typed, character }: Context,
  written: ReadonlySet<string>,
): Candidate[] {
  const from = (begun[1] ?? typed)?.from ?? character;
  return [...(parentOf(document, section)?.lines ?? [])].flatMap(([key, line]): Candidate[] => {
    if (key === 'setting' || key === 'result' || written.has(key)) return [];
    return [{ label: key, kind: CompletionItemKind.EnumMember, tier: 'first', detail: print(line), from }];
  });
}

/** Steps for which a machine's wording makes no sense: nobody does them with their hands. */
const UNWORDED: ReadonlySet<string> = new Set(['goal', 'case', 'note', 'caution', 'repeat', 'run']);

/** The step that `phrase` words: as the grammar of steps has it, as far as it goes without numbers. */
function stepWords(begun: readonly string[], { profile }: Machine, reader: Reader): Candidate[] {
  const next = new Set(nextTokens('step', begun).map(({ token }) => token));
  return [...next].flatMap((word): Candidate[] => {
    if (!wordOf(word) || (begun.length === 0 && UNWORDED.has(word))) return [];
    const lack = profile && lackOf([...begun, word], profile);
    return [wordCandidate(word, lack ? 'unable' : 'first', reader, lack && firstSentence(lack, reader))];
  });
}

/** What a wording may leave to be filled in. */
const GAPS = ['figures', 'count', 'position', 'register'];

/** Gaps in the text of a `phrase`, behind an opening brace. */
export function gapCandidates({ text, typed, character }: Context): Candidate[] {
  if (!typed) return [];
  const open = /\{\p{L}*$/u.exec(text.slice(typed.from, character));
  if (!open) return [];
  const closed = /^\p{L}*\}/u.exec(text.slice(character));
  return GAPS.map((gap) => ({
    label: `{${gap}}`,
    kind: CompletionItemKind.Variable,
    tier: 'first',
    from: typed.from + open.index,
    to: character + (closed?.[0].length ?? 0),
  }));
}
