/**
 * A sheet as one page of HTML that needs nothing else: to be opened in any browser, mailed, or printed.
 *
 * Invariant: every text goes through `escapeXml` (in the style sheet through `escapeCss`), and the page forbids scripts
 * and whatever would have to be fetched, should anything ever slip through.
 */
import { finish, type Gradual } from '../../grammar/gradual.js';
import { escapeXml } from './escape.js';
import { looksAlike } from './figure/alike.js';
import { figureSvg } from './figure/index.js';
import type { Block, Column, FigureData, Paper, Sheet, SheetStep, Span, Text } from './model.js';
import { styleOf, widthClass } from './style.js';
import type { SheetWords } from './wording/index.js';

/**
 * Styles stand in the page, and their hash cannot be told without waiting where there is no Node. `unsafe-inline` lets
 * a style sheet in, and nothing that it could load.
 */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** A toothed wheel with a stroke and a dot in it: the sign of a caution, told by its shape and not by its colour. */
const SIGN =
  '<svg class="sign" viewBox="0 0 24 24" aria-hidden="true" focusable="false">' +
  '<circle cx="12" cy="12" r="10.2" fill="none" stroke="currentColor" stroke-width="3" pathLength="40" stroke-dasharray="3 2"/>' +
  '<circle cx="12" cy="12" r="8" fill="none" stroke="currentColor" stroke-width="2"/>' +
  '<path d="M12 7v6.2M12 15.6v1.6" fill="none" stroke="currentColor" stroke-width="2.4"/></svg>';

const FIGURE_SPACE = '\u2007';
/** Columns up to so many millimetres are to be ticked, wider ones to be written in. */
const TICK_WIDTH = 10;
/** Numbers of steps with more signs need more room beside the text. */
const LONG_NUMBER = 4;
const NARROWEST = 8;
const WIDEST = 80;

/** A complete page. Text alternatives, labels of blanks and the page's foot are in the sheet's own language. */
export const toHtml = (sheet: Sheet, words: SheetWords, options: { readonly paper: Paper }): string =>
  finish(htmlGradually(sheet, words, options));

export function* htmlGradually(sheet: Sheet, words: SheetWords, { paper }: { readonly paper: Paper }): Gradual<string> {
  const name = sheet.subtitle === undefined ? sheet.title : `${sheet.title} – ${sheet.subtitle}`;
  // A foot that is the title again is said once, and where there are no pages the head has said the machine already.
  const extra = sheet.foot === sheet.title ? '' : sheet.foot;
  const end = extra === sheet.subtitle ? '' : extra;
  const foot = [sheet.title, extra].filter((text) => text !== '').join(' · ');
  const widths = sheet.blocks.flatMap((block) =>
    block.is === 'table' ? block.columns.flatMap((column) => fillWidth(column) ?? []) : [],
  );
  const body = yield* new Page(sheet.blocks, words, { isTicked: sheet.kind === 'bench', idPrefix: 'figure' }).body();
  return pageHtml({
    language: sheet.language,
    title: name,
    style: styleOf({ paper, foot, widths }, words),
    body: `<header>
<p class="kind">${escapeXml(words.page.kinds[sheet.kind])}</p>
<h1>${escapeXml(sheet.title)}</h1>
${sheet.subtitle === undefined ? '' : `<p class="subtitle">${escapeXml(sheet.subtitle)}</p>\n`}</header>
<main class="${sheet.kind}">
${body}
</main>
${end === '' ? '' : `<footer><p>${escapeXml(end)}</p></footer>\n`}`,
  });
}

/** What goes into a page: style and body are markup already, the rest is text. */
export interface PageParts {
  readonly language: string;
  readonly title: string;
  readonly style: string;
  readonly body: string;
}

/** A page that stands by itself, in light and dark. */
export function pageHtml({ language, title, style, body }: PageParts): string {
  return `<!DOCTYPE html>
<html lang="${escapeXml(language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeXml(title)}</title>
<style>
${style}
</style>
</head>
<body>
${body}</body>
</html>
`;
}

/** Blocks by themselves, to stand in somebody else's page: no styles, no head, no ids. */
export const toFragment = (blocks: readonly Block[], words: SheetWords): string =>
  finish(new Page(blocks, words, { isTicked: false }).body());

/** How wide a column to be filled in is, in millimetres; undefined for one that is printed. */
const fillWidth = ({ blank }: Column): number | undefined =>
  blank === undefined ? undefined : Math.min(WIDEST, Math.max(NARROWEST, Math.round(blank)));

