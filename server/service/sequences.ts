/** The sequences of a document, for whoever lets somebody choose among them. */
import type { Range } from 'vscode-languageserver';
import type { NameSyntax, SequenceSection } from '../../grammar/tree.js';
import type { ParsedDocument } from './document.js';
import { onOneLine } from './markdown.js';

/** A sequence that has a name, and the line of the document on which it begins. */
export interface Named {
  readonly section: SequenceSection;
  readonly line: number;
  readonly name: NameSyntax;
}

/** What a person is shown of one: its name and title, and the lines that it takes. */
export interface Outline {
  readonly name: string;
  readonly title: string;
  readonly range: Range;
}

/** From the top of the document. */
export const sequencesOf = ({ tree }: ParsedDocument): Named[] =>
  tree.sections.flatMap(({ section, line }) =>
    section.kind === 'sequence' && section.header ? [{ section, line, name: section.header.name }] : [],
  );

/** By its name, or the one on the line or above it; the first where the line is above all of them. */
export function sequenceWanted<N extends Named>(
  all: readonly N[],
  { sequence, line = 0 }: { readonly sequence?: string; readonly line?: number },
): N | undefined {
  if (sequence !== undefined) return all.find(({ name }) => name.name === sequence);
  return all.findLast((one) => one.line <= line) ?? all[0];
}

export function outlineOf({ section, line, name }: Named): Outline {
  const title = onOneLine(section.header?.title?.value ?? '').trim();
  const end = { line: line + section.lines.length, character: 0 };
  return { name: name.name, title, range: { start: { line, character: 0 }, end } };
}
