/** The sequences of a document, for whoever shows one of them beside it. */
import type { Range } from 'vscode-languageserver';
import type { NameSyntax, SequenceSection } from '../../grammar/tree.js';
import type { ParsedDocument } from './document.js';
import { onOneLine } from './markdown.js';

/** What a client says of the sequence that it wants. */
export interface SequenceAsked {
  readonly uri: string;
  /** Its name. */
  readonly sequence?: string;
  /** Where no name is given: the sequence that this line belongs to, counted from 0. */
  readonly line?: number;
}

/** A sequence that has a name, and the line of the document on which it begins. */
export interface Named {
  readonly section: SequenceSection;
  readonly line: number;
  readonly name: NameSyntax;
}

export interface Outline {
  readonly name: string;
  readonly title: string;
  /** The lines that it takes. */
  readonly range: Range;
}

export const isCount = (value: unknown): value is number => Number.isInteger(value) && (value as number) >= 0;

/** What was sent, if it makes sense; a text says what is wrong with it, to whoever wrote the client. */
export function sequenceAsked({ uri, sequence, line }: Readonly<Record<string, unknown>>): SequenceAsked | string {
  if (typeof uri !== 'string') return 'A document is needed: uri.';
  if (sequence !== undefined && typeof sequence !== 'string') return 'sequence is the name of a sequence.';
  if (line !== undefined && !isCount(line)) return 'line is a whole number, counted from 0.';
  return { uri, ...(sequence !== undefined && { sequence }), ...(line !== undefined && { line }) };
}

/** From the top of the document. */
export const sequencesOf = ({ tree }: ParsedDocument): Named[] =>
  tree.sections.flatMap(({ section, line }) =>
    section.kind === 'sequence' && section.header ? [{ section, line, name: section.header.name }] : [],
  );

/** By its name, or the one on the line or above it; the first where the line is above all of them. */
export function sequenceWanted<N extends Named>(
  all: readonly N[],
  { sequence, line = 0 }: Omit<SequenceAsked, 'uri'>,
): N | undefined {
  if (sequence !== undefined) return all.find(({ name }) => name.name === sequence);
  return all.findLast((one) => one.line <= line) ?? all[0];
}

export function outlineOf({ section, line, name }: Named): Outline {
  const title = onOneLine(section.header?.title?.value ?? '').trim();
  const end = { line: line + section.lines.length, character: 0 };
  return { name: name.name, title, range: { start: { line, character: 0 }, end } };
}
