/** The sequence of a file that is begun: planned for its machine, with readings that come of a run. */
import type { Gradual } from '../../../grammar/gradual.js';
import { MECHANISMS, type Profile } from '../../machine/index.js';
import { type ProvingScript, provingScript } from '../../proving/proof/index.js';
import { proofLines } from '../../proving/proof/text.js';
import { expectText } from '../../proving/proof/written.js';
import { provingWording } from '../../proving/wording/index.js';
import { Library } from '../../sequence/library.js';
import { lookingsIn, shownOf } from '../../sequence/looks.js';
import { isRefused, linesOf, planFor } from '../plans.js';
import type { MachineKind } from './kinds.js';
import { EXERCISES, multiplies, SUMS, type Sum, type Task } from './tasks.js';
import type { StarterWords } from './wording/index.js';

/** For whom a file is begun, and on what. */
export interface Ground {
  readonly kind: MachineKind;
  /** The machine, from its header on. */
  readonly machine: readonly string[];
  readonly profile: Profile;
  /** Of the comments and titles; the notation itself has none. */
  readonly language: string;
  readonly words: StarterWords;
}

/** The lines of a sequence, from its header on, and those of what comes below it. */
export function* taskLines(task: Task, ground: Ground): Gradual<string[]> {
  if (task === 'bench') return yield* benchLines(ground);
  yield;
  if (task === 'exercise') return exerciseLines(ground);
  return task === 'instruction' ? instructionLines(ground) : plannedLines(SUMS[task], headed(task, ground), ground);
}

const headed = (task: Task, { words }: Ground): Heading => words.sequences[task];

interface Heading {
  readonly name: string;
  readonly title: string;
}

/** Header, cases and goal, a blank line, and the steps with the least effort. Throws where there are none. */
function plannedLines({ register, expression, parameters = {} }: Sum, { name, title }: Heading, ground: Ground) {
  const { machine, profile, language } = ground;
  const names = Object.entries(parameters);
  const numbers = (i: number) => names.map(([parameter, values]) => `${parameter} = ${values[i]}`).join(', ');
  const cases = names.length > 0 ? names[0][1].slice(1).map((_, i) => `case ${numbers(i + 1)}`) : [];
  const defaults = names.length > 0 ? ` (${numbers(0)})` : '';
  const head = [
    `sequence ${name} "${title}"${defaults} on ${profile.name}`,
    ...cases,
    `goal ${register} = ${expression}`,
  ];
  const { section } = checked([...machine, '', ...head]);
  const planned = planFor(section, section.goals[0], profile);
  if (isRefused(planned)) throw new Error(`${profile.name} can't do ${expression}`);
  return [...head, '', ...linesOf(planned, language)];
}

/** What stands at the end is asked for. */
function exerciseLines(ground: Ground): string[] {
  const { words } = ground;
  const kind = multiplies(ground.profile) ? 'product' : 'sum';
  const names = words.parameters[kind];
  const parameters = Object.fromEntries(names.map((name, i) => [name, EXERCISES[kind][i]]));
  const expression = names.join(kind === 'product' ? ' * ' : ' + ');
  const heading = kind === 'product' ? headed('exercise', ground) : words.sumExercise;
  const lines = plannedLines({ register: 'result', expression, parameters }, heading, ground);
  return [...lines, `ask ${kind === 'product' ? 'counter ' : ''}result`];
}

const isSetting = (line: string): boolean => /^\s*set /.test(line);
const isNote = (line: string): boolean => /^\s*note /.test(line);

/** Cautions at the head, a note where each number is set, and a reading on the way. */
function instructionLines(ground: Ground): string[] {
  const { words } = ground;
  const lines: string[] = [];
  let number = 0;
  for (const line of plannedLines(SUMS.instruction, headed('instruction', ground), ground)) {
    if (isSetting(line)) {
      // What has come in is read before anything is said of what goes out.
      if (number === 2) lines.splice(lines.findLastIndex((before) => !isNote(before)) + 1, 0, 'ask result');
      lines.push(`note "${words.notes[number++]}"`);
    }
    lines.push(line);
    if (line === '') lines.push(...words.cautions.map((caution) => `caution "${caution}"`));
  }
  const [looking] = lookingsIn(checked([...ground.machine, '', ...lines]).run);
  const shown = shownOf('result', looking, ground.profile);
  return lines.map((line) =>
    line === 'ask result'
      ? expectText(['result'], [shown], words.reading)
      : line.replace(/^(\s*expect result \S+)$/, `$1 as ${words.lastReading}`),
  );
}

/** Invariant: machines of a kind differ in their names alone, and a script has none. */
const SCRIPTS = new Map<string, ProvingScript>();

/** A script that catches all that it can, and a record of it with nothing noted yet. */
function* benchLines(ground: Ground): Gradual<string[]> {
  const { words, language, profile } = ground;
  const { name } = headed('bench', ground);
  const known = SCRIPTS.get(ground.kind) ?? (yield* provingScript(profile));
  SCRIPTS.set(ground.kind, known);
  const script = proofLines({ ...known, profile }, name, MECHANISMS, provingWording(language));
  const found = script.flatMap((line) => {
    const [, first, label, others] = /^\s*expect (.+?) as (\S+)(.*)$/.exec(line) ?? [];
    return first === undefined ? [] : [`  # found ${label} ${first}${others}`];
  });
  const { record, recordTitle } = words;
  const comments = record.map((line) => `# ${line}`);
  return [...script, '', ...comments, `bench "${recordTitle}" of ${name} on ${profile.name}`, ...found];
}

/** A text that holds a machine and a sequence, run. */
function checked(lines: readonly string[]) {
  const library = new Library();
  library.set(FILE, lines.join('\n'));
  const [{ section, runs }] = library.check(FILE).sequences;
  return { section, run: runs[0] };
}
const FILE = 'starter.crank';
