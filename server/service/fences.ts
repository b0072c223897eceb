/** What a preview of a Markdown page shows below each `crank` fence: the machine after it, its readings, what was found. */
import type { Gradual } from '../../grammar/gradual.js';
import { crankFences, type Fence } from '../../grammar/markdown.js';
import { print } from '../../grammar/printer.js';
import type { MachineSection, Placed, SequenceSection, Step } from '../../grammar/tree.js';
import type { CaseRun } from '../sequence/check.js';
import type { SectionReport } from '../sequence/file-report.js';
import { severityOf } from '../sequence/findings.js';
import { messageOfFinding } from '../sequence/report.js';
import { rowsOf, writtenAs } from '../sequence/rows.js';
import { toFragment } from '../sheets/html.js';
import type { Block, Text } from '../sheets/model.js';
import { readingsTable } from '../sheets/readings-table.js';
import { isLook, isProse } from '../sheets/stages.js';
import { sheetWords } from '../sheets/wording/index.js';
import type { AnalysedDocument, Reader } from './document.js';
import { sequenceReport, shownRun } from './readings.js';
import type { Words } from './wording/index.js';

export interface FenceView {
  /** The text of the fence, by which a preview finds it again. */
  readonly content: string;
  /** HTML without scripts, styles and ids; empty where there is nothing to show. */
  readonly html: string;
}

/** Fences of a page that are shown, and what they may take together: an answer goes to the preview at every edit. */
const MOST_FENCES = 200;
const MOST_CHARACTERS = 4_000_000;
/** Findings below a fence. */
const MOST_FINDINGS = 20;

/** A section that has lines in a fence. */
interface Part {
  readonly placed: Placed;
  readonly report: SectionReport | undefined;
  /** Lines of the section that lie in the fence, the last one not included; from 0. */
  readonly from: number;
  readonly to: number;
}

/** The fences of a page from its top. */
export function* fencesGradually(document: AnalysedDocument, reader: Reader): Gradual<FenceView[]> {
  if (!document.isMarkdown) return [];
  const views: FenceView[] = [];
  const parts = new Parts(document);
  let left = MOST_CHARACTERS;
  for (const fence of crankFences(document.lines.join('\n'))) {
    const { content } = fence;
    const isRoom = views.length < MOST_FENCES && left > 0;
    const html = isRoom ? fenceHtml(document, parts.in(fence), reader) : leftOut(reader);
    left -= html.length;
    views.push({ content, html });
    yield;
  }
  return views;
}

const leftOut = ({ locale, words }: Reader): string =>
  block('', [{ is: 'paragraph', text: [words.preview.tooMuch], isFine: true }], locale);

/** Which sections have lines in a fence. A section may go on in the next fence. */
class Parts {
  /** Both sections and fences come from the top down. */
  private next = 0;

  constructor(private readonly document: AnalysedDocument) {}

  in({ from, to }: Fence): Part[] {
    const { tree, report } = this.document;
    const end = (placed: Placed): number => placed.line + placed.section.lines.length;
    while (this.next < tree.sections.length && end(tree.sections[this.next]) <= from) this.next++;
    const parts: Part[] = [];
    for (let i = this.next; i < tree.sections.length && tree.sections[i].line < to; i++) {
      const placed = tree.sections[i];
      const own = report.sections[i];
      parts.push({
        placed,
        report: own?.section === placed.section ? own : undefined,
        from: Math.max(0, from - placed.line),
        to: Math.min(placed.section.lines.length, to - placed.line),
      });
    }
    return parts;
  }
}

function fenceHtml(document: AnalysedDocument, parts: readonly Part[], reader: Reader): string {
  const findings = findingItems(document, parts, reader);
  const shown = parts.map((part) => {
    const { section } = part.placed;
    if (section.kind === 'sequence') return sequenceHtml(document, section, part, reader);
    return section.kind === 'machine' && part.from === 0 ? machineHtml(document, section, reader) : '';
  });
  const html = [
    findings.length > 0 ? block('findings', [{ is: 'list', items: findings }], reader.locale) : '',
    ...shown,
  ].filter((part) => part !== '');
  return html.length === 0 ? '' : `<div class="cranknote-fence">\n${html.join('\n')}\n</div>\n`;
}

