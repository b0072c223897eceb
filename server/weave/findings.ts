/** What is found of the insets of a page, in the report on its file. */
import type { Gradual } from '../../grammar/gradual.js';
import type { Inset } from '../../grammar/insets.js';
import { sectionOn } from '../../grammar/sections.js';
import type { FileReport } from '../sequence/file.js';
import type { SectionReport, WholeReport } from '../sequence/file-report.js';
import type { Facts, Finding } from '../sequence/findings.js';
import type { Library } from '../sequence/library.js';
import { type WovenInset, wovenInsets } from './page.js';

const known = new WeakMap<FileReport, readonly WovenInset[]>();
/** What was last found for a report; it is the same as long as the page is. */
const before = new WeakMap<WholeReport, { readonly of: readonly Inset[]; readonly found: WholeReport }>();

/** The insets that were looked at for a report. */
export const insetsIn = (report: FileReport): readonly WovenInset[] => known.get(report) ?? [];

/** The report with what is found of the file's insets; the very same one where nothing is. */
export function* withInsets(library: Library, report: WholeReport): Gradual<WholeReport> {
  const insets = library.insets(report.file);
  if (insets.length === 0) return report;
  const last = before.get(report);
  if (last?.of === insets) return last.found;
  const woven = yield* wovenInsets(library, report);
  const sections = library.tree(report.file)?.sections ?? [];
  const changed = new Map<number, SectionReport>();
  for (const { inset, sequence, state } of woven) {
    const facts = factsOf(inset, sequence, state);
    const i = sectionOn(sections, inset.line);
    const placed = sections[i];
    if (!facts || !placed) continue;
    const at = { section: placed.section, line: inset.line - placed.line, ...inset.at };
    const finding: Finding = { facts, at, ...(sequence !== undefined && { sequence }) };
    const own = changed.get(i) ?? report.at(i);
    changed.set(i, { ...own, findings: [...own.findings, finding] });
  }
  const found = report.with(changed);
  known.set(found, woven);
  before.set(report, { of: insets, found });
  return found;
}

function factsOf(inset: WovenInset['inset'], name: string | undefined, state: WovenInset['state']): Facts | undefined {
  if (state.is === 'bad') return { code: 'bad-inset', why: state.why };
  if (state.is === 'fresh' || 'is' in inset.asks) return undefined;
  const { kind } = inset.asks;
  return {
    code: 'stale-inset',
    kind,
    ...(name !== undefined && { name }),
    isEmpty: state.isEmpty,
    hasPictures: state.content.pictures.length > 0,
  };
}
