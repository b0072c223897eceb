/** The register figure of a machine: as a drawing, and as sentences for whoever does not see it. */
import type { Colours } from '../colours.js';
import type { FigureData } from '../model.js';
import type { SheetWords } from '../wording/index.js';
import { figureText, titleOf } from './alternative.js';
import { layoutOf } from './layout.js';
import { drawnInParts, type FigureInParts, type PartName } from './parts.js';
import { drawn, pictured, type Telling } from './svg.js';

export { figureText } from './alternative.js';
export { DEVICE_BITS, type DeviceKind, devicesOf, registersOf } from './devices.js';
export type { FigureInParts, FigurePart, PartName } from './parts.js';
export { shownOf } from './shown.js';

/**
 * A machine as it stands after something, what has changed set off: one `svg` element, complete in itself. It is as
 * wide as it needs to be to be legible in print, 17 cm at the most, and scales with its page.
 *
 * Where several stand on a page, each takes an `idPrefix` of its own: its title and description get ids that begin with
 * it (signs that an id has no room for become hyphens), and it refers to them. Without one it has no ids.
 */
export const figureSvg = (data: FigureData, words: SheetWords, idPrefix?: string): string =>
  drawn(layoutOf(data, words), tellingOf(data, words, idPrefix));

/** A drawing that is a file of its own, and how large it is in px. */
export interface FigurePicture {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

/**
 * The same where it stands in no page whose colours it could take, as in an `img`: with ink and ground of its own. What
 * stands in such a picture is not read aloud: it has to be told beside it as well, by `figureText`.
 */
export const figurePicture = (data: FigureData, words: SheetWords, colours: Colours): FigurePicture =>
  pictured(layoutOf(data, words), colours, tellingOf(data, words));

/**
 * The same for a page on which its parts can be found and pointed at, and where those are marked that are about to go
 * wrong.
 */
export const figureInParts = (
  data: FigureData,
  words: SheetWords,
  idPrefix: string,
  isHeeded: (part: PartName) => boolean,
): FigureInParts => drawnInParts(layoutOf(data, words), tellingOf(data, words, idPrefix), isHeeded);

const tellingOf = (data: FigureData, words: SheetWords, idPrefix?: string): Telling => ({
  title: titleOf(data, words),
  description: figureText(data, words),
  ...(idPrefix !== undefined && { idPrefix }),
});
