/** Lines above sequences and machines: the case whose readings are shown, effort, stepping, sheet, who cranks on it. */
import type { CodeLens, Location, Range } from 'vscode-languageserver';
import { finish, type Gradual } from '../../grammar/gradual.js';
import type { MachineSection, NameSyntax, Placed, Section, SequenceSection } from '../../grammar/tree.js';
import { provingWording } from '../proving/wording/index.js';
import type { CaseRun } from '../sequence/check.js';
import { isLooking } from '../sequence/looks.js';
import { allSteps } from '../sequence/names.js';
import { OFFER_CASE, OPEN_MACHINE, OPEN_SHEET, SHOW_REFERENCES, SHOW_TRACE, STEP_THROUGH } from './commands.js';
import type { AnalysedDocument, Reader } from './document.js';
import { filesOf } from './names.js';
import { isProof, proofOf } from './proofs.js';
import { sequenceReport, shownRun } from './readings.js';
import { locationOn, rangeOn, sectionAt } from './spots.js';
import type { Words } from './wording/index.js';

/** Cases that have a lens; a line has no room for more. */
const MOST_CASES = 20;
/** Characters of a case's numbers that a lens shows. */
const LONGEST_CASE = 60;

/** The lenses of a document, from its top. Those above machines, and those of coverage, are still to be resolved. */
export function codeLenses(document: AnalysedDocument, reader: Reader): CodeLens[] {
  if (!reader.settings.lenses) return [];
  return document.tree.sections.flatMap(({ section, line }): CodeLens[] => {
    if (section.kind === 'sequence' && section.header) {
      return sequenceLenses(document, { section, line }, section.header.name, reader);
    }
    if (section.kind === 'machine' && section.header) {
      return [{ range: rangeOn(line, section.header.name), data: { uri: document.uri, line } }];
    }
    return [];
  });
}

/**
 * Says of a machine's lens who cranks on it, in all files that are known, and of a sequence's what it would catch. Other
 * lenses stay as they are.
 */
export const resolveLens = (...asked: Parameters<typeof resolveLensGradually>): CodeLens =>
  finish(resolveLensGradually(...asked));

/** The same with pauses: every fault is tried, while somebody may go on writing. */
export function* resolveLensGradually(document: AnalysedDocument, lens: CodeLens, reader: Reader): Gradual<CodeLens> {
  if (lens.command) return lens;
  const line = (lens.data as { line?: unknown } | undefined)?.line;
  const section = typeof line === 'number' ? sectionAt(document, line)?.section : undefined;
  if (section?.kind === 'sequence') {
    const report = sequenceReport(document, section);
    const proof = report && (yield* proofOf(report));
    const title = isProof(proof) ? provingWording(reader.locale).catches(proof.total) : '';
    return { ...lens, command: { title, command: '' } };
  }
  return machineLens(document, section, lens, reader);
}

function machineLens(
  document: AnalysedDocument,
  section: Section | undefined,
  lens: CodeLens,
  { words }: Reader,
): CodeLens {
  const name = section?.kind === 'machine' ? section.header?.name : undefined;
  if (section?.kind !== 'machine' || !name) return { ...lens, command: { title: '', command: '' } };
  const locations = sequencesOn(document, section);
  const title = words.lens.usedBy(locations.length);
  // A title without a command is only read.
  if (locations.length === 0) return { ...lens, command: { title, command: '' } };
  const { start } = lens.range;
  return { ...lens, command: { title, command: SHOW_REFERENCES, arguments: [document.uri, start, locations] } };
}

/** The names of machines, or of sequences that leave it out, by which sequences say that they are cranked on it. */
function sequencesOn(document: AnalysedDocument, machine: MachineSection): Location[] {
  const { library } = document;
  return filesOf(document).flatMap((other) => {
    const scope = library.scope(other);
    return (library.tree(other)?.sections ?? []).flatMap(({ section }) => {
      if (section.kind !== 'sequence' || !section.header || scope.machineOf(section) !== machine) return [];
      return [locationOn(document, section, 0, section.header.on ?? section.header.name)];
    });
  });
}

function sequenceLenses(
  document: AnalysedDocument,
  { section, line }: Placed<SequenceSection>,
  name: NameSyntax,
  reader: Reader,
): CodeLens[] {
  const report = sequenceReport(document, section);
  const run = report && shownRun(report, document, reader);
  if (!run) return [];
  const range = rangeOn(line, name);
  return [
    ...caseLenses(document, section, name, run, range, reader),
    {
      range,
      command: {
        title: effortText(run, reader.words),
        command: SHOW_TRACE,
        arguments: [document.uri, name.name, run.order.case],
      },
    },
    {
      range,
      command: {
        title: reader.words.stepping.lens,
        command: STEP_THROUGH,
        arguments: [document.uri, name.name, run.order.case],
      },
    },
    {
      range,
      command: { title: reader.words.lens.machine, command: OPEN_MACHINE, arguments: [document.uri, name.name] },
    },
    {
      range,
      command: { title: reader.words.lens.sheet, command: OPEN_SHEET, arguments: [document.uri, name.name] },
    },
    ...(reader.settings.coverage && looks(section) && !run.brokeOff
      ? [{ range, data: { uri: document.uri, line } }]
      : []),
  ];
}

/** Somebody looks: what that would catch can be said, when it is wanted. */
const looks = ({ steps }: SequenceSection): boolean => {
  for (const step of allSteps(steps)) if (isLooking(step)) return true;
  return false;
};

function caseLenses(
  { uri }: AnalysedDocument,
  section: SequenceSection,
  { name }: NameSyntax,
  run: CaseRun,
  range: Range,
  { words }: Reader,
): CodeLens[] {
  if (section.cases.length === 0) return [];
  const shown = run.order.case;
  return caseTitles(section, words).flatMap((title, number) => {
    if (number > MOST_CASES && number !== shown) return [];
    const told = number === shown ? words.lens.shown(title) : title;
    return [{ range, command: { title: told, command: OFFER_CASE, arguments: [uri, name, number] } }];
  });
}

/** What a case is called, with its numbers; 0 are the defaults. */
export function caseTitle({ cases }: SequenceSection, number: number, { lens }: Words): string {
  const given = cases[number - 1];
  if (!given) return lens.defaults;
  const numbers = given.syntax.assignments.map(({ name, value }) => `${name.name} = ${value.text}`).join(', ');
  return lens.inCase(number, cut(numbers));
}

/** The same of all cases, the defaults first. */
export const caseTitles = (section: SequenceSection, words: Words): string[] =>
  [0, ...section.cases.map((_, i) => i + 1)].map((number) => caseTitle(section, number, words));

const cut = (text: string): string => (text.length > LONGEST_CASE ? `${text.slice(0, LONGEST_CASE)}…` : text);

/** What a run costs, and whether it came to its end. */
export function effortText({ effort, brokeOff }: Pick<CaseRun, 'effort' | 'brokeOff'>, { lens }: Words): string {
  const text = lens.effort(effort.cost, effort.turns, effort.shifts, effort.levers);
  return brokeOff ? `${text} (${lens.brokeOff})` : text;
}
