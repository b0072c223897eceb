/**
 * What is to stand in an inset, as lines of Markdown, and the pictures that belong to it.
 *
 * Invariant: nothing is put into a page of a sequence that has an error, or that was not run to its end. No line of it
 * is a fence or a comment, whatever titles and notes hold: all text comes escaped out of `sheets`.
 */
import type { InsetOrder } from '../../grammar/insets.js';
import { type CaseRun, nameOf, type SequenceReport } from '../sequence/check.js';
import type { InsetFault } from '../sequence/findings.js';
import { languageOf } from '../sequence/wording/index.js';
import { casesTable } from '../sheets/cases.js';
import { PAPER } from '../sheets/colours.js';
import { courseOf } from '../sheets/course.js';
import { pictureInMarkdown } from '../sheets/escape.js';
import { figurePicture, figureText } from '../sheets/figure/index.js';
import { usualCautions } from '../sheets/head.js';
import { blocksToMarkdown } from '../sheets/markdown.js';
import type { Block, FigureData } from '../sheets/model.js';
import { stepBlocks } from '../sheets/operating.js';
import { captionOf, readingsTable } from '../sheets/readings-table.js';
import { flawIn } from '../sheets/refusal.js';
import { MOST_SHEET_STEPS } from '../sheets/sheet.js';
import { withStageReadings } from '../sheets/taken.js';
import { SHEET_LANGUAGES, type SheetWords, sheetWords } from '../sheets/wording/index.js';

/** Longer runs are not told in steps: that would take longer than an editor waits. */
const MOST_ROWS_TOLD = 10_000;

/** A picture that lies beside the page. */
export interface Picture {
  readonly file: string;
  readonly svg: string;
}

export interface Content {
  readonly lines: readonly string[];
  readonly pictures: readonly Picture[];
}

export const isFault = (made: Content | InsetFault): made is InsetFault => 'is' in made;

/**
 * @param report the sequence that it speaks of; there may be none for what is said of every machine
 * @param page the page's name without its folder and ending: pictures are called after it
 */
export function contentOf(order: InsetOrder, report: SequenceReport | undefined, page: string): Content | InsetFault {
  const { language } = order;
  if (!SHEET_LANGUAGES.includes(languageOf(language))) {
    return { is: 'unknown-language', language, known: SHEET_LANGUAGES };
  }
  const words = sheetWords(language);
  if (order.kind === 'cautions') {
    const { cautions } = words.operating;
    return written([{ is: 'cautions', title: cautions, items: usualCautions('operating', words) }], words);
  }
  if (!report) return { is: 'no-sequence' };
  const run = runOf(order, report);
  if ('is' in run) return run;
  const pictures = new Pictures(order, nameOf(report), page, words);
  switch (order.kind) {
    case 'readings':
      return written([readingsTable(run, words)], words);
    case 'cases':
      return written([casesTable(report, words)], words);
    case 'figure':
      return written([figureOf(run, words)], words, pictures);
    case 'steps': {
      if (run.tape.length > MOST_ROWS_TOLD) return { is: 'too-long', name: nameOf(report) };
      const course = courseOf(run, words);
      if (course.length > MOST_SHEET_STEPS) return { is: 'too-long', name: nameOf(report) };
      const told = withStageReadings(course, run, 'but the last');
      return written(stepBlocks(told, run, order.figures, words), words, pictures);
    }
  }
}

/** The run that is asked for, where it may be shown. */
function runOf({ case: number }: InsetOrder, report: SequenceReport): CaseRun | InsetFault {
  const name = nameOf(report);
  const flaw = flawIn(report);
  if (flaw) return { is: flaw.is === 'errors' ? 'has-errors' : 'not-run', name };
  return report.runs[number] ?? { is: 'no-case', name, number, cases: report.section.cases.length };
}

/** The machine as it stands at the end. */
function figureOf(run: CaseRun, words: SheetWords): Block {
  const { state, order } = run;
  const figure: FigureData = { profile: order.profile, before: state, after: state, rang: false };
  return { is: 'figure', figure, caption: [captionOf(run, words)] };
}

function written(blocks: readonly Block[], words: SheetWords, pictures?: Pictures): Content {
  const text = blocksToMarkdown(blocks, words, pictures && ((figure) => pictures.take(figure)));
  return { lines: text.split('\n'), pictures: pictures?.taken ?? [] };
}

/** The pictures of an inset: one, or numbered ones. */
class Pictures {
  readonly taken: Picture[] = [];
  private readonly name: string;

  constructor(
    private readonly order: InsetOrder,
    sequence: string,
    page: string,
    private readonly words: SheetWords,
  ) {
    const language = languageOf(order.language);
    const parts = [page, sequence, order.case > 0 && `case-${order.case}`, language !== 'en' && language];
    this.name = parts.filter(Boolean).join('.');
  }

  take(figure: FigureData): string {
    const { kind, figures } = this.order;
    const which = kind === 'figure' ? '' : `.${figures}-${this.taken.length + 1}`;
    const file = `${this.name}${which}.svg`;
    this.taken.push({ file, svg: figurePicture(figure, this.words, PAPER).svg });
    return pictureInMarkdown(file, figureText(figure, this.words));
  }
}
