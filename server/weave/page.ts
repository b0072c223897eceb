/** The insets of a page: what is to stand in each, and whether it stands there. */
import type { Gradual } from '../../grammar/gradual.js';
import { type Inset, type InsetOrder, isInsetProblem } from '../../grammar/insets.js';
import { nearest } from '../../grammar/nearest.js';
import { nameOf, type SequenceReport } from '../sequence/check.js';
import type { FileReport } from '../sequence/file.js';
import type { InsetFault } from '../sequence/findings.js';
import type { Library } from '../sequence/library.js';
import { type Content, contentOf, isFault } from './content.js';
import { readOf, sealOf } from './seal.js';

export type InsetState =
  | { readonly is: 'fresh'; readonly content: Content }
  /** It is to be written: it was never filled, or something else is to be read there now. */
  | { readonly is: 'stale'; readonly content: Content; readonly isEmpty: boolean }
  /** It is left as it is. Where nothing but what somebody has written stands in the way, `content` is what would come. */
  | { readonly is: 'bad'; readonly why: InsetFault; readonly content?: Content };

export interface WovenInset {
  readonly inset: Inset;
  /** The sequence that it speaks of, where that is known. */
  readonly sequence?: string;
  readonly state: InsetState;
}

/** What was made of a sequence is made once, as long as the sequence runs as it did. */
const made = new WeakMap<SequenceReport, Map<string, Content | InsetFault>>();

/** The insets of a file that has been checked, from its top. */
export function* wovenInsets(library: Library, report: FileReport): Gradual<WovenInset[]> {
  const { file } = report;
  const page = pageName(file);
  const woven: WovenInset[] = [];
  for (const inset of library.insets(file)) {
    yield;
    const { asks } = inset;
    if (isInsetProblem(asks)) {
      woven.push({ inset, state: { is: 'bad', why: asks } });
      continue;
    }
    const sequence = sequenceOf(library, report, inset, asks);
    if (sequence && 'is' in sequence) {
      woven.push({ inset, state: { is: 'bad', why: sequence } });
      continue;
    }
    const content = contentOnce(asks, sequence, page);
    const name = sequence && asks.kind !== 'cautions' ? { sequence: nameOf(sequence) } : {};
    woven.push({ inset, ...name, state: isFault(content) ? { is: 'bad', why: content } : stateOf(inset, content) });
  }
  return woven;
}

/** A page's name without its folder and ending. */
const pageName = (file: string): string => (file.split('/').at(-1) ?? file).replace(/\.[^.]*$/, '');

/** The sequence that is named, or the last one that begins above. */
function sequenceOf(
  library: Library,
  report: FileReport,
  { line }: Inset,
  { of }: InsetOrder,
): SequenceReport | InsetFault | undefined {
  if (of === undefined) return report.sequences.findLast(({ section }) => library.lineOf(section) < line);
  const named = report.sequences.find((one) => nameOf(one) === of);
  if (named) return named;
  const near = nearest(of, report.sequences.map(nameOf));
  return { is: 'unknown-sequence', name: of, ...(near !== undefined && { nearest: near }) };
}

function contentOnce(order: InsetOrder, report: SequenceReport | undefined, page: string): Content | InsetFault {
  if (!report) return contentOf(order, report, page);
  const known = made.get(report) ?? new Map<string, Content | InsetFault>();
  made.set(report, known);
  const { kind, language, figures } = order;
  const key = JSON.stringify([kind, order.case, language, figures, page]);
  const content = known.get(key) ?? contentOf(order, report, page);
  known.set(key, content);
  return content;
}

function stateOf({ content: there, below }: Inset, content: Content): InsetState {
  const wanted = readOf(content.lines);
  if (!there) {
    const isThere = below !== undefined && readOf([below]) === readOf([content.lines[0]]);
    return isThere ? { is: 'bad', why: { is: 'lost-end' } } : { is: 'stale', content, isEmpty: true };
  }
  const found = readOf(there.lines);
  if (found === '') return { is: 'stale', content, isEmpty: true };
  const seal = sealOf(found);
  if (found === wanted) {
    return seal === there.seal ? { is: 'fresh', content } : { is: 'stale', content, isEmpty: false };
  }
  if (seal !== there.seal) return { is: 'bad', why: { is: 'by-hand' }, content };
  return { is: 'stale', content, isEmpty: false };
}
