/** Which files are nobody's business. */
import type { Placed } from '../../grammar/tree.js';
import { isMarkdown, type Library } from './library.js';

/** A Markdown page without a crank fence, and without an inset, is nobody's mistake. */
export const isIdle = (library: Library, file: string): boolean =>
  isMarkdown(file) && library.insets(file).length === 0 && library.tree(file)?.sections.every(isBlank) === true;

const isBlank = ({ section }: Placed): boolean =>
  section.kind === 'preamble' && section.lines.every(({ text }) => text.trim() === '');
