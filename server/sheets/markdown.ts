/**
 * A sheet as Markdown, with tables as common readers know them.
 *
 * Invariant: every text goes through `escapeMarkdown` or `codeOfMarkdown`, and what begins a line through
 * `lineOfMarkdown`.
 */
import { codeOfMarkdown, escapeMarkdown, JOINER, lineOfMarkdown, seen } from './escape.js';
import { figureText } from './figure/index.js';
import type { Block, Column, FigureData, Sheet, SheetStep, Span, Text } from './model.js';
import type { SheetWords } from './wording/index.js';

/** The width of one sign that is written by hand, in millimetres. */
const HAND = 4;
/** Columns up to so many millimetres are to be ticked. */
const TICK_WIDTH = 10;
const WIDEST_BLANK = 40;
const TICK = '☐';

/** The whole sheet; ends in a line break. Pages are left out, and figures are told in words. */
export function toMarkdown(sheet: Sheet, words: SheetWords): string {
  const writer = new Writer(sheet, words);
  return `${[...writer.head(), ...writer.blocks(sheet.blocks)].filter((part) => part !== '').join('\n\n')}\n`;
}

/** How a figure stands in a page; without it it is told in words. Returns Markdown, with all text escaped. */
export type FigureTeller = (figure: FigureData) => string;

/** Some blocks by themselves, with no line break at the end. */
export function blocksToMarkdown(blocks: readonly Block[], words: SheetWords, figure?: FigureTeller): string {
  const around: Sheet = { kind: 'operating', language: '', title: '', blocks, foot: '' };
  return new Writer(around, words, figure)
    .blocks(blocks)
    .filter((part) => part !== '')
    .join('\n\n');
}

class Writer {
  constructor(
    private readonly sheet: Sheet,
    private readonly words: SheetWords,
    private readonly tellFigure?: FigureTeller,
  ) {}

  head(): string[] {
    const { title, subtitle, kind } = this.sheet;
    const name = line([title]);
    return [
      name === '' ? '' : `# ${name}`,
      emphasis(escapeMarkdown(this.words.page.kinds[kind]).trim(), '*'),
      subtitle === undefined ? '' : emphasis(escapeMarkdown(subtitle).trim(), '**'),
    ];
  }

  blocks(blocks: readonly Block[]): string[] {
    const parts = blocks.map((block, i) => {
      // Two lists one after the other would be read as one, but for another sign.
      const isSecond = blocks[i - 1]?.is === block.is && !this.isSecond;
      this.isSecond = isSecond;
      return this.block(block, isSecond);
    });
    const { foot: end, title, subtitle } = this.sheet;
    // The head has said title and machine already.
    const foot = end === title || end === subtitle ? '' : line([end]);
    return foot === '' ? parts : [...parts, '---', foot];
  }

  private isSecond = false;

  private block(block: Block, isSecond: boolean): string {
    switch (block.is) {
      case 'heading': {
        const text = line(block.text);
        return text === '' ? '' : `${'#'.repeat(block.level)} ${text}`;
      }
      case 'paragraph':
        return line(block.text);
      case 'note':
      case 'caution':
        return this.remark(block.is, block.text);
      case 'cautions': {
        const title = emphasis(escapeMarkdown(block.title).trim(), '**');
        return quoted([title, '', ...block.items.map((item) => `- ${line(item)}`)].join('\n'));
      }
      case 'list':
        return block.items.map((item) => `${isSecond ? '*' : '-'} ${line(item)}`).join('\n');
      case 'steps':
        return this.steps(block.steps, isSecond);
      case 'table':
        return table(block);
      case 'figure':
        return [this.figure(block), line(block.caption)].filter((text) => text !== '').join('\n\n');
      case 'fields':
        return block.fields
          .map(({ label, value }) => {
            const name = escapeMarkdown(`${label}:`).trim();
            const filled = value === undefined ? blank(16) : escapeMarkdown(value).trim();
            return `${isSecond ? '*' : '-'} ${lineOfMarkdown(name)} ${filled}`;
          })
          .join('\n');
      case 'page':
        return '';
    }
  }

  private remark(is: 'note' | 'caution', text: Text): string {
    return quoted(`**${escapeMarkdown(this.words.page[is])}:** ${inline(text).trim()}`);
  }

  private figure({ figure }: Required<Pick<SheetStep, 'figure'>>): string {
    if (this.tellFigure) return this.tellFigure(figure);
    return emphasis(escapeMarkdown(figureText(figure, this.words)).trim(), '*');
  }

