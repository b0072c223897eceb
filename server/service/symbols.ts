/** The outline of a document, and the names of all known files. */
import { type DocumentSymbol, SymbolKind, type WorkspaceSymbol } from 'vscode-languageserver';
import { print } from '../../grammar/printer.js';
import type {
  BenchSection,
  ExpectItem,
  MachineSection,
  OnLine,
  Placed,
  Section,
  SequenceSection,
  Span,
  Step,
  TextSyntax,
} from '../../grammar/tree.js';
import type { Library } from '../sequence/library.js';
import type { ParsedDocument } from './document.js';
import { rangeOfSection } from './extent.js';
import { namesOnLine } from './names.js';
import { rangeOn } from './spots.js';
import type { Words } from './wording/index.js';

/** What each part of the notation is to a client. */
const KINDS = {
  machine: SymbolKind.Class,
  entry: SymbolKind.Property,
  sequence: SymbolKind.Function,
  case: SymbolKind.Constant,
  label: SymbolKind.Field,
  repeat: SymbolKind.Namespace,
  bench: SymbolKind.Event,
  found: SymbolKind.Field,
} as const;

type Named = Exclude<Section['kind'], 'preamble' | 'use'>;

/** Machines with their lines, sequences with cases, labelled readings and repetitions, benches with what was found. */
export function documentSymbols(document: ParsedDocument, words: Words): DocumentSymbol[] {
  return document.tree.sections.flatMap((placed) => {
    const { section, line } = placed;
    if (section.kind === 'preamble' || section.kind === 'use') return [];
    const { name, detail, span } = headOf(section);
    return {
      name,
      ...(detail && { detail }),
      kind: KINDS[section.kind],
      range: rangeOfSection(placed),
      selectionRange: rangeOn(line, span),
      children: childrenOf(section, placed, words),
    };
  });
}

interface Head {
  /** Never empty: that of a header that can't be read is the line as it is written. */
  readonly name: string;
  readonly detail: string;
  readonly span: Span;
}

const LONGEST_NAME = 80;

function headOf(section: Section & { kind: Named }): Head {
  const { header, lines, kind } = section;
  if (header?.kind === 'bench') {
    const { title, of, on } = header;
    return { name: title.value.trim() || kind, detail: `${of.name}, ${on.name}`, span: title };
  }
  if (header) return { name: header.name.name, detail: titleOf(header.title), span: header.name };
  const written = lines[0].text;
  const span = { from: written.length - written.trimStart().length, to: written.trimEnd().length };
  return { name: written.slice(span.from, span.to).slice(0, LONGEST_NAME) || kind, detail: '', span };
}

const titleOf = (title: TextSyntax | undefined): string => title?.value.trim() ?? '';

function childrenOf(section: Section & { kind: Named }, placed: Placed, words: Words): DocumentSymbol[] {
  switch (section.kind) {
    case 'machine':
      return entriesOf(section, placed);
    case 'bench':
      return foundIn(section, placed);
    case 'sequence':
      return [...casesOf(section, placed, words), ...stepsOf(section.steps, placed)].sort(
        ({ range: { start: a } }, { range: { start: b } }) => a.line - b.line || a.character - b.character,
      );
  }
}

const symbolOf = (name: string, kind: SymbolKind, line: number, span: Span, detail = ''): DocumentSymbol => ({
  name,
  ...(detail && { detail }),
  kind,
  range: rangeOn(line, span),
  selectionRange: rangeOn(line, span),
});

const entriesOf = ({ entries }: MachineSection, { line: start }: Placed): DocumentSymbol[] =>
  entries.map(({ line, syntax }) => symbolOf(print(syntax), KINDS.entry, start + line, syntax));

const foundIn = ({ found }: BenchSection, { line: start }: Placed): DocumentSymbol[] =>
  found.map(({ line, syntax }) => symbolOf(print(syntax), KINDS.found, start + line, syntax));

