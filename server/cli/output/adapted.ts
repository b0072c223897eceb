/** Adapted sequences: as text for a file, and for other programs. */
import type { Placed, SequenceSection } from '../../../grammar/tree.js';
import { type Adaptation, adaptWording, type Difference, type Obstacle } from '../../planning/adapt/index.js';

import type { Effort } from '../../sequence/effort.js';
import type { Bringing } from '../machines.js';
import { harmless, harmlessJson, paragraph, type Terminal } from '../terminal.js';

type Carried = Exclude<Adaptation, { refused: unknown }>;

/** A sequence of the file, and what has become of it. */
export interface Adapted {
  readonly placed: Placed<SequenceSection>;
  readonly name: string;
  /** The machine that it was written for; missing where none is known that could be run. */
  readonly from?: string;
  /** Comment lines right above it. */
  readonly above: readonly string[];
  readonly outcome:
    | ({ readonly is: 'adapted' } & Carried)
    /** It is written for that machine already. */
    | { readonly is: 'same' }
    | { readonly is: 'refused'; readonly obstacles: readonly Obstacle[] };
}

const wording = adaptWording('en');
const NO_MACHINE = 'The machine that this sequence is written for is not known, or contradicts itself.';

/** Why a sequence can't be carried over, with lines of its file; nothing for one that can. */
export function refusalText(
  file: string,
  machine: string,
  { name, placed, outcome }: Adapted,
  terminal: Pick<Terminal, 'columns'>,
): string {
  if (outcome.is === 'same') return `${harmless(name)} is written for ${machine} already.\n`;
  if (outcome.is === 'adapted') return '';
  return groupsOf(outcome.obstacles)
    .map((group) => {
      const [{ line, message }] = messagesOf(placed, group.slice(0, 1));
      const what = `${harmless(file)}:${line}  ${harmless(name)} can't be carried over to ${machine}.`;
      const others = [...new Set(group.slice(1).map((obstacle) => placed.line + obstacle.line + 1))];
      const also = others.length > 0 ? ` The same goes for ${linesText(others)}.` : '';
      return `${what}\n${paragraph(harmless(message) + also, '  ', terminal)}\n`;
    })
    .join('');
}

/**
 * What comes to the same is told once: of what there is too little of the worst first, otherwise the first in the file.
 */
function groupsOf(obstacles: readonly Obstacle[]): (readonly Obstacle[])[] {
  if (obstacles.length === 0) return [[]];
  const groups = new Map<string, Obstacle[]>();
  for (const obstacle of [...obstacles].sort((a, b) => a.line - b.line)) {
    const { line: _, ...what } = obstacle;
    const key = obstacle.kind === 'limit' ? `limit ${obstacle.limit}` : JSON.stringify(what);
    groups.set(key, [...(groups.get(key) ?? []), obstacle]);
  }
  const needs = (obstacle: Obstacle) => (obstacle.kind === 'limit' ? obstacle.needs : 0);
  return [...groups.values()].map((group) => {
    const worst = group.reduce((a, b) => (needs(b) > needs(a) ? b : a));
    return [worst, ...group.filter((one) => one !== worst)];
  });
}

const MOST_LINES_TOLD = 6;

/** `line 7`, `lines 7, 9 and 12`, `lines 7, 9, 12, 15, 17 and 9 more`. */
function linesText(lines: readonly number[]): string {
  if (lines.length === 1) return `line ${lines[0]}`;
  const told = lines.length > MOST_LINES_TOLD ? lines.slice(0, MOST_LINES_TOLD - 1) : lines.slice(0, -1);
  const last = lines.length > MOST_LINES_TOLD ? `${lines.length - told.length} more` : lines[lines.length - 1];
  return `lines ${told.join(', ')} and ${last}`;
}

const messagesOf = ({ line }: Placed<SequenceSection>, obstacles: readonly Obstacle[]) =>
  obstacles.length === 0
    ? [{ line: line + 1, kind: 'no-machine', message: NO_MACHINE }]
    : obstacles.map((obstacle) => ({
        line: line + obstacle.line + 1,
        kind: obstacle.kind,
        message: wording.obstacleText(obstacle),
      }));

