/** The paths of `use` lines as links. */
import type { DocumentLink } from 'vscode-languageserver';
import type { ParsedDocument } from './document.js';
import { namesOnLine, targetOf } from './names.js';
import { rangeOn } from './spots.js';
import type { Words } from './wording/index.js';

/** A link for each path that leads to a file that is known and can be read. */
export function documentLinks(document: ParsedDocument, words: Words): DocumentLink[] {
  const { library } = document;
  return document.tree.sections.flatMap(({ section, line }) => {
    if (section.kind !== 'use') return [];
    const file = targetOf(document.file, section);
    const path = namesOnLine(section.lines[0]).find(({ kind }) => kind === 'file');
    if (!path || file === undefined || library.problemOf(file)) return [];
    const target = file === document.file ? document.uri : document.uriOf(file);
    return [{ range: rangeOn(line, path), target, tooltip: words.names.open(path.name) }];
  });
}
