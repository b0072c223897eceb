/** What each word is, for colours: as integers, the way the protocol wants them. */
import type { Range, SemanticTokensEdit, SemanticTokensLegend } from 'vscode-languageserver';
import { LONGEST_LINE } from '../../grammar/lines.js';
import { wordOf } from '../../grammar/tokens.js';
import type { LineSyntax, Span } from '../../grammar/tree.js';
import type { ParsedDocument } from './document.js';
import { type NameKind, namesOnLine, type WrittenName } from './names.js';
import { type Token, tokensOf } from './spots.js';

const TYPES = [
  'keyword',
  'property',
  'class',
  'function',
  'parameter',
  'label',
  'number',
  'string',
  'comment',
  'operator',
] as const;
type Type = (typeof TYPES)[number];

const MODIFIERS = ['declaration', 'modification', 'documentation'] as const;
type Modifier = (typeof MODIFIERS)[number];

/** What the numbers in the answers mean. */
export const TOKEN_LEGEND: SemanticTokensLegend = { tokenTypes: [...TYPES], tokenModifiers: [...MODIFIERS] };

const TYPE_OF_NAME: Readonly<Record<NameKind, Type>> = {
  machine: 'class',
  sequence: 'function',
  parameter: 'parameter',
  label: 'label',
  file: 'string',
};

/**
 * The tokens of the lines that a range touches, of all lines without one: five integers each, sorted, never
 * overlapping. In Markdown the fences alone have some.
 */
export function semanticTokens({ tree }: ParsedDocument, range?: Range): number[] {
  const first = range?.start.line ?? 0;
  const last = Math.min(range?.end.line ?? tree.lineCount, tree.lineCount);
  const data: number[] = [];
  let line = 0;
  let from = 0;
  for (const { section, line: start } of tree.sections) {
    if (start > last) break;
    const end = Math.min(section.lines.length, last + 1 - start);
    for (let own = Math.max(0, first - start); own < end; own++) {
      for (const token of tokensOn(section.lines[own])) {
        const isSameLine = start + own === line;
        data.push(start + own - line, token.from - (isSameLine ? from : 0), token.to - token.from, ...codesOf(token));
        line = start + own;
        from = token.from;
      }
    }
  }
  return data;
}

interface Coloured extends Span {
  readonly type: Type;
  readonly modifier?: Modifier | undefined;
}

const codesOf = ({ type, modifier }: Coloured): [number, number] => [
  TYPES.indexOf(type),
  modifier ? 1 << MODIFIERS.indexOf(modifier) : 0,
];

function tokensOn(syntax: LineSyntax): Coloured[] {
  if (syntax.text.length > LONGEST_LINE) return [];
  const names = namesOnLine(syntax);
  const prose = proseOn(syntax);
  return tokensOf(syntax.text).flatMap((token): Coloured | Coloured[] => {
    const { from, to } = token;
    const name = names.find((written) => written.from === from && written.kind !== 'file');
    if (name) return { from, to: name.to, ...ofName(name) };
    const type = typeOf(token);
    const modifier = type === 'string' && prose.has(from) ? 'documentation' : undefined;
    return type ? { from, to, type, modifier } : [];
  });
}

function ofName({ kind, role, isGiven }: WrittenName): { type: Type; modifier?: Modifier } {
  const type = TYPE_OF_NAME[kind];
  if (role === 'declared') return { type, modifier: 'declaration' };
  return isGiven ? { type, modifier: 'modification' } : { type };
}

const REGISTER = 'register';
const OPERATORS = new Set(['+', '-', '*', '/', '^', '=']);

function typeOf({ kind, text }: Token): Type | undefined {
  switch (kind) {
    case 'word': {
      const word = wordOf(text);
      return word?.kinds.includes(REGISTER) ? 'property' : word && 'keyword';
    }
    case 'text':
      return 'string';
    case 'sign':
      return OPERATORS.has(text) ? 'operator' : undefined;
    default:
      return kind;
  }
}

/** Where texts begin that somebody is to read: titles, notes, cautions. */
function proseOn({ header, items }: LineSyntax): ReadonlySet<number> {
  const starts = new Set<number>();
  if (header && 'title' in header && header.title) starts.add(header.title.from);
  for (const item of items) if (item.kind === 'note' || item.kind === 'caution') starts.add(item.text.from);
  return starts;
}

const INTEGERS_OF_A_TOKEN = 5;

/** What turns the integers sent before into the new ones: one edit at most, in whole tokens. */
export function deltaOf(previous: readonly number[], next: readonly number[]): SemanticTokensEdit[] {
  const shorter = Math.min(previous.length, next.length);
  let start = 0;
  while (start < shorter && previous[start] === next[start]) start++;
  start -= start % INTEGERS_OF_A_TOKEN;
  let same = 0;
  while (same < shorter - start && previous[previous.length - 1 - same] === next[next.length - 1 - same]) same++;
  same -= same % INTEGERS_OF_A_TOKEN;
  const deleteCount = previous.length - start - same;
  const data = next.slice(start, next.length - same);
  return deleteCount === 0 && data.length === 0 ? [] : [{ start, deleteCount, data }];
}
