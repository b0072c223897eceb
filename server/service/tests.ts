/** What of a document can pass or fail, for the tests of an editor: sequences, and their cases. */
import type { Range } from 'vscode-languageserver';
import type { NameSyntax, Placed, SequenceSection } from '../../grammar/tree.js';
import { isIdle } from '../sequence/idle.js';
import { unreadableText } from './diagnostics.js';
import type { ParsedDocument, Reader } from './document.js';
import { rangeOfSection } from './extent.js';
import { caseTitle } from './lens.js';
import { onOneLine } from './markdown.js';
import { rangeOn } from './spots.js';

export interface TestEntry {
  /** By which it is asked for; of all entries of the document no other has it. */
  readonly id: string;
  /** As the line above the sequence calls it. */
  readonly label: string;
  /** The title of the sequence. */
  readonly description?: string;
  readonly sequence: string;
  /** 0 for the defaults. */
  readonly case: number;
  readonly range: Range;
  /** The defaults and each case, where there are cases. */
  readonly children: readonly TestEntry[];
}

export interface TestTree {
  readonly tests: readonly TestEntry[];
  /** Other files on which the document rests, by their addresses: where one of them changes, it may have other results. */
  readonly uses: readonly string[];
  /** Why the document can't be read, if it can't. */
  readonly problem?: string;
}

/** The tests of a document; undefined for a page that has nothing to do with the notation. */
export function testsOf(document: ParsedDocument, reader: Reader): TestTree | undefined {
  const { library, file, uriOf } = document;
  if (isIdle(library, file)) return undefined;
  const problem = library.problemOf(file);
  if (problem === 'missing' || problem === 'outside') return undefined;
  const uses = library.reachable(file).filter((other) => other !== file);
  return {
    tests: sequencesIn(document).map((named) => entryOf(named, reader)),
    uses: uses.map(uriOf),
    ...(problem && { problem: unreadableText(file, problem, reader) }),
  };
}

/** A sequence of a document and the name of its test. */
export interface Named {
  readonly id: string;
  readonly name: NameSyntax;
  readonly placed: Placed<SequenceSection>;
}

/** The sequences with names; where two have the same, the second is told apart by a number. */
export function sequencesIn({ tree }: Pick<ParsedDocument, 'tree'>): Named[] {
  const seen = new Map<string, number>();
  return tree.sections.flatMap(({ section, line }): Named[] => {
    if (section.kind !== 'sequence' || !section.header) return [];
    const { name } = section.header;
    const times = (seen.get(name.name) ?? 0) + 1;
    seen.set(name.name, times);
    return [{ id: times === 1 ? name.name : `${name.name}~${times}`, name, placed: { section, line } }];
  });
}

/** The name of the test of a case; a sequence without cases is a test by itself. */
export const caseId = ({ id, placed }: Named, number: number): string =>
  placed.section.cases.length === 0 ? id : `${id}/${number}`;

function entryOf(named: Named, reader: Reader): TestEntry {
  const { id, name, placed } = named;
  const { section, line } = placed;
  const title = onOneLine(section.header?.title?.value ?? '').trim();
  const common = { sequence: name.name, children: [] };
  const { parameters = [] } = section.header ?? {};
  const [first, last] = [parameters.at(0) ?? name, parameters.at(-1) ?? name];
  const places = [
    rangeOn(line, { from: first.from, to: last.to }),
    ...section.cases.map((one) => rangeOn(line + one.line, one.syntax)),
  ];
  return {
    ...common,
    id,
    label: name.name,
    ...(title && { description: title }),
    case: 0,
    range: rangeOfSection(placed),
    children:
      section.cases.length === 0
        ? []
        : places.map((range, number) => ({
            ...common,
            id: caseId(named, number),
            label: caseTitle(section, number, reader.words),
            case: number,
            range,
          })),
  };
}
