/**
 * What name stands at a position, what it means, and every other place where it means the same.
 *
 * Invariant: a name means what the library's scope makes of it. The same letters in a file that sees another machine
 * or sequence of that name are another thing.
 */
import type { Position, Range } from 'vscode-languageserver';
import { isInsetProblem } from '../../grammar/insets.js';
import { sectionOn } from '../../grammar/sections.js';
import type {
  LineItem,
  LineSyntax,
  MachineSection,
  NameSyntax,
  Section,
  SequenceSection,
  Span,
  StepSyntax,
  UseSection,
} from '../../grammar/tree.js';
import { namesIn } from '../sequence/names.js';
import { argumentsOf } from '../sequence/substitute.js';
import { resolveUse } from '../sequence/uses.js';
import type { ParsedDocument } from './document.js';
import { rangeOn, spotAt } from './spots.js';
import { positionIn } from './text.js';

/** What a name stands for; `file` is the path of a `use` line. */
export type NameKind = 'machine' | 'sequence' | 'parameter' | 'label' | 'file';

/** A name as it is written on a line. */
export interface WrittenName extends Span {
  readonly kind: NameKind;
  /** In Unicode's composed form; of a path, what stands between the quotation marks. */
  readonly name: string;
  readonly role: 'declared' | 'used';
  /** A parameter that a `case` gives a number. */
  readonly isGiven?: true;
}

/** A name of a document with what it means. */
export interface NamedSpot extends WrittenName {
  /** In the document; of a path, between the quotation marks. */
  readonly range: Range;
  /** The section in which it is written. */
  readonly home: Section;
  /**
   * The machine or sequence that it means, or the sequence whose parameter or label it is. Undefined where nothing of
   * that name is known, and for a path.
   */
  readonly section?: MachineSection | SequenceSection;
  /** What a path leads to, as the library calls it, known or not. */
  readonly file?: string;
}

/** One place where a name is written. */
export interface Occurrence extends WrittenName {
  readonly uri: string;
  readonly range: Range;
  readonly isDeclaration: boolean;
  /** The section in which it is written, and its line there, from 0. */
  readonly home: Section;
  readonly line: number;
}

/** Every name of a line. Items that can't be read have none. */
export function namesOnLine({ header, items }: LineSyntax): readonly WrittenName[] {
  if (!header && items.length === 0) return NONE;
  const names: WrittenName[] = [];
  const add = (kind: NameKind, { name, from, to }: NameSyntax, role: WrittenName['role'] = 'used') =>
    names.push({ kind, name, role, from, to });
  switch (header?.kind) {
    case 'machine':
      add('machine', header.name, 'declared');
      if (header.like) add('machine', header.like);
      break;
    case 'sequence':
      add('sequence', header.name, 'declared');
      for (const { name } of header.parameters) add('parameter', name, 'declared');
      if (header.on) add('machine', header.on);
      break;
    case 'bench':
      add('sequence', header.of);
      add('machine', header.on);
      break;
    case 'use':
      names.push({
        kind: 'file',
        name: header.path.value,
        role: 'used',
        from: header.path.from + 1,
        to: header.path.to - 1,
      });
  }
  for (const item of items) addNamesOf(item, names, add);
  return names;
}

const NONE: readonly never[] = [];

function addNamesOf(
  item: LineItem,
  names: WrittenName[],
  add: (kind: NameKind, name: NameSyntax, role?: WrittenName['role']) => void,
): void {
  switch (item.kind) {
    case 'goal':
      for (const name of namesIn(item.expression)) add('parameter', name);
      return;
    case 'case':
      for (const { name } of item.assignments) {
        names.push({ kind: 'parameter', name: name.name, role: 'used', isGiven: true, from: name.from, to: name.to });
      }
      return;
    case 'found':
      if (item.which.kind === 'name') add('label', item.which);
      return;
    case 'run':
      add('sequence', item.name);
      break;
    case 'expect':
      for (const { label } of item.items) if (label) add('label', label, 'declared');
  }
  // Lines of a machine have no arguments, nor has a brace.
  for (const argument of argumentsOf(item as StepSyntax)) if (argument.kind === 'name') add('parameter', argument);
}

/** The sequences that the insets of a page name, each with its line. */
function namesOfInsets({ library }: ParsedDocument, file: string): { written: WrittenName; line: number }[] {
  return library.insets(file).flatMap(({ line, asks }) => {
    if (isInsetProblem(asks) || asks.of === undefined || !asks.ofAt) return [];
    return [{ written: { kind: 'sequence', name: asks.of, role: 'used', ...asks.ofAt }, line }];
  });
}

/** The name that a position lies in, or right behind; undefined where there is none, or the item can't be read. */
export function nameAt(document: ParsedDocument, position: Position): NamedSpot | undefined {
  const { line, character } = positionIn(document.lines, position);
  const spot = spotAt(document, line);
  if (!spot) return undefined;
  const ofInset = namesOfInsets(document, document.file).filter((inset) => inset.line === line);
  const names = [...namesOnLine(spot.syntax), ...ofInset.map(({ written }) => written)];
  const written =
    names.find(({ from, to }) => from <= character && character < to) ?? names.find(({ to }) => to === character);
  if (!written) return undefined;
  const home = spot.placed.section;
  const range = rangeOn(line, written);
  if (written.kind === 'file') {
    const target = resolveUse(document.file, written.name);
    return { ...written, range, home, ...('file' in target && { file: target.file }) };
  }
  const meant = meaningOf(document, home, written);
  // An inset speaks of its own page alone.
  const section = ofInset.length > 0 && meant && document.library.fileOf(meant) !== document.file ? undefined : meant;
  return { ...written, range, home, ...(section && { section }) };
}

