/** What the machine shows where a debugger has stopped. */
import { InlineValueText, type Range } from 'vscode-languageserver';
import type { Profile, State } from '../machine/index.js';
import { rowsOf } from '../sequence/rows.js';
import type { AnalysedDocument, Reader } from './document.js';
import { everything, sequenceReport, shownRun } from './readings.js';
import { itemsAbove, rangeOn, sectionAt } from './spots.js';
import { rangeIn } from './text.js';

/** The same where a session stands still: as the machine stands there, behind the text of the line. */
export function valuesInSession(
  document: AnalysedDocument,
  range: Range,
  line: number,
  { state, profile }: { readonly state: State; readonly profile: Profile },
  { words }: Reader,
): InlineValueText[] {
  const asked = rangeIn(document.lines, range);
  if (!Number.isInteger(line) || line < asked.start.line || line > asked.end.line) return [];
  const end = document.lines[line]?.length;
  if (end === undefined) return [];
  return everything(state, profile, words).map((text) =>
    InlineValueText.create(rangeOn(line, { from: 0, to: end }), text),
  );
}

/**
 * Every register and the carriage, as they stand after the last step at or before a line, within its sequence. They are
 * shown on that step; none where no step was carried out, or where it lies outside the range.
 */
export function inlineValues(
  document: AnalysedDocument,
  range: Range,
  line: number,
  reader: Reader,
): InlineValueText[] {
  const asked = rangeIn(document.lines, range);
  const placed = Number.isInteger(line) ? sectionAt(document, line) : undefined;
  const report = placed && sequenceReport(document, placed.section);
  const run = report && shownRun(report, document, reader);
  if (!placed || !run) return [];
  for (const { line: own, item } of itemsAbove(placed.section, line - placed.line)) {
    // Where a `repeat` begins, none of its rounds is made yet.
    const rows = item.kind === 'repeat' ? undefined : rowsOf(run).of({ line: own, from: item.from });
    if (!rows) continue;
    const at = placed.line + own;
    if (at < asked.start.line || at > asked.end.line) return [];
    const { profile } = run.order;
    const shown = everything(run.tape.stateAt(rows.last), profile, reader.words);
    return shown.map((text) => InlineValueText.create(rangeOn(at, item), text));
  }
  return [];
}
