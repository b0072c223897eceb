/** Steps that become a sequence of their own, which is run in their place. */
import type { TextEdit } from 'vscode-languageserver';
import { print } from '../../../grammar/printer.js';
import type { NumberSyntax, Step } from '../../../grammar/tree.js';
import { CODES } from '../../sequence/findings.js';
import { allSteps } from '../../sequence/names.js';
import { argumentsOf } from '../../sequence/substitute.js';
import { across, INDENT, indentOf } from './edits.js';
import { nextFree } from './free-names.js';
import { type Outcome, stepLines } from './open-out.js';
import type { Scene } from './scene.js';
import { endOfStep } from './subject.js';
import { Budget, rerun } from './trial.js';

export interface Extracted {
  /** The name of the new sequence. */
  readonly name: string;
  readonly outcome: Outcome;
}

/** Undefined where no whole steps are selected. */
export function extract(scene: Scene): Extracted | undefined {
  const { document, section, placed, draft, selected, words, report } = scene;
  const [first] = selected;
  const last = selected.at(-1);
  if (!first || !last || !section.header) return undefined;
  const end = endOfStep(last);
  const name = nextFree(words.partName, new Set(document.library.scope(document.file).sequenceNames()));
  if (draft.hasProse(first.line, end.line)) return { name, outcome: { disabled: words.disabled.prose } };
  const lines = section.lines.slice(first.line, end.line + 1);
  const isWhole = lines.every(({ errors, items }) => {
    return errors.length === 0 && !items.some(({ kind }) => kind === 'goal' || kind === 'case');
  });
  const isWholeLines = draft.isFirst(first) && draft.isLast(end);
  const hasComments = lines.some(({ comment }, i) => comment !== undefined && i < lines.length - 1);
  if (!isWhole || (hasComments && !isWholeLines)) return undefined;

  const parameters = parametersIn(scene);
  const defaults = parameters.map(([parameter, value]) => `${parameter} = ${value.text}`).join(', ');
  const on = section.header.on ? ` on ${section.header.on.name}` : '';
  const header = `sequence ${name}${defaults === '' ? '' : ` (${defaults})`}${on}`;
  const given = parameters.map(([parameter]) => parameter).join(', ');
  const run = `run ${name}${given === '' ? '' : ` (${given})`}`;
  const body = isWholeLines ? writtenLines(scene, first.line, end.line) : stepLines(selected, print, INDENT);
  const edits = [
    inPlace(scene, first, end, run, isWholeLines),
    draft.atEnd(['', header, ...body.map((line) => (line === '' ? '' : INDENT + line))]),
  ];
  const after = report && rerun(document, placed, edits, report, new Budget());
  const isNew = after?.find((one) => one.section.header?.name.name === name);
  const hasErrors = isNew?.findings.some(({ facts }) => CODES[facts.code] === 'error');
  return { name, outcome: hasErrors ? { disabled: words.disabled.needsBefore } : { edits } };
}

/** The sequence's own parameters that are used in the steps, with their numbers. */
function parametersIn({ section, selected }: Scene): [string, NumberSyntax][] {
  const used = new Set<string>();
  for (const { syntax } of allSteps(selected)) {
    for (const argument of argumentsOf(syntax)) if (argument.kind === 'name') used.add(argument.name);
  }
  const found = new Map<string, NumberSyntax>();
  for (const { name, value } of section.header?.parameters ?? []) {
    if (used.has(name.name) && !found.has(name.name)) found.set(name.name, value);
  }
  return [...found];
}

/** Whole lines as they are written, with their comments, as far out as the first of them. */
function writtenLines({ section }: Scene, first: number, last: number): string[] {
  const base = indentOf(section.lines[first].text);
  return section.lines.slice(first, last + 1).map(({ text }) => {
    if (text.trim() === '') return '';
    return ' '.repeat(Math.max(0, indentOf(text) - base)) + text.trim();
  });
}

function inPlace(
  { draft, placed, section }: Scene,
  first: Step,
  end: ReturnType<typeof endOfStep>,
  run: string,
  isWholeLines: boolean,
): TextEdit {
  const at = { line: first.line, syntax: across(first.syntax, end.syntax) };
  if (end.line === first.line && !isWholeLines) return draft.replace(at, run);
  const { line: top } = placed;
  const start = { line: top + first.line, character: first.syntax.from };
  // The comments went with the lines.
  const character = isWholeLines ? section.lines[end.line].text.length : end.syntax.to;
  return { range: { start, end: { line: top + end.line, character } }, newText: run };
}