function meaningOf(
  { library, file }: ParsedDocument,
  home: Section,
  { kind, name, role }: WrittenName,
): MachineSection | SequenceSection | undefined {
  if (role === 'declared' || kind === 'parameter' || kind === 'label') {
    if (home.kind === 'machine' || home.kind === 'sequence') return home;
    return home.kind === 'bench' && home.header ? library.scope(file).sequence(home.header.of.name) : undefined;
  }
  return kind === 'machine' ? library.scope(file).machine(name) : library.scope(file).sequence(name);
}

/**
 * Every place where this name means the same, in all known files: its own file first, each from the top. A name that
 * means nothing has those of its own file.
 */
export function occurrencesOf(document: ParsedDocument, spot: NamedSpot): Occurrence[] {
  switch (spot.kind) {
    case 'file':
      return usesOf(document, spot);
    case 'machine':
    case 'sequence':
      return namesOf(document, spot, spot.kind);
    default:
      return namesInSequence(document, spot);
  }
}

function namesOf(document: ParsedDocument, spot: NamedSpot, kind: 'machine' | 'sequence'): Occurrence[] {
  const { library } = document;
  const { name, section: target } = spot;
  const home = target ? library.fileOf(target) : document.file;
  const found: Occurrence[] = [];
  for (const file of target ? filesOf(document) : [document.file]) {
    const scope = library.scope(file);
    const isMeant = (kind === 'machine' ? scope.machine(name) : scope.sequence(name)) === target;
    if (!isMeant && file !== home) continue;
    for (const { section, line } of library.tree(file)?.sections ?? []) {
      collect(document, file, section, line, found, (written) => {
        if (written.kind !== kind || written.name !== name) return false;
        return written.role === 'declared' ? section === target : isMeant;
      });
    }
    if (kind === 'sequence' && file === home) collectInsets(document, file, name, found);
  }
  return found;
}

/** A parameter or label belongs to a sequence, and to the records of what it showed on a real machine. */
function namesInSequence(document: ParsedDocument, { kind, name, home, section: target }: NamedSpot): Occurrence[] {
  const { library } = document;
  const found: Occurrence[] = [];
  for (const file of filesOf(document)) {
    for (const { section, line } of library.tree(file)?.sections ?? []) {
      const isMeant = target
        ? section === target ||
          (kind === 'label' && section.kind === 'bench' && isOf(document, file, section.header?.of, target))
        : section === home;
      if (!isMeant) continue;
      collect(document, file, section, line, found, (written) => written.kind === kind && written.name === name);
    }
    if (kind === 'parameter' && found.length > 0) break;
  }
  return found;
}

const isOf = ({ library }: ParsedDocument, file: string, of: NameSyntax | undefined, target: Section): boolean =>
  of !== undefined && library.scope(file).sequence(of.name) === target;

function usesOf(document: ParsedDocument, { file: target, home }: NamedSpot): Occurrence[] {
  const found: Occurrence[] = [];
  for (const file of filesOf(document)) {
    for (const { section, line } of document.library.tree(file)?.sections ?? []) {
      if (section.kind !== 'use') continue;
      const isMeant = target === undefined ? section === home : targetOf(file, section) === target;
      if (isMeant) collect(document, file, section, line, found, ({ kind }) => kind === 'file');
    }
  }
  return found;
}

/** The file that a `use` line leads to, known or not; undefined where its path can't lead anywhere. */
export function targetOf(file: string, { header }: UseSection): string | undefined {
  const target = header && resolveUse(file, header.path.value);
  return target && 'file' in target ? target.file : undefined;
}

/** All known files, that of the document first. */
export function filesOf({ library, file }: ParsedDocument): string[] {
  return [file, ...library.fileNames().filter((other) => other !== file)];
}

function collect(
  document: ParsedDocument,
  file: string,
  section: Section,
  start: number,
  found: Occurrence[],
  isWanted: (written: WrittenName) => boolean,
): void {
  const uri = file === document.file ? document.uri : document.uriOf(file);
  for (const [line, syntax] of section.lines.entries()) {
    for (const written of namesOnLine(syntax)) {
      if (!isWanted(written)) continue;
      const range = rangeOn(start + line, written);
      found.push({ ...written, uri, range, isDeclaration: written.role === 'declared', home: section, line });
    }
  }
}

function collectInsets(document: ParsedDocument, file: string, name: string, found: Occurrence[]): void {
  const uri = file === document.file ? document.uri : document.uriOf(file);
  const sections = document.library.tree(file)?.sections ?? [];
  for (const { written, line } of namesOfInsets(document, file)) {
    const placed = sections[sectionOn(sections, line)];
    if (written.name !== name || !placed) continue;
    const range = rangeOn(line, written);
    found.push({ ...written, uri, range, isDeclaration: false, home: placed.section, line: line - placed.line });
  }
}