const casesOf = ({ cases }: SequenceSection, { line: start }: Placed, words: Words): DocumentSymbol[] =>
  cases.map(({ line, syntax }, i) => {
    const detail = print(syntax).replace(/^case /, '');
    return symbolOf(words.symbols.inCase(i + 1), KINDS.case, start + line, syntax, detail);
  });

/** Labelled readings, and repetitions with those in their body. */
function stepsOf(steps: readonly Step[], placed: Placed): DocumentSymbol[] {
  return steps.flatMap((step): DocumentSymbol | DocumentSymbol[] => {
    const { line, syntax } = step;
    if (syntax.kind === 'repeat') return repeatOf(step, placed);
    return syntax.kind === 'expect' ? labelsOf({ line, syntax: syntax.items }, placed) : [];
  });
}

function repeatOf({ line, syntax, body = [], close }: Step, placed: Placed): DocumentSymbol {
  const symbol = symbolOf(print(syntax).replace(/ ?\{$/, ''), KINDS.repeat, placed.line + line, syntax);
  const { start } = symbol.range;
  const end = close ? { line: placed.line + close.line, character: close.syntax.to } : rangeOfSection(placed).end;
  return { ...symbol, range: { start, end }, children: stepsOf(body, placed) };
}

const labelsOf = ({ line, syntax: items }: OnLine<readonly ExpectItem[]>, { line: start }: Placed): DocumentSymbol[] =>
  items.flatMap((item) => {
    const { label, ...reading } = item;
    if (!label) return [];
    const detail = print({ kind: 'expect', items: [reading], from: 0, to: 0 }).replace(/^expect /, '');
    return {
      ...symbolOf(label.name, KINDS.label, start + line, item, detail),
      selectionRange: rangeOn(start + line, label),
    };
  });

/** Symbols that are told at once, unless it is said otherwise. */
export const MOST_SYMBOLS = 500;

/**
 * Machines, sequences, benches and labels of all known files whose names have the letters of the query in its order:
 * what begins with it first, then what has it in one piece, then the rest, labels last among equals.
 */
export function workspaceSymbols(
  library: Library,
  uriOf: (file: string) => string,
  query: string,
  limit = MOST_SYMBOLS,
): WorkspaceSymbol[] {
  const wanted = folded(query).replace(/\s+/g, '');
  const ranks: WorkspaceSymbol[][] = Array.from({ length: 2 * RANKS }, () => []);
  const offer = (symbol: () => WorkspaceSymbol, name: string, isLabel: boolean) => {
    const rank = rankOf(folded(name), wanted);
    const found = rank === undefined ? undefined : ranks[2 * rank + Number(isLabel)];
    if (found && found.length < limit) found.push(symbol());
  };
  for (const file of library.fileNames()) {
    for (const { section, line: start } of library.tree(file)?.sections ?? []) {
      if (section.kind === 'preamble' || section.kind === 'use' || !section.header) continue;
      const { name, detail, span } = headOf(section);
      const make = (called: string, kind: SymbolKind, line: number, at: Span, container: string) => () => ({
        name: called,
        kind,
        location: { uri: uriOf(file), range: rangeOn(line, at) },
        ...(container && { containerName: container }),
      });
      offer(make(name, KINDS[section.kind], start, span, detail), name, false);
      if (section.kind !== 'sequence') continue;
      for (const [line, syntax] of section.lines.entries()) {
        for (const written of namesOnLine(syntax)) {
          if (written.kind !== 'label') continue;
          offer(make(written.name, KINDS.label, start + line, written, name), written.name, true);
        }
      }
    }
  }
  return ranks.flat().slice(0, limit);
}

const RANKS = 3;
const folded = (text: string): string => text.normalize('NFC').toLowerCase();

/** How well a name answers a query, 0 best; undefined if it does not. */
function rankOf(name: string, query: string): number | undefined {
  if (name.startsWith(query)) return 0;
  if (name.includes(query)) return 1;
  let at = 0;
  for (const letter of query) {
    at = name.indexOf(letter, at);
    if (at < 0) return undefined;
    at += letter.length;
  }
  return 2;
}
