/**
 * Puts lines together to sections, and sections to a file.
 *
 * Invariant: a section's nodes count lines from the section's first line, so that a section whose lines are the same
 * objects as before is the same object as before, wherever it has moved to.
 */
import { finish, type Gradual } from './gradual.js';
import { type LinePlace, LineReader, opens } from './lines.js';
import type {
  BenchSection,
  CaseLine,
  CrankFile,
  FoundLine,
  GoalLine,
  LineItem,
  LineSyntax,
  MachineSection,
  OnLine,
  Placed,
  PreambleSection,
  ProfileSyntax,
  RepeatStep,
  Section,
  SectionKind,
  SequenceSection,
  Step,
  StepSyntax,
  TextError,
  UseSection,
} from './tree.js';

/** `repeat` deeper than this is reported, and its steps count as those of the level above. */
export const DEEPEST_BRACES = 100;

/** Splits text at line ends of any kind; there is always at least one line. */
export const splitLines = (text: string): string[] => text.split(/\r\n|\n|\r/);

/** The lines of a file that was read; of a Markdown page those in fences, and blank ones for the others. */
export const linesIn = (tree: CrankFile | undefined): string[] =>
  tree?.sections.flatMap(({ section }) => section.lines.map(({ text }) => text)) ?? [];

/** Lines read between two pauses. */
const LINES_BETWEEN_PAUSES = 1_000;

/** Lines `from` to `to`, without `to` itself, become others. Lines are counted from 0. */
export interface LineEdit {
  readonly from: number;
  readonly to: number;
  readonly lines: readonly string[];
}

/** A tree after an edit, and which of its sections took the place of which. */
export interface TreeEdit {
  readonly tree: CrankFile;
  /** The number of the first section that was replaced. */
  readonly at: number;
  readonly removed: readonly Placed[];
  readonly added: readonly Placed[];
}

/** Reads files; what it has read before it does not read again. */
export class Parser {
  private readonly reader = new LineReader();
  private sincePause = 0;

  /** Any text gives a tree. With the tree of an earlier state, sections with equal lines are taken over from it. */
  parse(text: string, earlier?: CrankFile): CrankFile {
    return this.parseLines(splitLines(text), earlier);
  }

  parseLines(lines: readonly string[], earlier?: CrankFile): CrankFile {
    return finish(this.parseGradually(lines, earlier));
  }

  /** The same, with pauses in which the caller may give up. */
  *parseGradually(lines: readonly string[], earlier?: CrankFile): Gradual<CrankFile> {
    const sections = yield* this.sections(lines, earlier?.sections ?? [], 0);
    return { sections, lineCount: lines.length };
  }

  /**
   * The tree after lines `from` to `to` (`to` itself stays) have become `lines`. Only the sections that this touches
   * are read again.
   */
  edit(tree: CrankFile, { from, to, lines }: LineEdit): TreeEdit {
    const { sections } = tree;
    let first = sectionOn(sections, from);
    const last = Math.max(first, sectionOn(sections, Math.max(from, to - 1)));
    const region = () => linesOf(sections.slice(first, last + 1));
    let start = sections[first]?.line ?? 0;
    let written = region();
    written.splice(from - start, to - from, ...lines);
    // Without its header, what is left of a section belongs to the one above.
    if (first > 0 && (written.length === 0 || !opens(written[0]))) {
      first--;
      start = sections[first].line;
      written = linesOf([sections[first]]).concat(written);
    }
    const removed = sections.slice(first, last + 1);
    const added = finish(this.sections(written, removed, start));
    const moved = lines.length - (to - from);
    const below = sections.slice(last + 1);
    const placed = moved === 0 ? below : below.map(({ section, line }) => ({ section, line: line + moved }));
    return {
      tree: { sections: sections.slice(0, first).concat(added, placed), lineCount: tree.lineCount + moved },
      at: first,
      removed,
      added,
    };
  }

  /** The sections of some lines, of which the first has a number in the file. */
  private *sections(lines: readonly string[], earlier: readonly Placed[], at: number): Gradual<Placed[]> {
    const known = new Map<string, Section>();
    for (const { section } of earlier) known.set(keyOf(section.lines), section);
    const sections: Placed[] = [];
    let start = lines.findIndex((line) => opens(line) !== undefined);
    if (start < 0) start = lines.length;
    if (start > 0) {
      const read = yield* this.readLines(lines, 0, 'preamble');
      sections.push({ section: this.known(read, known) ?? preambleOf(read), line: at });
    }
    while (start < lines.length) {
      const kind = opens(lines[start]) as SectionKind;
      const read = yield* this.readLines(lines, start, kind);
      const section = this.known(read, known) ?? sectionOf(kind, read);
      sections.push({ section, line: at + start });
      start += read.length;
    }
    return sections;
  }

  /** The lines of a section, from the given one to the next that opens another. */
  private *readLines(lines: readonly string[], start: number, place: LinePlace): Gradual<LineSyntax[]> {
    const read: LineSyntax[] = [];
    for (let line = start; line < lines.length && (line === start || !opens(lines[line])); line++) {
      read.push(this.reader.read(lines[line], place));
      if (++this.sincePause >= LINES_BETWEEN_PAUSES) {
        this.sincePause = 0;
        yield;
      }
    }
    return read;
  }

