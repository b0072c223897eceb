/** The steps that somebody points at, with the sequence around them and its runs. */
import type { Range } from 'vscode-languageserver';
import type { Gradual } from '../../../grammar/gradual.js';
import type { Placed, SequenceSection, Span, Step } from '../../../grammar/tree.js';
import type { SequenceReport } from '../../sequence/check.js';
import { allSteps } from '../../sequence/names.js';
import type { AnalysedDocument, Reader } from '../document.js';
import { sequenceReport } from '../readings.js';
import { sectionAt } from '../spots.js';
import type { Words } from '../wording/index.js';
import { Draft } from './edits.js';
import type { Outcome } from './open-out.js';
import { endOfStep, neighboursOf } from './subject.js';

/** What is asked for, and how. */
export interface Asked {
  /** A person wants a list; otherwise it is the editor, which asks wherever the cursor goes. */
  readonly isAsked: boolean;
  /** It is to be a list of rewritings, and of nothing else. */
  readonly isNamed: boolean;
  /** Of several that are offered the only one that is wanted. */
  readonly of?: string | undefined;
}

/** What could be done, or why not; where it takes a moment to know, it is worked out when it is wanted. */
export interface Offered {
  readonly title: string;
  readonly outcome: Outcome | (() => Gradual<Outcome>);
  /** Which of several. */
  readonly of?: string;
}

export interface Scene extends Asked {
  readonly document: AnalysedDocument;
  readonly range: Range;
  readonly reader: Reader;
  readonly words: Words['actions'];
  readonly placed: Placed<SequenceSection>;
  readonly section: SequenceSection;
  readonly draft: Draft;
  /** Undefined where the sequence has not been run. */
  readonly report: SequenceReport | undefined;
  /** The step at the cursor, or the only one that is selected. */
  readonly step: Step | undefined;
  /** Whole neighbouring steps that are selected; empty where nothing is. */
  readonly selected: readonly Step[];
  /** The cursor stands in the header. */
  readonly isHeader: boolean;
}

export function sceneAt(document: AnalysedDocument, range: Range, reader: Reader, asked: Asked): Scene | undefined {
  const { start, end } = range;
  const placed = sectionAt(document, start.line);
  if (placed?.section.kind !== 'sequence' || !placed.section.header) return undefined;
  const { section, line: top } = placed;
  const isPoint = start.line === end.line && start.character === end.character;
  const selected = isPoint ? [] : selectedSteps(section, top, range);
  const step = isPoint ? stepUnder(section, start.line - top, start.character) : selected[0];
  return {
    ...asked,
    document,
    range,
    reader,
    words: reader.words.actions,
    placed: { section, line: top },
    section,
    draft: new Draft(document, placed),
    report: sequenceReport(document, section),
    step: isPoint || selected.length === 1 ? step : undefined,
    selected,
    isHeader: start.line === top,
  };
}

/** Steps that lie wholly in a range, if they follow one another between the same braces. */
function selectedSteps(section: SequenceSection, top: number, { start, end }: Range): readonly Step[] {
  const isIn = (step: Step): boolean => {
    const close = endOfStep(step);
    const isBehindStart =
      top + step.line > start.line || (top + step.line === start.line && step.syntax.from >= start.character);
    const isBeforeEnd =
      top + close.line < end.line || (top + close.line === end.line && close.syntax.to <= end.character);
    return isBehindStart && isBeforeEnd;
  };
  for (const step of allSteps(section.steps)) {
    if (!isIn(step)) continue;
    const { among, at } = neighboursOf(section, step);
    let last = at;
    while (last + 1 < among.length && isIn(among[last + 1])) last++;
    return among.slice(at, last + 1);
  }
  return [];
}

/** The step in which a column lies; on a line with one item, wherever on it. A `repeat` is found at its braces too. */
function stepUnder(section: SequenceSection, line: number, character: number): Step | undefined {
  const holds = ({ from, to }: Span) => from <= character && character <= to;
  const items = section.lines[line]?.items ?? [];
  for (const step of allSteps(section.steps)) {
    if (step.line > line) break;
    if (step.line === line && (holds(step.syntax) || items.length === 1)) return step;
    if (step.close?.line === line && (holds(step.close.syntax) || items.length === 1)) return step;
  }
  return undefined;
}