interface PageKind {
  /** There is a box to tick at every step. */
  readonly isTicked: boolean;
  /** What the ids of figures begin with; without it they have none. */
  readonly idPrefix?: string;
}

class Page {
  private figures = 0;
  private hasLegend = false;

  constructor(
    private readonly blocks: readonly Block[],
    private readonly words: SheetWords,
    private readonly kind: PageKind,
  ) {}

  /** The blocks in their order; each heading of the second level begins a section. */
  *body(): Gradual<string> {
    const parts: string[] = [];
    let isInSection = false;
    let isNewPage = false;
    for (const block of this.blocks) {
      if (block.is === 'page') {
        // Before everything else there would be a page with nothing but the title.
        isNewPage = parts.length > 0;
        continue;
      }
      const opens = block.is === 'heading' && (block.level === 2 || !isInSection);
      if (opens) {
        if (isInSection) parts.push('</section>');
        parts.push(isNewPage ? '<section class="new-page">' : '<section>');
        parts.push(`<h2>${this.text(block.text)}</h2>`);
        isInSection = true;
      } else {
        const html = yield* this.block(block);
        parts.push(isNewPage ? `<div class="new-page">\n${html}\n</div>` : html);
      }
      isNewPage = false;
    }
    if (isInSection) parts.push('</section>');
    return parts.join('\n');
  }

  private *block(block: Exclude<Block, { is: 'page' }>): Gradual<string> {
    yield;
    switch (block.is) {
      case 'heading':
        return `<h3>${this.text(block.text)}</h3>`;
      case 'paragraph':
        return `<p${block.isFine ? ' class="fine"' : ''}>${this.text(block.text)}</p>`;
      case 'note':
      case 'caution':
        return this.remark(block.is, block.text);
      case 'cautions':
        return `<aside role="note" class="caution">${SIGN}\n<h2>${escapeXml(block.title)}</h2>\n${this.list(block.items)}\n</aside>`;
      case 'list':
        return this.list(block.items);
      case 'steps':
        return yield* this.steps(block.steps);
      case 'table':
        return this.table(block);
      case 'figure':
        return this.figure(block.figure, block.caption);
      case 'fields':
        return this.fields(block.fields);
    }
  }

  /** What stands beside the way of the work. No landmark: there may be one at every step. */
  private remark(is: 'note' | 'caution', text: Text): string {
    const word = `<strong class="word">${escapeXml(this.words.page[is])}</strong>`;
    return `<aside role="note" class="${is}">${is === 'caution' ? SIGN : ''}<p>${word}: ${this.text(text)}</p></aside>`;
  }

  private list(items: readonly Text[]): string {
    if (items.length === 0) return '';
    return `<ul>\n${items.map((item) => `<li>${this.text(item)}</li>`).join('\n')}\n</ul>`;
  }

  private *steps(steps: readonly SheetStep[]): Gradual<string> {
    if (steps.length === 0) return '';
    const tick = this.kind.isTicked ? this.tick() : '';
    const isPart = (number: string): boolean => /^\d+\p{L}+$/u.test(number);
    const isLong = steps.some(({ number }) => number.length > LONG_NUMBER);
    const items: string[] = [];
    for (const [i, { number, text, readings = [], remarks = [], figure }] of steps.entries()) {
      const before = steps[i - 1]?.number;
      // A step whose parts are all that is told of it stands apart from the step before it, as any other.
      const isFirst = before === undefined || Number.parseInt(before, 10) !== Number.parseInt(number, 10);
      const kinds = ['step', ...(isPart(number) ? ['part', ...(isFirst ? ['first'] : [])] : [])].join(' ');
      const cautions = remarks.filter(({ is }) => is === 'caution');
      const notes = remarks.filter(({ is }) => is === 'note');
      const parts = [
        `<li class="${kinds}">${tick}<span class="number">${escapeXml(number)}</span><div>`,
        // What there is to be careful about is read before it is done.
        ...cautions.map((remark) => this.remark('caution', remark.text)),
        `<p>${this.text(text)}</p>`,
        ...(readings.length === 0
          ? []
          : [
              `<ul class="readings">${readings.map((reading) => `<li class="reading">${this.text(reading)}</li>`).join('')}</ul>`,
            ]),
        ...(figure === undefined ? [] : [this.figure(figure)]),
        ...notes.map((remark) => this.remark('note', remark.text)),
        '</div></li>',
      ];
      items.push(parts.join('\n'));
      if (figure !== undefined) yield;
    }
    return `<ol class="${['steps', ...(tick === '' ? [] : ['ticked']), ...(isLong ? ['long'] : [])].join(' ')}">\n${items.join('\n')}\n</ol>`;
  }

