/** Which sequence runs which. */
import {
  type CallHierarchyIncomingCall,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  type Position,
  type Range,
  SymbolKind,
} from 'vscode-languageserver';
import type { Section, SequenceSection } from '../../grammar/tree.js';
import type { Library } from '../sequence/library.js';
import { allSteps } from '../sequence/names.js';
import type { ParsedDocument } from './document.js';
import { rangeOfSection } from './extent.js';
import { nameAt } from './names.js';
import { rangeOn, spotAt } from './spots.js';
import { positionIn } from './text.js';

/** The sequence whose name stands at a position, or whose header. */
export function prepareCallHierarchy(document: ParsedDocument, position: Position): CallHierarchyItem[] {
  const spot = nameAt(document, position);
  if (spot && spot.kind !== 'sequence' && spot.kind !== 'parameter') return [];
  const on = spotAt(document, positionIn(document.lines, position).line);
  const section: Section | undefined =
    spot?.kind === 'sequence' ? spot.section : on?.line === 0 ? on.placed.section : undefined;
  if (section?.kind !== 'sequence') return [];
  const file = document.library.fileOf(section);
  const uriOf = (other: string) => (other === document.file ? document.uri : document.uriOf(other));
  const item = file !== undefined && itemOf(document.library, uriOf, file, section);
  return item ? [item] : [];
}

/** The sequences that run the one of an item, with each `run` of theirs. */
export function incomingCalls(
  library: Library,
  uriOf: (file: string) => string,
  item: CallHierarchyItem,
): CallHierarchyIncomingCall[] {
  const target = sectionOf(library, uriOf, item)?.section;
  if (!target) return [];
  const calls: CallHierarchyIncomingCall[] = [];
  for (const file of library.fileNames()) {
    if (library.scope(file).sequence(item.name) !== target) continue;
    for (const { section, line } of library.tree(file)?.sections ?? []) {
      if (section.kind !== 'sequence') continue;
      const fromRanges = runsIn(section, line).flatMap(({ name, range }) => (name === item.name ? range : []));
      const from = fromRanges.length > 0 && itemOf(library, uriOf, file, section);
      if (from) calls.push({ from, fromRanges });
    }
  }
  return calls;
}

/** The sequences that the one of an item runs, each once, with each `run` of it. */
export function outgoingCalls(
  library: Library,
  uriOf: (file: string) => string,
  item: CallHierarchyItem,
): CallHierarchyOutgoingCall[] {
  const known = sectionOf(library, uriOf, item);
  if (!known) return [];
  const scope = library.scope(known.file);
  const ranges = new Map<SequenceSection, Range[]>();
  for (const { name, range } of runsIn(known.section, library.lineOf(known.section))) {
    const target = scope.sequence(name);
    if (!target) continue;
    const earlier = ranges.get(target);
    if (earlier) earlier.push(range);
    else ranges.set(target, [range]);
  }
  return [...ranges].flatMap(([target, fromRanges]) => {
    const file = library.fileOf(target);
    const to = file !== undefined && itemOf(library, uriOf, file, target);
    return to ? [{ to, fromRanges }] : [];
  });
}

/** The `run` steps of a sequence: the name that each runs, and where it stands. */
function runsIn(section: SequenceSection, start: number): { name: string; range: Range }[] {
  const runs: { name: string; range: Range }[] = [];
  for (const { line, syntax } of allSteps(section.steps)) {
    if (syntax.kind === 'run') runs.push({ name: syntax.name.name, range: rangeOn(start + line, syntax.name) });
  }
  return runs;
}

function itemOf(
  library: Library,
  uriOf: (file: string) => string,
  file: string,
  section: SequenceSection,
): CallHierarchyItem | undefined {
  const { header } = section;
  if (!header) return undefined;
  const line = library.lineOf(section);
  const detail = header.title?.value.trim();
  return {
    name: header.name.name,
    kind: SymbolKind.Function,
    ...(detail && { detail }),
    uri: uriOf(file),
    range: rangeOfSection({ section, line }),
    selectionRange: rangeOn(line, header.name),
  };
}

/** What an item stands for now: its file may have changed since it was made. */
function sectionOf(
  library: Library,
  uriOf: (file: string) => string,
  { uri, name }: CallHierarchyItem,
): { readonly file: string; readonly section: SequenceSection } | undefined {
  const file = library.fileNames().find((known) => uriOf(known) === uri);
  const section = file === undefined ? undefined : library.declarations(file).sequences.get(name);
  return file !== undefined && section ? { file, section } : undefined;
}
