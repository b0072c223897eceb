/** The register figure of a machine: as a drawing, and as sentences for whoever does not see it. */
import type { FigureData } from '../model.js';
import type { SheetWords } from '../wording/index.js';
import { figureText, titleOf } from './alternative.js';
import { layoutOf } from './layout.js';
import { drawn } from './svg.js';

export { figureText } from './alternative.js';

/**
 * A machine as it stands after something, what has changed set off: one `svg` element, complete in itself. It is as
 * wide as it needs to be to be legible in print, 17 cm at the most, and scales with its page.
 *
 * Where several stand on a page, each takes an `idPrefix` of its own: its title and description get ids that begin with
 * it (signs that an id has no room for become hyphens), and it refers to them. Without one it has no ids.
 */
export function figureSvg(data: FigureData, words: SheetWords, idPrefix?: string): string {
  return drawn(layoutOf(data, words), {
    title: titleOf(data, words),
    description: figureText(data, words),
    ...(idPrefix !== undefined && { idPrefix }),
  });
}

/** The same as a file of its own, to be shown as a picture: on white paper, for it can't know the page's colours. */
export const figureFile = (data: FigureData, words: SheetWords): string =>
  drawn(layoutOf(data, words), {
    title: titleOf(data, words),
    description: figureText(data, words),
    idPrefix: 'figure',
    isOnPaper: true,
  });
