/** What stands at the head of a sheet: cautions, the machine's data, how long the work may take. */
import type { Profile } from '../machine/index.js';
import type { Effort } from '../sequence/effort.js';
import type { Block, SheetKind, Text } from './model.js';
import type { SheetWords } from './wording/index.js';

/**
 * Cautions for the head of a kind of sheet. They are the usual ones of any such work; the first or the last of each list
 * says that the machine's own manual, the rules of the place and trained people come first.
 */
export const usualCautions = (kind: SheetKind, { head }: SheetWords): Text[] =>
  head.cautions[kind].map((caution) => [caution]);

/** The machine's data as a table of a sheet, which has a head of its own for what they are and for how they are. */
export const machineBlock = (
  caption: string,
  { what, how }: { readonly what: string; readonly how: string },
  profile: Profile,
  words: SheetWords,
): Block => ({
  is: 'table',
  caption,
  columns: [{ head: what }, { head: how }],
  rows: machineTable(profile, words),
});

/** A machine in words, as rows of two cells: what, and how it is. What a machine has not is left out, but the counter. */
export function machineTable(profile: Profile, { head: { machine } }: SheetWords): (readonly [Text, Text])[] {
  const { labels } = machine;
  const besides = extras(profile, machine.has);
  return [
    [[labels.setting], [machine.setting(profile.setting)]],
    [[labels.counter], [machine.counter(profile.counter, profile.counterCarry)]],
    [[labels.result], [machine.result(profile.result, profile.reach)]],
    [[labels.carriage], [machine.carriage(profile.carriage)]],
    [[labels.subtract], [machine.subtract[profile.subtract]]],
    ...(profile.counter > 0 ? [[[labels.count], [machine.count[profile.count]]] as const] : []),
    ...(besides.length > 0 ? [[[labels.besides], [besides.join('; ')]] as const] : []),
    ...(Object.keys(profile.phrases).length > 0 ? [[[labels.wording], [machine.wording]] as const] : []),
  ];
}

function extras(profile: Profile, has: SheetWords['head']['machine']['has']): string[] {
  const { transferResult } = profile;
  return [
    profile.dials && has.dials,
    profile.park && has.park,
    profile.bell && has.bell,
    profile.autoClear && has.autoClear,
    profile.autoDivide && has.autoDivide,
    transferResult !== 'none' && (transferResult === 'at 1' ? has.transferResultAt1 : has.transferResult),
    profile.transferCounter && has.transferCounter,
  ].filter((one) => one !== false);
}

/** Seconds that are assumed for one turn, one position of the carriage, one lever. Nobody measured them. */
const SECONDS = { turn: 1, shift: 2, lever: 2 } as const;

/** How long turns, shifts and levers may take, with the assumption on which that rests; no sentence, for a label before it. */
export function timeEstimate({ turns, shifts, levers }: Effort, { head }: SheetWords): Text {
  const seconds = SECONDS.turn * turns + SECONDS.shift * shifts + SECONDS.lever * levers;
  return [`${head.time(seconds)}, ${head.assumed(SECONDS.turn, SECONDS.shift, SECONDS.lever)}`];
}
