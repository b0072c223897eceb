/**
 * A small drawing kit for pictures that stand in the editor: all colours are those of its theme, by name, with others for
 * where there is none. Only attributes, no style sheet: the page that shows them allows none.
 */
import { escapeXml } from '../../server/sheets/escape.js';

const theme = (name: string, otherwise: string): string => `var(--vscode-${name}, ${otherwise})`;
export const COLOURS = {
  ink: theme('editor-foreground', '#3b3b3b'),
  paper: theme('editor-background', '#ffffff'),
  edge: theme('widget-border', theme('contrastBorder', '#8080804d')),
  faint: theme('descriptionForeground', '#6b6b6b'),
  keyword: theme('symbolIcon-keywordForeground', theme('editor-foreground', '#3b3b3b')),
  hint: theme('editorInlayHint-foreground', '#606060'),
  error: theme('editorError-foreground', '#e51400'),
  good: theme('testing-iconPassed', '#388a34'),
  chosen: theme('list-activeSelectionBackground', '#e8e8e8'),
  chosenInk: theme('list-activeSelectionForeground', '#000000'),
  chosenEdge: theme('contrastActiveBorder', 'none'),
  accent: theme('focusBorder', '#005fb8'),
} as const;
type Colour = keyof typeof COLOURS;

/** Of all pictures, in px: a walkthrough has no more room for them. */
export const WIDTH = 412;
export const MARGIN = 14;
const COLUMN = 7.83;

export interface Style {
  readonly size?: number;
  readonly colour?: Colour;
  readonly isCode?: boolean;
  readonly isBold?: boolean;
}
const CODE = "ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace";
const PROSE = theme('font-family', "system-ui, 'DejaVu Sans', sans-serif");

export function words(x: number, y: number, text: string, style: Style = {}): string {
  const { size = 13, colour = 'ink', isCode = false, isBold = false } = style;
  const weight = isBold ? ' font-weight="700"' : '';
  const kept = escapeXml(text).replaceAll(' ', '\u00a0');
  return `<text x="${x}" y="${y}" font-size="${size}" fill="${COLOURS[colour]}" font-family="${isCode ? CODE : PROSE}"${weight}>${kept}</text>`;
}

export const box = (x: number, y: number, width: number, height: number, fill: string, stroke = 'none', radius = 4) =>
  `<rect x="${x}" y="${y}" width="${width}" height="${height}" rx="${radius}" fill="${fill}" stroke="${stroke}"/>`;

/** How wide code is. */
export const codeWidth = (text: string): number => [...text].length * COLUMN;

const STEP = /^(\s*)([a-z-]+)(.*)$/;

/** A line of the notation, with what stands beside it. */
export function codeLine(x: number, y: number, line: string, beside = ''): string {
  const [, indent, word, rest] = STEP.exec(line) ?? ['', '', '', line];
  const at = (text: string) => x + codeWidth(text);
  const parts = [
    words(at(indent), y, word, { colour: 'keyword', isCode: true, isBold: true }),
    words(at(indent + word), y, rest, { isCode: true }),
  ];
  if (beside !== '') parts.push(words(at(`${line}  `), y, beside, { colour: 'hint', size: 12 }));
  return parts.join('');
}

/** What is wrong is underlined by waves. */
export function waves(x: number, y: number, width: number): string {
  const bows = Math.max(1, Math.round(width / 6));
  const d = Array.from({ length: bows }, (_, i) => `q1.5 ${i % 2 === 0 ? -3 : 3} 3 0 q1.5 ${i % 2 === 0 ? 3 : -3} 3 0`);
  return `<path d="M${x} ${y}${d.join('')}" fill="none" stroke="${COLOURS.error}" stroke-width="1.3"/>`;
}

/** Text in lines that are no longer than so many characters. */
export function wrapped(text: string, most: number): string[] {
  const lines: string[] = [''];
  for (const word of text.split(/\s+/)) {
    const last = lines[lines.length - 1];
    if (last !== '' && `${last} ${word}`.length > most) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines;
}

/** A whole picture: a sheet of the editor with something on it. */
export const picture = (height: number, title: string, inner: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" role="img">
<title>${escapeXml(title)}</title>
${box(0.5, 0.5, WIDTH - 1, height - 1, COLOURS.paper, COLOURS.edge, 6)}
${inner}
</svg>
`;
