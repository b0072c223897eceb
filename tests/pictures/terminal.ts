/** Draws what `cranknote trace` prints at a terminal as an SVG. */
import { writeFileSync } from 'node:fs';
import Anser from 'anser';
import { createColors } from 'picocolors';
import type { Terminal } from '../../server/cli/terminal.js';
import { trace } from '../../server/cli/trace.js';

const WANTED: readonly [file: string, sequence: string][] = [
  ['samples/stores-products.crank', 'coke-price'],
  ['samples/mistakes.crank', 'stale-reading'],
];

const FONT = 13;
const LINE = 18;
const COLUMN = 7.85;
const PAPER = '#fbfaf6';
const INK = '#1f2328';
const PALE = '#6b7177';
/** The terminal's colours on light paper, dark enough to be read (contrast 4.5 and more). */
const COLORS: Readonly<Record<string, string>> = {
  'ansi-red': '#b3261e',
  'ansi-green': '#1a6b35',
  'ansi-yellow': '#7a5200',
  'ansi-cyan': '#0b5f75',
};

function printed(file: string, sequence: string): string {
  let text = '';
  const terminal: Terminal = {
    out: (more) => {
      text += more;
    },
    err: (message) => {
      throw new Error(message);
    },
    colors: createColors(true),
    isTerminal: true,
    columns: 110,
    showsProgress: false,
  };
  trace([file], { format: 'text', sequence }, terminal);
  return `\u001b[1m$ cranknote trace ${file} --sequence ${sequence}\u001b[0m\n\n${text.trimEnd()}`;
}

const escapeXml = (text: string): string =>
  text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c] ?? c);

function spans(line: string): string {
  let column = 0;
  return Anser.ansiToJson(line, { use_classes: true, remove_empty: true })
    .map(({ content, fg, decorations }) => {
      const x = 16 + column * COLUMN;
      column += [...content].length;
      const fill = decorations.includes('dim') ? PALE : (COLORS[fg] ?? INK);
      const weight = decorations.includes('bold') || decorations.includes('reverse') ? ' font-weight="700"' : '';
      return `<tspan x="${x.toFixed(1)}" fill="${fill}"${weight}>${escapeXml(content).replaceAll(' ', '\u00a0')}</tspan>`;
    })
    .join('');
}

const lines = WANTED.flatMap(([file, sequence]) => [...printed(file, sequence).split('\n'), '']).slice(0, -1);
const columns = Math.max(...lines.map((line) => [...line.replace(/\u001b\[[\d;]*m/g, '')].length));
const width = Math.ceil(32 + columns * COLUMN);
const height = 24 + lines.length * LINE;
const text = lines.map((line, i) => `  <text y="${24 + i * LINE}">${spans(line)}</text>`).join('\n');
const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img">
  <title>What cranknote trace prints: the registers after every step, and a finding explained</title>
  <rect width="100%" height="100%" rx="6" fill="${PAPER}" stroke="#d5d2c8"/>
  <g font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="${FONT}">
${text}
  </g>
</svg>
`;
writeFileSync('client/pictures/terminal.svg', svg);
