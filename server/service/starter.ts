/**
 * A file to begin with: a machine, a sequence that is right for it, and what to change, as a whole that needs nothing
 * else: `cranknote/starter`.
 */
import { format } from '../../grammar/formatter.js';
import type { Gradual } from '../../grammar/gradual.js';
import type { Profile } from '../machine/index.js';
import { Library } from '../sequence/library.js';
import { languageOf } from '../sequence/wording/index.js';
import { sheetWords } from '../sheets/wording/index.js';
import { MACHINE_KIND_NAMES, MACHINE_KINDS, type MachineKind } from './starter/kinds.js';
import { machineHeader, machineLines } from './starter/machine.js';
import { taskLines } from './starter/sequence.js';
import { suits, TASKS, type Task } from './starter/tasks.js';
import { STARTER_LANGUAGES, type StarterWords, starterWords } from './starter/wording/index.js';

export interface StarterOrder {
  readonly machine: MachineKind;
  readonly task: Task;
  readonly language: string;
}

/** A file, or only what there is to choose. */
export type StarterAsked = Partial<StarterOrder> & Pick<StarterOrder, 'language'>;

export interface Starter {
  /** The name of its sequence, for the name of a file. */
  readonly name: string;
  readonly text: string;
}

/** Everything that may be chosen, and what it is called. */
export interface StarterOffers {
  readonly machines: readonly (Offer & { readonly tasks: readonly Task[] })[];
  readonly tasks: readonly Offer[];
}
interface Offer {
  readonly value: string;
  readonly label: string;
  readonly detail: string;
}

export interface StarterAnswer extends StarterOffers {
  /** Where both were chosen. */
  readonly file?: Starter;
}

export function starterOffers(words: StarterWords): StarterOffers {
  const machines = MACHINE_KIND_NAMES.map((value) => {
    const { label, detail } = words.machines[value];
    return { value, label, detail, tasks: tasksFor(value) };
  });
  return { machines, tasks: TASKS.map((value) => ({ value, ...words.tasks[value] })) };
}

const tasksFor = (kind: MachineKind): Task[] => TASKS.filter((task) => suits(task, profileOf(MACHINE_KINDS[kind])));

/** Why there is no such file, where the machine can't do that. */
export function unsuited({ machine, task }: Pick<StarterOrder, 'machine' | 'task'>, words: StarterWords) {
  if (tasksFor(machine).includes(task)) return undefined;
  return words.unsuited(words.machines[machine].label, words.tasks[task].label);
}

/** The file. Throws where it is unsuited. */
export function* starterGradually({ machine: kind, task, language }: StarterOrder): Gradual<Starter> {
  const words = starterWords(language);
  const machine = [machineHeader(kind, words), ...MACHINE_KINDS[kind]];
  const profile = profileOf(MACHINE_KINDS[kind], machine[0]);
  const lines = yield* taskLines(task, { kind, machine, profile, language, words });
  const [, name, title] = /^sequence (\S+) "(.*?)"/.exec(lines[0]) ?? [];
  const above = task === 'exercise' || task === 'instruction' || task === 'bench' ? task : 'planned';
  const text = [
    `# ${title} (${words.machines[kind].label})`,
    '',
    ...commented(words.aboveMachine),
    machine[0],
    ...machineLines(kind, profile, words, sheetWords(language)),
    '',
    ...commented(words[above]),
    ...lines,
    '',
  ].join('\n');
  return { name, text: format(text) };
}

const commented = (lines: readonly string[]): string[] => lines.map((line) => `# ${line}`);

function profileOf(lines: readonly string[], header = 'machine m'): Profile {
  const library = new Library();
  library.set('m.crank', [header, ...lines].join('\n'));
  for (const { section } of library.tree('m.crank')?.sections ?? []) {
    const profile = section.kind === 'machine' ? library.machine(section).profile : undefined;
    if (profile) return profile;
  }
  throw new Error(`${header} contradicts itself`);
}

/** What there is to choose, told in the reader's language, and the file if it was chosen; or why there is none. */
export function* starterAnswerGradually(
  { machine, task, language }: StarterAsked,
  locale: string,
): Gradual<StarterAnswer | string> {
  const words = starterWords(locale);
  const offers = starterOffers(words);
  if (!machine || !task) return offers;
  const refused = unsuited({ machine, task }, words);
  return refused ?? { ...offers, file: yield* starterGradually({ machine, task, language }) };
}

/** What a client asks for: a file, or only what there is to choose; a text says what is wrong with it. */
export function starterAsked(sent: unknown, locale: string): StarterAsked | string {
  const at = (typeof sent === 'object' && sent !== null ? sent : {}) as Readonly<Record<string, unknown>>;
  const own = STARTER_LANGUAGES.find((language) => language === languageOf(locale)) ?? STARTER_LANGUAGES[0];
  const asked: Record<string, unknown> = { language: own };
  for (const [name, values] of Object.entries<readonly string[]>(VALUES)) {
    const value = at[name];
    if (value === undefined) continue;
    if (typeof value !== 'string' || !values.includes(value)) return `${name} is one of ${values.join(', ')}.`;
    asked[name] = value;
  }
  return asked as unknown as StarterAsked;
}
const VALUES = { machine: MACHINE_KIND_NAMES, task: TASKS, language: STARTER_LANGUAGES } as const;