const block = (name: string, blocks: readonly Block[], locale: string): string =>
  `<div${name && ` class="${name}"`}>\n${toFragment(blocks, sheetWords(locale))}\n</div>`;

/** Invariant: a run never changes, so that what was made of some of its steps holds as long as there is that run. */
const MADE = new WeakMap<CaseRun, Map<string, string>>();

/** The machine after the last of the steps in a fence, and what each of them has changed. */
function sequenceHtml(document: AnalysedDocument, section: SequenceSection, part: Part, reader: Reader): string {
  const report = sequenceReport(document, section);
  const run = report && shownRun(report, document, reader);
  const isHere = ({ line, syntax }: Step): boolean => line >= part.from && line < part.to && !isProse(syntax);
  if (!run || !section.steps.some(isHere)) return '';
  const made = MADE.get(run) ?? new Map<string, string>();
  MADE.set(run, made);
  const key = `${reader.locale} ${part.from} ${part.to}`;
  const html = made.get(key) ?? runHtml(run, isHere, reader);
  made.set(key, html);
  return html;
}

function runHtml(run: CaseRun, isHere: (step: Step) => boolean, { locale, words }: Reader): string {
  const { section, case: number } = run.order;
  const rows = rowsOf(run);
  const reached = section.steps.filter((step) => isHere(step) && rows.of(writtenAs(step)));
  // Looking changes nothing: what has been done last says more.
  const last = reached.findLast(({ syntax }) => !isLook(syntax)) ?? reached.at(-1);
  const end = last && rows.of(writtenAs(last));
  const { caption, ...table } = readingsTable(run, sheetWords(locale), isHere);
  const title: Text = [{ strong: caption }, ...(number > 0 ? [` · ${words.traced.inCase(number)}`] : [])];
  return [
    block(
      'machine',
      [{ is: 'paragraph', text: title }, ...(end ? [figureAfter(run, last, end.last, words)] : [])],
      locale,
    ),
    block('table', [{ ...table, caption: '' }], locale),
  ].join('\n');
}

/** The machine as it stands, with the step after which it does. */
function figureAfter({ order, tape }: CaseRun, step: Step, row: number, { preview }: Words): Block {
  const state = tape.stateAt(row);
  const written = print(step.syntax).replace(/ \{$/, '');
  return {
    is: 'figure',
    figure: { profile: order.profile, before: state, after: state, rang: false },
    caption: [preview.after, ' ', { code: written }],
  };
}

/** A machine in words. */
function machineHtml({ library }: AnalysedDocument, section: MachineSection, { locale, words }: Reader): string {
  const { profile } = library.machine(section);
  if (!profile) return '';
  const title = profile.title?.trim() || profile.name;
  return block(
    'machine',
    [
      { is: 'paragraph', text: [{ strong: title }] },
      { is: 'paragraph', text: [words.hover.profile(profile).join(' ')], isFine: true },
    ],
    locale,
  );
}

/** What was found in a fence, by its lines; a hint is for whoever writes, and not for whoever reads. */
function findingItems({ lines }: AnalysedDocument, parts: readonly Part[], { words, wording }: Reader): Text[] {
  const found = parts.flatMap(({ placed, report, from, to }) =>
    (report?.findings ?? []).flatMap((finding) => {
      const { at } = finding;
      const severity = severityOf(finding);
      if (severity === 'hint' || at.line < from || at.line >= to) return [];
      return [{ finding, severity, at, line: placed.line + at.line }];
    }),
  );
  found.sort((a, b) => a.line - b.line || a.at.from - b.at.from);
  const items = found.slice(0, MOST_FINDINGS).map(({ finding, severity, at, line }): Text => {
    const message = messageOfFinding(finding, wording);
    const told = finding.case ? words.diagnostics.inCase(finding.case, message) : message;
    const where = (lines[line] ?? '').slice(at.from, at.to).trim();
    const written = where === '' ? [] : [' ', { code: where }];
    return [{ strong: wording.severityText[severity] }, ...written, ` – ${told}`];
  });
  const rest = found.length - items.length;
  return rest > 0 ? [...items, [words.traced.moreFindings(rest)]] : items;
}
