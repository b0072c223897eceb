/** How a sheet looks: on a screen, light or dark, and on paper, black on white. */
import { type Colours, DARK, LIGHT } from './colours.js';
import { escapeCss } from './escape.js';
import type { Paper } from './model.js';
import type { SheetWords } from './wording/index.js';

export interface PageOptions {
  readonly paper: Paper;
  /** Stands at the left of each page's foot, the page's number at the right. */
  readonly foot: string;
  /** Widths of the columns to be filled in, in whole millimetres. */
  readonly widths: readonly number[];
}

/** The class of a column so many millimetres wide; widths come as classes because attributes need no style then. */
export const widthClass = (millimetres: number): string => `mm${millimetres}`;

const SIZES: Readonly<Record<Paper, string>> = { a4: 'A4', letter: 'letter' };

const FONT = 'system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", sans-serif';
const MONO = 'ui-monospace, "Cascadia Mono", Menlo, Consolas, "Liberation Mono", monospace';

function inkOf({ ink, ground }: Colours): string {
  return `--ink: ${ink}; --ground: ${ground};`;
}

/** Contrast of text on its ground is 4.5 and more, in each of the three. */
const BY_LIGHT = `${inkOf(LIGHT)} --pale: #525c57; --accent: #1f5c45; --rule: #c3c9c4; --window: #ffffff;
    --care: #8a4600; --care-ground: #fff3dc;`;
const BY_DARK = `${inkOf(DARK)} --pale: #aeb8b2; --accent: #8fd0b0; --rule: #465049; --window: #0d100f;
    --care: #f0b65c; --care-ground: #2d2412;`;
const PRINT = `--ink: #000; --ground: #fff; --pale: #000; --accent: #000; --rule: #000; --window: #fff;
    --care: #000; --care-ground: #fff;`;

const COMMON = `
*, *::before, *::after { box-sizing: border-box; }
html { font: 100%/1.5 ${FONT}; color: var(--ink); background: var(--ground); -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; overflow-wrap: break-word; font-variant-numeric: tabular-nums lining-nums; }
h1, h2, h3, p, ul, ol, dl, dd, figure, table { margin: 0; padding: 0; }
h1, h2, h3 { line-height: 1.2; text-wrap: balance; }
p, li, td, figcaption { text-wrap: pretty; }
header { border-bottom: 3px solid var(--accent); padding-bottom: .8em; margin-bottom: 1.4em; }
header .kind { color: var(--accent); font-weight: 700; font-size: .9em; letter-spacing: .04em; }
h1 { font-size: 1.9em; margin: .15em 0; }
header .subtitle { font-size: 1.1em; color: var(--pale); }
h2 { font-size: 1.3em; margin: 1.5em 0 .6em; padding-bottom: .2em; border-bottom: 1px solid var(--rule); }
h3 { font-size: 1.08em; margin: 1.3em 0 .5em; }
main > :first-child, section > :first-child, aside > :first-child { margin-top: 0; }
section + section, main > * + section { margin-top: 1.9em; }
main p, main ul, main ol, main dl, main aside, main figure, main table { margin-top: .8em; }
.fine { font-size: .86em; color: var(--pale); }
code { font-family: ${MONO}; font-size: .93em; white-space: pre-wrap; }
samp { font: inherit; font-weight: 700; white-space: nowrap; }
ul { padding-left: 1.3em; }
main li + li { margin-top: .3em; }
.blank { display: inline-block; border-bottom: 1.5px solid currentColor; height: 1.5em; line-height: 1.5;
  letter-spacing: .5em; vertical-align: -.12em; white-space: nowrap; margin: 0 .15em; max-width: 100%; overflow: hidden; }
.tick { display: inline-block; width: 1.15em; height: 1.15em; border: 2px solid currentColor; border-radius: 2px;
  vertical-align: -.2em; }

aside { padding: .7em .9em .75em 3.1em; position: relative; border: 1px solid var(--rule); border-left: 5px solid var(--accent);
  border-radius: 3px; }
aside.note { padding-left: .9em; }
aside.caution { border: 2px solid var(--care); background: var(--care-ground); }
aside .sign { position: absolute; left: .7em; top: .65em; width: 1.7em; height: 1.7em; color: var(--care); }
aside h2 { font-size: 1.08em; border: 0; padding: 0; margin: 0; color: var(--care); line-height: 1.5; }
aside p { margin: 0; }
aside .word { color: var(--accent); }
aside.caution .word { color: var(--care); }
aside ul { margin-top: .3em; padding-left: 1.1em; }

.steps { list-style-type: ""; --number: 2.9em; }
.steps.long { --number: 4.2em; }
.steps > li { display: grid; grid-template-columns: var(--number) minmax(0, 1fr); align-items: baseline; padding: .65em 0;
  margin: 0; }
.steps > li + li { margin: 0; }
.steps > li:not(:last-child) { border-bottom: 1px solid var(--rule); }
.steps > li:has(+ .part:not(.first)) { border-bottom: 0; padding-bottom: .2em; }
.steps > li.part:not(.first) { padding-top: .2em; }
.steps.ticked > li { grid-template-columns: 2em var(--number) minmax(0, 1fr); }
.steps .number { white-space: nowrap; font-weight: 800; color: var(--accent); font-size: 1.15em; line-height: 1.2; }
.steps .part .number { font-weight: 600; font-size: 1em; padding-left: .3em; line-height: inherit; }
.steps > li > .tick { position: relative; top: .2em; }
.steps li > div > * { margin-top: .6em; }
.steps li > div > :first-child, .steps aside p { margin-top: 0; }
.readings { list-style-type: ""; padding: 0; display: flex; flex-wrap: wrap; gap: .4em .6em; }
.readings > li.reading { margin: 0; color: var(--pale); border: 1px solid var(--rule); border-radius: 3px;
  background: var(--window); padding: .05em .6em; }
.readings samp, .readings .blank { color: var(--ink); }
.key .steps > li { padding: .5em 0; }
.key .steps > li > div { display: flex; flex-wrap: wrap; align-items: baseline; gap: .4em .9em; }
.key .steps > li > div > * { margin-top: 0; }
.key .steps > li > div > p { flex: 1 1 auto; }
.key .steps .readings { margin-left: auto; }
.key .steps figure, .key .steps aside { flex-basis: 100%; }

figure > svg { display: block; max-width: 100%; height: auto; }
figcaption { font-size: .86em; color: var(--pale); margin-top: .4em; }

table { border-collapse: collapse; width: 100%; }
caption { text-align: left; font-weight: 700; padding-bottom: .4em; }
th, td { text-align: left; vertical-align: top; padding: .35em .7em; border-bottom: 1px solid var(--rule); }
thead th, thead td { vertical-align: bottom; border-bottom: 2px solid var(--accent); font-size: .92em; line-height: 1.3; }
th:first-child, td:first-child { padding-left: .2em; }
.figures { text-align: right; }
.fill { border-left: 1px solid var(--rule); }
td.fill { height: 2.4em; }
tr:has(.blank) > td { vertical-align: bottom; }
.ticks { text-align: center; }

.fields { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(18em, 100%), 1fr)); gap: .4em 2em; }
.fields > div { display: flex; gap: .8em; align-items: baseline; }
.fields > .across { grid-column: 1 / -1; }
.fields dt { color: var(--pale); }
.fields dd { font-weight: 600; }
.fields .to-fill { flex: 1; min-width: 5em; align-self: end; }
.fields .line { display: block; height: 1.6em; border-bottom: 1.5px solid var(--ink); }
main .fields + * { margin-top: 1.4em; }
footer { margin-top: 2.5em; padding-top: .6em; border-top: 1px solid var(--rule); font-size: .86em; color: var(--pale); }
`;