/** The sequences that can be carried over, each below a comment that says what is different, as a whole file. */
export function adaptedText(adapted: readonly Adapted[], machine: string, bringing: Bringing | undefined): string {
  const blocks = adapted.flatMap((one) => {
    if (one.outcome.is !== 'adapted') return [];
    const comments = commentOf(one, one.outcome, machine).map((line) => `# ${line}`);
    return [[...one.above, ...comments, ...withoutTail(one.outcome.lines)]];
  });
  if (blocks.length === 0) return '';
  const use = bringing && 'use' in bringing ? [[bringing.use]] : [];
  const below = bringing && 'lines' in bringing ? [[...bringing.lines]] : [];
  return `${[...use, ...blocks, ...below].map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function commentOf(one: Adapted, { effort, differences, reread }: Carried, machine: string): string[] {
  const { placed, from } = one;
  const cost = `Carried over from ${from} to ${machine}: effort ${effort.before.cost} before, ${effort.after.cost} now.`;
  return [
    cost,
    ...differences.map(
      (difference) => `Line ${placed.line + difference.line + 1}: ${wording.differenceText(difference)}`,
    ),
    ...rereadText(one, reread),
  ];
}

/** Where words may not hold any more; a header without a title says nothing that could be wrong. */
function rereadText({ placed, above }: Adapted, reread: readonly number[]): string[] {
  const hasTitle = placed.section.header?.title !== undefined;
  const lines = reread.filter((line) => line > 0 || hasTitle).map((line) => placed.line + line + 1);
  const isAbove = reread.includes(0) && above.length > 0;
  const where = [...(isAbove ? ['comment above'] : []), ...(lines.length > 0 ? [linesText(lines)] : [])].join(', ');
  return where === '' ? [] : [`${where[0].toUpperCase()}${where.slice(1)}: ${wording.reread}`];
}

/** Without blank lines and comments at the margin behind the last line: they are about what follows in the old file. */
export function withoutTail(lines: readonly string[]): string[] {
  const last = lines.findLastIndex((line) => line.trim() !== '' && !line.startsWith('#'));
  return lines.slice(0, last + 1);
}

/** What was written into a file. */
export const writtenText = (file: string, machine: string, adapted: readonly Adapted[]): string =>
  adapted
    .flatMap((one) => {
      if (one.outcome.is !== 'adapted') return [];
      const [cost, ...differences] = commentOf(one, one.outcome, machine).map(harmless);
      const told = differences.length > 0 ? `${cost} Lines are counted as they were:` : cost;
      return [`${harmless(file)}: ${harmless(one.name)}. ${told}`, ...differences.map((line) => `  ${line}`)];
    })
    .map((line) => `${line}\n`)
    .join('');

/** Format 1: a key is never given another meaning. */
export const adaptedJson = (
  file: string,
  machine: string,
  bringing: Bringing | undefined,
  adapted: readonly Adapted[],
  written: boolean,
): string =>
  harmlessJson(
    `${JSON.stringify(
      {
        format: 1,
        file,
        machine,
        ...(bringing &&
          ('use' in bringing ? { use: bringing.use } : { machineText: `${bringing.lines.join('\n')}\n` })),
        written,
        sequences: adapted.map(sequenceJson),
      },
      null,
      2,
    )}\n`,
  );

function sequenceJson({ placed, name, from, outcome }: Adapted): object {
  const about = { name, line: placed.line + 1, ...(from !== undefined && { from }) };
  switch (outcome.is) {
    case 'same':
      return { ...about, same: true };
    case 'refused':
      return { ...about, refused: messagesOf(placed, outcome.obstacles) };
    case 'adapted':
      return {
        ...about,
        text: `${withoutTail(outcome.lines).join('\n')}\n`,
        differences: outcome.differences.map((difference) => differenceJson(placed, difference)),
        reread: outcome.reread.map((line) => placed.line + line + 1),
        effort: outcome.effort satisfies { before: Effort; after: Effort },
      };
  }
}

const differenceJson = (placed: Placed<SequenceSection>, difference: Difference) => ({
  ...difference,
  line: placed.line + difference.line + 1,
  message: wording.differenceText(difference),
});
