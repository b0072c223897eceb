/** What a name stands for, in words. */
import { print } from '../../../grammar/printer.js';
import type { MachineSection, SequenceSection } from '../../../grammar/tree.js';
import type { SequenceReport } from '../../sequence/check.js';
import { allSteps } from '../../sequence/names.js';
import type { AnalysedDocument, Reader } from '../document.js';
import { code, plain } from '../markdown.js';
import type { NamedSpot } from '../names.js';
import { proofAtHand, proofText } from '../proofs.js';
import { sequenceReport, shownRun } from '../readings.js';
import { readingParts } from './step.js';

/** Names or cases that a hover lists; a reader takes in no more. */
const MOST_LISTED = 20;

/** What a name of the document means, paragraph by paragraph. */
export function nameText(document: AnalysedDocument, name: NamedSpot, reader: Reader): string[] {
  const { section, kind } = name;
  const { hover } = reader.words;
  if (kind === 'file') return fileParts(document, name, reader);
  if (!section) return [hover.unknown(code(name.name))];
  if (section.kind === 'machine') return machineParts(document, section, reader);
  if (kind === 'sequence') return sequenceParts(document, section, reader);
  if (kind === 'parameter') return parameterParts(section, name.name, reader);
  return labelParts(document, section, name.name, reader);
}

const list = (items: readonly string[]): string => items.map((item) => `- ${item}`).join('\n');

/** The first of many, and how many there are besides. */
function firstOf(items: readonly string[], reader: Reader): string[] {
  const rest = items.length - MOST_LISTED;
  return rest > 0 ? [...items.slice(0, MOST_LISTED), reader.words.hover.more(rest)] : [...items];
}

function machineParts({ library }: AnalysedDocument, section: MachineSection, { words }: Reader): string[] {
  const { header } = section;
  const { hover } = words;
  const { profile } = library.machine(section);
  const title = header?.title?.value ?? '';
  return [
    ...(header ? [code(print(header))] : []),
    ...(title.trim() ? [`**${plain(title)}**`] : []),
    ...(header?.like ? [hover.like(code(header.like.name))] : []),
    profile ? list(hover.profile(profile)) : hover.cannotBeBuilt,
  ];
}

/** What was found of a sequence, wherever it is written. */
function reportOf(document: AnalysedDocument, section: SequenceSection): SequenceReport | undefined {
  const own = sequenceReport(document, section);
  const home = document.library.fileOf(section);
  if (own || home === undefined || home === document.file) return own;
  return document.library.check(home).sequences.find((report) => report.section === section);
}

function sequenceParts(document: AnalysedDocument, section: SequenceSection, reader: Reader): string[] {
  const { header } = section;
  const { hover } = reader.words;
  const report = reportOf(document, section);
  const run = report && shownRun(report, document, reader);
  const title = header?.title?.value ?? '';
  const proof = report && reader.settings.coverage ? proofAtHand(report) : undefined;
  const machine = report?.machine?.header;
  const machineTitle = machine?.title?.value ?? '';
  const on = machine && hover.onMachine(code(machine.name.name) + (machineTitle.trim() && ` (${plain(machineTitle)})`));
  return [
    ...(header ? [code(print(header))] : []),
    ...(title.trim() ? [`**${plain(title)}**`] : []),
    list([
      ...(on ? [on] : []),
      run ? effortText(run, reader) : hover.notRun,
      hover.cases(section.cases.length),
      ...(proof ? [proofText(proof, reader)] : []),
      ...section.goals.slice(0, MOST_LISTED).map(({ syntax }) => code(print(syntax))),
    ]),
  ];
}

type Run = NonNullable<ReturnType<typeof shownRun>>;

function effortText({ effort, brokeOff, order }: Run, { words: { hover } }: Reader): string {
  const { cost, turns, shifts, levers } = effort;
  const text = hover.effort(cost, turns, shifts, levers);
  const inCase = order.case > 0 ? hover.inCase(order.case, text) : text;
  return brokeOff ? `${inCase} ${hover.brokeOff}` : inCase;
}

function parameterParts(section: SequenceSection, name: string, reader: Reader): string[] {
  const { hover } = reader.words;
  const parameter = section.header?.parameters.find((other) => other.name.name === name);
  if (!parameter) return [hover.unknown(code(name))];
  const cases = section.cases.flatMap(({ syntax }, i) => {
    const given = syntax.assignments.findLast((other) => other.name.name === name);
    return given ? [hover.inCase(i + 1, code(given.value.text))] : [];
  });
  return [
    hover.parameterOf(code(name), code(section.header?.name.name ?? '')),
    list([hover.inDefaults(code(parameter.value.text)), ...firstOf(cases, reader)]),
  ];
}

function fileParts({ library }: AnalysedDocument, { file, name }: NamedSpot, reader: Reader): string[] {
  const { words, wording } = reader;
  const problem = file === undefined ? 'not-relative' : library.problemOf(file);
  if (file === undefined || problem) {
    return [plain(wording.messageOf({ code: 'file-not-found', path: name, why: problem ?? 'missing' }))];
  }
  const { machines, sequences } = library.declarations(file);
  const named = (names: Iterable<string>) => firstOf(Array.from(names, code), reader).join(words.hover.separator);
  const parts = [
    ...(machines.size > 0 ? [words.hover.machines(named(machines.keys()))] : []),
    ...(sequences.size > 0 ? [words.hover.sequences(named(sequences.keys()))] : []),
  ];
  return [code(name), parts.length > 0 ? list(parts) : words.hover.declaresNothing];
}

function labelParts(document: AnalysedDocument, section: SequenceSection, name: string, reader: Reader): string[] {
  const { hover } = reader.words;
  for (const step of allSteps(section.steps)) {
    if (step.syntax.kind !== 'expect') continue;
    const index = step.syntax.items.findIndex(({ label }) => label?.name === name);
    if (index < 0) continue;
    const report = reportOf(document, section);
    const run = report && shownRun(report, document, reader);
    const readings = run ? readingParts(run, { line: step.line, syntax: step.syntax }, reader) : [];
    return [
      hover.label(code(name), code(section.header?.name.name ?? '')),
      ...(readings[index] === undefined ? [code(print(step.syntax))] : [list([readings[index]])]),
    ];
  }
  return [hover.unknown(code(name))];
}
