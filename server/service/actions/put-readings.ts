/** Puts an inset with the readings of a sequence below its block in a Markdown page. */
import { type Inset, type InsetOrder, isInsetProblem, openingMark } from '../../../grammar/insets.js';
import { crankFences, marginOf } from '../../../grammar/markdown.js';
import { languageOf } from '../../sequence/wording/index.js';
import { SHEET_LANGUAGES } from '../../sheets/wording/index.js';
import { contentOf, isFault } from '../../weave/content.js';
import type { AnalysedDocument } from '../document.js';
import { filled } from './fixes-insets.js';
import type { Outcome } from './open-out.js';
import type { Scene } from './scene.js';

/** Undefined outside pages; elsewhere it is offered at the header, or at the last step. */
export function putReadings({
  document,
  range,
  section,
  step,
  isHeader,
  report,
  reader,
  words,
}: Scene): Outcome | undefined {
  const isAtEnd = step !== undefined && step === section.steps.at(-1);
  if (!document.isMarkdown || !report || !(isHeader || isAtEnd)) return undefined;
  const { line } = range.start;
  const fence = crankFences(document.lines.join('\n')).find(({ from, to }) => from <= line && line < to);
  const below = fence && document.lines[fence.to];
  if (!fence || below === undefined) return undefined;
  const name = section.header?.name.name ?? '';
  const language = languageFor(document, reader.locale);
  const last = document.report.sequences.findLast((one) => document.library.lineOf(one.section) < fence.to);
  const order: InsetOrder = { kind: 'readings', of: name, case: 0, language, figures: 'none' };
  const content = contentOf(order, report, '');
  if (isFault(content)) return { disabled: words.disabled.notReadable };
  const asked = ['readings', last === report ? '' : `of ${name}`, language === 'en' ? '' : `in ${language}`];
  const margin = marginOf(document.lines[fence.from - 1]);
  const mark = margin + openingMark(asked.filter(Boolean).join(' '));
  // The closing line of the fence takes the part of the opening comment: everything else comes below it.
  const at: Inset = { line: fence.to, at: { from: 0, to: 0 }, margin, asks: order };
  const edit = filled(document, { inset: at }, content);
  const lead = [margin.trimEnd(), mark].map((one) => document.eol + one).join('');
  return { edits: [{ ...edit, newText: lead + edit.newText }] };
}

/** The language of the page's other insets; where there are none, that of the reader. */
function languageFor({ library, file }: AnalysedDocument, locale: string): string {
  const [first] = library.insets(file).flatMap(({ asks }) => (isInsetProblem(asks) ? [] : [asks.language]));
  const own = languageOf(locale);
  return first ?? (SHEET_LANGUAGES.includes(own) ? own : 'en');
}