const SCREEN = `
body { max-width: 45rem; padding: 2.2rem 1.25rem 3rem; }
.new-page { margin-top: 3.2em; padding-top: 1.6em; border-top: 3px double var(--rule); }
@media (max-width: 34rem) { th, td { padding-inline: .35em; hyphens: auto; } }
`;

/** Lines are whole pixels wide: the browser draws 1.4 points as thin as one. */
const ON_PAPER = `
html { font-size: 10.5pt; line-height: 1.38; }
body { max-width: none; padding: 0 1px; }
h1 { font-size: 20pt; }
h1, h2, h3, caption, header { break-after: avoid; }
p, li { orphans: 3; widows: 3; }
li, aside, figure, tr, .fields { break-inside: avoid; }
section:not(:has(.steps, .by-hand, h3, tr:nth-child(12), li:nth-child(8))) { break-inside: avoid; }
.steps > li:not(.part) + li.part:not(.first), .fine { break-before: avoid; }
h3 + p { break-after: avoid; }
.caution + .steps, .caution + .note, .caution + .note + .steps { break-before: avoid; }
.steps > li:first-child:not(:last-child) { break-after: avoid; }
ul:not(.readings) > li:is(:first-child:not(:last-child), :nth-last-child(2)) { break-after: avoid; }
table:not(.by-hand, :has(tr:nth-child(12))), ul:not(:has(li:nth-child(8))) { break-inside: avoid; }
tbody tr:first-child:not(:last-child), tbody tr:nth-last-child(2) { break-after: avoid; }
thead { display: table-header-group; }
.new-page { break-before: page; margin-top: 0; }
table.by-hand { font-size: .88em; }
.by-hand td.fill:not(.ticks, :last-child) { min-width: 36mm; }
.by-hand th, .by-hand td { padding-inline: .5em; }
.by-hand td { padding-block: .3em; }
.by-hand tr:has(td:first-child:empty) { break-before: avoid; }
p:has(+ .by-hand, + .fields) { break-after: avoid; }
td.fill { height: 9mm; }
.blank { border-bottom-width: 1px; letter-spacing: .62em; height: 6.5mm; vertical-align: baseline; }
.tick { width: 4.4mm; height: 4.4mm; border-width: 1px; }
.fields .line { height: 8mm; border-bottom-width: 1px; }
.fields > div:has(.line) { align-items: end; }
.fields > .across:has(.line) { align-items: start; }
.fields > .across dt { height: 8mm; align-content: end; }
footer { display: none; }
`;

/** The style sheet of one sheet. */
export function styleOf({ paper, foot, widths }: PageOptions, words: SheetWords): string {
  const { before, between } = words.page.pageOf;
  const columns = [...new Set(widths)].sort((a, b) => a - b);
  return `:root { color-scheme: light dark; ${BY_LIGHT} }
@media screen and (prefers-color-scheme: dark) { :root { ${BY_DARK} } }
@media print { :root { color-scheme: light; ${PRINT} } }
${COMMON.trim()}
${columns.map((width) => `.${widthClass(width)} { width: ${width}mm; }\n`).join('')}
@media screen {${SCREEN}}
@media print {${ON_PAPER}}
@page { size: ${SIZES[paper]}; margin: 16mm 17mm 21mm 20mm; font: 8.5pt/1.3 ${FONT}; color: #000;
  @bottom-left { content: "${escapeCss(foot)}"; vertical-align: top; text-align: left; padding-top: 4mm; }
  @bottom-right { content: "${escapeCss(before)}" counter(page) "${escapeCss(between)}" counter(pages);
    vertical-align: top; text-align: right; padding-top: 4mm; white-space: nowrap; }
}`;
}
