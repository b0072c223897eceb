/** A sequence as it is cranked on another machine, written below it. */
import type { Gradual } from '../../../grammar/gradual.js';
import type { MachineSection, Section } from '../../../grammar/tree.js';
import type { Profile } from '../../machine/index.js';
import { type Adaptation, adapting, adaptWording, closedUp } from '../../planning/adapt/index.js';
import { type SequenceReport, workOf } from '../../sequence/check.js';
import { namesTaken, nextFree } from './free-names.js';
import type { Outcome } from './open-out.js';
import type { Offered, Scene } from './scene.js';

/** Characters of a step that is quoted. */
const LONGEST_STEP = 60;
/** Machines that are offered. */
const MOST_MACHINES = 8;
/** Rows and turns of the sequence, for all machines together, that are tried out before anybody has chosen one. */
const MOST_WORK = 1_000;

/** What came of a sequence, as long as nothing that it rests on changes. */
const KNOWN = new WeakMap<SequenceReport, Map<string, { readonly to: Profile; readonly adaptation: Adaptation }>>();

/**
 * One offer for each of the nearest machines, where a list was asked for: on the header, or anywhere if it was to be of
 * such actions. They are tried out at once, so that the list says what stands in the way; of a long sequence only when
 * they are wanted.
 */
export function* carryOver(scene: Scene): Gradual<readonly Offered[]> {
  const { section, report, words, isAsked, isNamed, isHeader, of: wanted } = scene;
  if (!isAsked || !(isHeader || isNamed) || !report?.profile || section.steps.length === 0) return [];
  const work = workOf(report);
  const machines = machinesFor(scene);
  const isShort = wanted === undefined && machines[0] && work <= MOST_WORK;
  const first = isShort ? yield* adaptationOn(scene, report, machines[0]) : undefined;
  // What is wrong with the sequence itself is told once, and not of each machine.
  if (machines[0] && first && 'refused' in first && first.refused[0]?.kind === 'source')
    return [{ title: words.carryOverAnywhere, outcome: outcomeOf(scene, machines[0], first) }];
  let left = wanted === undefined ? MOST_WORK : 0;
  const offered: Offered[] = [];
  for (const machine of machines) {
    const of = machine.header?.name.name ?? '';
    const title = words.carryOver(of);
    left -= work;
    if (left < 0) {
      const outcome = function* (): Gradual<Outcome> {
        return outcomeOf(scene, machine, yield* adaptationOn(scene, report, machine));
      };
      offered.push({ of, title, outcome });
      continue;
    }
    const adaptation = yield* adaptationOn(scene, report, machine);
    const outcome = outcomeOf(scene, machine, adaptation);
    const effort = adaptation && 'effort' in adaptation ? adaptation.effort : undefined;
    const told = effort && 'edits' in outcome ? words.withEffort(title, effort.after.cost, effort.before.cost) : title;
    offered.push({ of, title: told, outcome });
  }
  return offered;
}

/** The machines of the file, those that stand nearest first, then those of the files that it uses. */
function machinesFor({ document, placed, report }: Scene): MachineSection[] {
  const { library, file } = document;
  const scope = library.scope(file);
  const seen = [...new Set(scope.machineNames())].flatMap((name) => scope.machine(name) ?? []);
  const distance = (machine: MachineSection): number =>
    library.fileOf(machine) === file ? Math.abs(library.lineOf(machine) - placed.line) : Number.POSITIVE_INFINITY;
  const isOther = (machine: MachineSection) => machine !== report?.machine && library.machine(machine).profile;
  return seen
    .filter(isOther)
    .map((machine, i) => ({ machine, i, from: distance(machine) }))
    .sort((a, b) => (a.from === b.from ? a.i - b.i : a.from - b.from))
    .slice(0, MOST_MACHINES)
    .map(({ machine }) => machine);
}

function* adaptationOn(scene: Scene, report: SequenceReport, machine: MachineSection): Gradual<Adaptation | undefined> {
  const { document, section, reader } = scene;
  const { library, file } = document;
  const from = report.profile;
  const to = library.machine(machine).profile;
  if (!from || !to) return undefined;
  const known = KNOWN.get(report) ?? new Map();
  KNOWN.set(report, known);
  const key = `${reader.locale} ${to.name}`;
  const earlier = known.get(key);
  if (earlier?.to === to) return earlier.adaptation;
  const resolve = (name: string, seenFrom: Section) => library.scope(library.fileOf(seenFrom) ?? file).sequence(name);
  const isWhole = report.runs.length === 1 + section.cases.length;
  const adaptation = yield* adapting({
    section,
    from,
    to,
    resolve,
    ...(isWhole && { report }),
    language: reader.locale,
  });
  known.set(key, { to, adaptation });
  return adaptation;
}

function outcomeOf(scene: Scene, machine: MachineSection, adaptation: Adaptation | undefined): Outcome {
  const { section, draft, words, reader, document } = scene;
  const name = section.header?.name.name;
  if (!adaptation || name === undefined) return { disabled: words.disabled.notRun };
  const wording = adaptWording(reader.locale);
  const stepOn = (line: number): string => {
    const { text = '', comment } = section.lines[line] ?? {};
    const step = text.slice(0, comment?.from).trim() || text.trim();
    return step.length > LONGEST_STEP ? `${step.slice(0, LONGEST_STEP - 1)}…` : step;
  };
  const onStep = (line: number, text: string) => (line > 0 ? `${stepOn(line)}: ${text}` : text);
  if ('refused' in adaptation) {
    const [obstacle] = adaptation.refused;
    return { disabled: obstacle ? onStep(obstacle.line, wording.obstacleText(obstacle)) : words.disabled.notRun };
  }
  const on = machine.header?.name.name ?? '';
  const free = nextFree(`${name}-on-${on}`, namesTaken(scene));
  const [header = '', ...body] = document.isMarkdown ? closedUp(adaptation.lines) : adaptation.lines;
  const renamed = `sequence ${free}${header.slice(`sequence ${name}`.length)}`;
  const told = [
    ...adaptation.differences.map((one) => `#   ${onStep(one.line, wording.differenceText(one))}`),
    ...adaptation.reread.filter((line) => line > 0).map((line) => `#   ${onStep(line, wording.reread)}`),
  ];
  const comments = told.length > 0 ? [`# ${words.carriedOver(name, on)}`, ...told] : [];
  return { edits: [draft.atEnd(['', ...comments, renamed, ...body])] };
}