  /** Numbers are the lists' own where all of the sheet count up by one, and part of the text where they do not. */
  private steps(steps: readonly SheetStep[], isSecond: boolean): string {
    const isCounted = this.sheet.blocks.every((block) => block.is !== 'steps' || countsUp(block.steps));
    const items = steps.map((step) => {
      const marker = isCounted ? `${step.number}${isSecond ? ')' : '.'} ` : isSecond ? '* ' : '- ';
      const number = isCounted || step.number.trim() === '' ? '' : `**${escapeMarkdown(step.number).trim()}** `;
      const box = this.sheet.kind === 'bench' ? `${TICK} ` : '';
      const { readings = [], remarks = [], figure } = step;
      const told = (is: 'note' | 'caution'): string[] =>
        remarks.filter((remark) => remark.is === is).map(({ text }) => this.remark(is, text));
      const start = box + number;
      const parts = [
        start === '' ? line(step.text) : start + inline(step.text).trim(),
        ...told('caution'),
        lineOfMarkdown(readings.map((reading) => inline(reading).trim()).join(' · ')),
        ...(figure === undefined ? [] : [this.figure({ figure })]),
        ...told('note'),
      ].filter((part) => part !== '');
      const indent = ' '.repeat(marker.length);
      return marker + parts.join('\n\n').replace(/\n(?=[^\n])/g, `\n${indent}`);
    });
    return items.join('\n\n');
  }
}

const countsUp = (steps: readonly SheetStep[]): boolean =>
  steps.every(({ number }, i) => /^(?:0|[1-9]\d{0,7})$/.test(number) && Number(number) === Number(steps[0].number) + i);

function table({ caption, columns, rows }: Extract<Block, { is: 'table' }>): string {
  const title = emphasis(escapeMarkdown(caption).trim(), '**');
  if (columns.length === 0) return title;
  const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [
    ...(title === '' ? [] : [title, '']),
    row(columns.map(({ head }) => escapeMarkdown(head).trim())),
    row(columns.map(({ isFigures }) => (isFigures ? '---:' : '---'))),
    ...rows.map((cells) =>
      row(columns.map((column, i) => (cells[i]?.length ? inline(cells[i], true).trim() : toFill(column)))),
    ),
  ].join('\n');
}

function toFill({ blank: width }: Column): string {
  if (width === undefined) return '';
  return width <= TICK_WIDTH ? TICK : blank(width / HAND);
}

const quoted = (text: string): string => text.replace(/^/gm, '> ').replace(/ +$/gm, '');

/** A line to write on. Each sign is escaped: a row of bare ones could be a rule or begin an emphasis. */
const blank = (figures: number): string => '\\_'.repeat(Math.min(WIDEST_BLANK, Math.max(2, Math.round(figures))));

/** Text as the beginning of a line. */
const line = (text: Text): string => lineOfMarkdown(inline(text));

/**
 * Text within a line.
 *
 * @param isInTable a cell of a table is cut at every `|`, in code as well
 */
function inline(text: Text, isInTable = false): string {
  let written = '';
  let isAfterEmphasis = false;
  text.forEach((span, i) => {
    const piece = pieceOf(span, isInTable);
    if (!isEmphatic(span)) {
      written += piece;
      isAfterEmphasis = false;
      return;
    }
    // Marks of two emphases side by side would be taken for one row of marks.
    const before = isAfterEmphasis ? written + JOINER : written;
    const emphatic = emphasis(piece, '**', before, firstSign(text[i + 1]));
    isAfterEmphasis = emphatic !== piece;
    written = (isAfterEmphasis ? before : written) + emphatic;
  });
  return written;
}

const isEmphatic = (span: Span): boolean => typeof span !== 'string' && ('strong' in span || 'reading' in span);

function pieceOf(span: Span, isInTable: boolean): string {
  if (typeof span === 'string') return escapeMarkdown(span);
  if ('strong' in span) return escapeMarkdown(span.strong);
  if ('reading' in span) return escapeMarkdown(span.reading);
  if ('blank' in span) return blank(span.blank);
  const code = codeOfMarkdown(span.code);
  return isInTable ? code.replaceAll('|', '\\|') : code;
}

/** The sign that comes next, as far as an emphasis before it has to know. */
function firstSign(span: Span | undefined): string {
  if (span === undefined) return '';
  if (typeof span === 'string') return seen(span);
  return isEmphatic(span) ? JOINER : '_';
}

const BEGINS_AS_WORD = /^[^\s\p{P}\p{S}]/u;
const ENDS_AS_WORD = /[^\s\p{P}\p{S}]$/u;

/**
 * An emphasis, where Markdown can tell it: beside a letter its own first or last sign must not be one of
 * punctuation. Where it cannot, the text stands as it is.
 *
 * @param before what stands before it on the line
 * @param after what stands behind it
 */
function emphasis(escaped: string, marks: '*' | '**', before = '', after = ''): string {
  const inner = escaped.trim();
  if (inner === '') return escaped;
  const lead = escaped.slice(0, escaped.indexOf(inner));
  const rest = escaped.slice(lead.length + inner.length);
  const canOpen = BEGINS_AS_WORD.test(inner) || !ENDS_AS_WORD.test(before + lead);
  const canClose = ENDS_AS_WORD.test(inner) || !BEGINS_AS_WORD.test(rest + after);
  return canOpen && canClose ? lead + marks + inner + marks + rest : escaped;
}
