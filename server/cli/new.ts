/** `cranknote new`: a file to begin with, which needs no other. */
import { finish } from '../../grammar/gradual.js';
import { starterWords } from '../service/starter/wording/index.js';
import { type StarterOrder, starterGradually, starterOffers, unsuited } from '../service/starter.js';
import { refuseExisting, writeOut } from './out.js';
import { harmless, type Terminal } from './terminal.js';

const words = starterWords('en');

export interface NewOptions extends StarterOrder {
  readonly out?: string;
  readonly force?: boolean;
}

/** Returns the exit code: 0 written, 1 such a machine can't do it. */
export function newFile({ out, force, ...order }: NewOptions, terminal: Terminal): number {
  if (out !== undefined && !force) refuseExisting(out, '; --force writes over it');
  const refused = unsuited(order, words);
  if (refused !== undefined) {
    terminal.err(`${refused}\n`);
    return 1;
  }
  const file = finish(starterGradually(order));
  if (out === undefined) terminal.out(file.text);
  else {
    writeOut(out, file.text);
    terminal.err(`Written to ${harmless(out)}.\n`);
  }
  return 0;
}

/** The kinds of machines and the tasks with what they are, for the help. */
export function choicesText(): string {
  const { machines, tasks } = starterOffers(words);
  const listed = (title: string, offers: typeof tasks): string => {
    const width = Math.max(...offers.map(({ value }) => value.length));
    return `${title}:\n${offers.map(({ value, label }) => `  ${value.padEnd(width)}  ${label}`).join('\n')}\n`;
  };
  return `\n${listed('Machines', machines)}\n${listed('Tasks', tasks)}`;
}
