/** The drawn machine as a picture in a hover: for clients that show pictures there, and say how their theme looks. */
import { DARK, LIGHT } from '../sheets/colours.js';
import { type FigurePicture, figurePicture, figureText } from '../sheets/figure/index.js';
import type { FigureData } from '../sheets/model.js';
import { sheetWords } from '../sheets/wording/index.js';
import type { Reader } from './document.js';
import { picture } from './markdown.js';

/** How a client's theme looks. What a hover stands on is the theme's own, so that pictures bring their ground. */
const COLOURS = {
  light: LIGHT,
  dark: DARK,
  'high-contrast-light': { ink: '#000000', ground: '#ffffff' },
  'high-contrast-dark': { ink: '#ffffff', ground: '#000000' },
} as const;
export type Look = keyof typeof COLOURS;

export const lookFrom = (sent: unknown): Look | undefined =>
  typeof sent === 'string' && Object.hasOwn(COLOURS, sent) ? (sent as Look) : undefined;

/** An editor shows no more than 100 000 characters of a hover's text: the rest of it needs room as well. */
const LONGEST_PICTURE = 64_000;

/** Whether a reader wishes pictures, and has a client that shows them. */
export const wantsPictures = ({ look, settings }: Reader): boolean =>
  look !== undefined && settings.hoverFigure === 'drawn';

/** The figure as Markdown; undefined where it is not wanted, or too large for a hover. */
export function figurePart(data: FigureData, reader: Reader): string | undefined {
  if (reader.look === undefined || !wantsPictures(reader)) return undefined;
  const words = sheetWords(reader.locale);
  const drawn = figurePicture(data, words, COLOURS[reader.look]);
  const markdown = picture(figureText(data, words), addressOf(drawn), drawn.width);
  return markdown.length > LONGEST_PICTURE ? undefined : markdown;
}

/** All of a picture as an address. */
function addressOf({ svg }: FigurePicture): string {
  let bytes = '';
  for (const byte of new TextEncoder().encode(svg)) bytes += String.fromCharCode(byte);
  return `data:image/svg+xml;base64,${btoa(bytes)}`;
}
