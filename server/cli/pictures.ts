/**
 * The pictures of insets, files beside their page.
 *
 * Invariant: a file that was not made for the same inset is never written over. What was made for it says so in its
 * second line.
 */
import path from 'node:path';
import { readText } from '../disk.js';
import type { Picture } from '../weave/content.js';
import { sealOf } from '../weave/seal.js';
import { writeNew } from './writing.js';

export type PictureState =
  | { readonly is: 'fresh' }
  | { readonly is: 'stale'; readonly file: string; readonly content: string }
  /** A file of that name is there and is somebody else's, or can't be read. */
  | { readonly is: 'taken'; readonly file: string };

const HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n';
/** The page is part of it: two pages in one folder may be called alike but for their endings. */
const markFor = (page: string, picture: Picture): string =>
  `<!-- cranknote weave ${sealOf(`${path.basename(page)}\n${picture.file}`)} -->\n`;

/** How a picture of a page stands on the disk. */
export function pictureState(page: string, picture: Picture): PictureState {
  const file = path.join(path.dirname(page), picture.file);
  const ours = HEAD + markFor(page, picture);
  const content = `${ours}${picture.svg}\n`;
  const there = readText(file);
  if ('problem' in there) return { is: there.problem === 'missing' ? 'stale' : 'taken', file, content };
  if (there.text === content) return { is: 'fresh' };
  // A program that checks files out may have changed the ends of lines.
  return there.text.replaceAll('\r\n', '\n').startsWith(ours) ? { is: 'stale', file, content } : { is: 'taken', file };
}

/** Writes what is stale. Throws where it can't be written: then it is as it was. */
export function writePicture(state: PictureState): void {
  if (state.is === 'stale') writeNew(state.file, state.content);
}