  /** The section with these very lines, once: two sections with the same text are still two. */
  private known(lines: readonly LineSyntax[], earlier: Map<string, Section>): Section | undefined {
    const key = keyOf(lines);
    const same = earlier.get(key);
    if (!same || !sameLines(same.lines, lines)) return undefined;
    earlier.delete(key);
    return same;
  }
}

/** Parses one text by itself, with no memory of others. */
export const parse = (text: string): CrankFile => new Parser().parse(text);

const linesOf = (sections: readonly Placed[]): string[] =>
  sections.flatMap(({ section }) => section.lines.map(({ text }) => text));

/** The number of the section that a line lies in: the last one that begins no further down. */
export function sectionOn(sections: readonly Placed[], line: number): number {
  let low = 0;
  let high = sections.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (sections[middle].line <= line) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Sections of one length, with the same first and middle line, are candidates for being the same. */
const keyOf = (lines: readonly LineSyntax[]): string =>
  `${lines.length} ${lines[0].text} ${lines[lines.length >> 1].text}`;

const sameLines = (a: readonly LineSyntax[], b: readonly LineSyntax[]): boolean =>
  a.length === b.length && a.every((line, i) => line === b[i]);

function errorsOf(lines: readonly LineSyntax[]): OnLine<TextError>[] {
  const errors: OnLine<TextError>[] = [];
  for (let line = 0; line < lines.length; line++) {
    for (const syntax of lines[line].errors) errors.push({ line, syntax });
  }
  return errors;
}

function preambleOf(lines: readonly LineSyntax[]): PreambleSection {
  const errors = errorsOf(lines);
  bodyItems(lines, errors);
  return { kind: 'preamble', lines, errors };
}

function sectionOf(kind: SectionKind, lines: readonly LineSyntax[]): Section {
  const errors = errorsOf(lines);
  const header = lines[0].header;
  const base = { lines, errors, ...(header && { header }) };
  switch (kind) {
    case 'use':
      bodyItems(lines, errors);
      return { ...base, kind } as UseSection;
    case 'machine':
      return { ...base, kind, entries: bodyItems<ProfileSyntax>(lines, errors) } as MachineSection;
    case 'bench':
      return { ...base, kind, found: bodyItems<FoundLine>(lines, errors) } as BenchSection;
    case 'sequence':
      return { ...base, kind, ...nest(lines, errors) } as SequenceSection;
  }
}

/** The items of a section that knows no braces: one that stands there is an error. */
function bodyItems<T>(lines: readonly LineSyntax[], errors: OnLine<TextError>[]): OnLine<T>[] {
  const items: OnLine<T>[] = [];
  lines.forEach(({ items: onLine }, line) => {
    for (const syntax of onLine) {
      if (syntax.kind === 'close') errors.push(errorAt(line, syntax, 'stray-brace'));
      else items.push({ line, syntax: syntax as T });
    }
  });
  return items;
}

type Growing = { -readonly [K in keyof Step]: Step[K] } & { body?: Step[] };

/** Gathers the steps between braces under their `repeat`, without recursion: depth is whatever the text says. */
function nest(
  lines: readonly LineSyntax[],
  errors: OnLine<TextError>[],
): Omit<SequenceSection, 'kind' | 'lines' | 'errors'> {
  const steps: Step[] = [];
  const goals: OnLine<GoalLine>[] = [];
  const cases: OnLine<CaseLine>[] = [];
  const open: Growing[] = [];
  let beyond = 0;
  let isTooDeep = false;
  const take = (line: number, syntax: LineItem) => {
    if (syntax.kind === 'goal') goals.push({ line, syntax });
    else if (syntax.kind === 'case') cases.push({ line, syntax });
    else if (syntax.kind === 'close') {
      if (beyond > 0) beyond--;
      else if (open.length > 0) (open.pop() as Growing).close = { line, syntax };
      else errors.push(errorAt(line, syntax, 'stray-brace'));
    } else if (syntax.kind === 'repeat') {
      if (open.length < DEEPEST_BRACES) {
        const step: Growing = { line, syntax, body: [] };
        (open.at(-1)?.body ?? steps).push(step);
        open.push(step);
        return;
      }
      beyond++;
      if (!isTooDeep) errors.push(errorAt(line, syntax, 'too-deep'));
      isTooDeep = true;
    } else {
      (open.at(-1)?.body ?? steps).push({ line, syntax: syntax as StepSyntax });
    }
  };
  for (let line = 0; line < lines.length; line++) {
    for (const item of lines[line].items) take(line, item);
  }
  for (const { line, syntax } of open) errors.push(errorAt(line, syntax as RepeatStep, 'unclosed-brace'));
  return { steps, goals, cases };
}

const errorAt = (
  line: number,
  { from, to }: { from: number; to: number },
  is: 'stray-brace' | 'too-deep' | 'unclosed-brace',
): OnLine<TextError> => ({ line, syntax: { problem: { is }, from, to } });