  private table({ caption, columns, rows }: Extract<Block, { is: 'table' }>): string {
    const kinds = columns.map((column) => {
      const width = fillWidth(column);
      const names = [
        ...(column.isFigures ? ['figures'] : []),
        ...(width === undefined ? [] : [width > TICK_WIDTH ? 'fill' : 'fill ticks', widthClass(width)]),
      ];
      return names.length === 0 ? '' : ` class="${names.join(' ')}"`;
    });
    const head = columns.map(({ head }, i) =>
      head.trim() === '' ? `<td${kinds[i]}></td>` : `<th scope="col"${kinds[i]}>${escapeXml(head)}</th>`,
    );
    const body = rows.map((row) => {
      const cells = columns.map((column, i) => {
        if (row[i] === null && i > 0) return '';
        const text = row[i] ?? [];
        let span = 1;
        while (i + span < columns.length && row[i + span] === null) span++;
        const width = fillWidth(column);
        const isToTick = text.length === 0 && width !== undefined && width <= TICK_WIDTH;
        return `<td${kinds[i]}${span > 1 ? ` colspan="${span}"` : ''}>${isToTick ? this.tick() : this.text(text)}</td>`;
      });
      return `<tr>${cells.join('')}</tr>`;
    });
    const isToFill = columns.some((column) => fillWidth(column) !== undefined);
    return `<table${isToFill ? ' class="by-hand"' : ''}>
${caption.trim() === '' ? '' : `<caption>${escapeXml(caption)}</caption>\n`}<thead>
<tr>${head.join('')}</tr>
</thead>
<tbody>
${body.join('\n')}
</tbody>
</table>`;
  }

  private figure(data: FigureData, caption?: Text): string {
    this.figures += 1;
    const { idPrefix } = this.kind;
    const svg = figureSvg(data, this.words, idPrefix && `${idPrefix}-${this.figures}`);
    const told = caption === undefined ? '' : `<figcaption>${this.text(caption)}</figcaption>`;
    return `<figure>${svg}${told || this.legend(data)}</figure>`;
  }

  /** How changes are drawn, said once. */
  private legend({ before, after }: FigureData): string {
    if (this.hasLegend || looksAlike(before, after)) return '';
    this.hasLegend = true;
    return `<figcaption>${escapeXml(this.words.figure.legend)}</figcaption>`;
  }

  private fields(fields: Extract<Block, { is: 'fields' }>['fields']): string {
    if (fields.length === 0) return '';
    const rows = fields.map(({ label, value, lines }) => {
      const first = `<span class="line" role="img" aria-label="${escapeXml(this.words.page.toWrite(label))}"></span>`;
      const further = '<span class="line" aria-hidden="true"></span>'.repeat(Math.max(0, (lines ?? 1) - 1));
      const content =
        value === undefined ? `<dd class="to-fill">${first}${further}</dd>` : `<dd>${escapeXml(value)}</dd>`;
      return `<div${lines === undefined ? '' : ' class="across"'}><dt>${escapeXml(label)}</dt>${content}</div>`;
    });
    return `<dl class="fields">\n${rows.join('\n')}\n</dl>`;
  }

  private tick(): string {
    return `<span class="tick" role="img" aria-label="${escapeXml(this.words.page.toTick)}"></span>`;
  }

  private text(text: Text): string {
    return text.map((span) => this.span(span)).join('');
  }

  private span(span: Span): string {
    if (typeof span === 'string') return escapeXml(span);
    if ('strong' in span) return `<strong>${escapeXml(span.strong)}</strong>`;
    if ('reading' in span) return `<samp>${escapeXml(span.reading)}</samp>`;
    if ('code' in span) return `<code>${escapeXml(span.code)}</code>`;
    const label = escapeXml(this.words.page.toWrite(span.label));
    // As wide as figures are in the type that the page is shown in; the style gives each the room that a hand needs.
    return `<span class="blank" role="img" aria-label="${label}">${FIGURE_SPACE.repeat(Math.max(1, span.blank))}</span>`;
  }
}
