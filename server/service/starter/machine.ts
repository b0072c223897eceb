/** The machine of a file that is begun: its lines, each with what it says. */
import type { Profile } from '../../machine/index.js';
import type { SheetWords } from '../../sheets/wording/index.js';
import { MACHINE_KINDS, type MachineKind } from './kinds.js';
import type { StarterWords } from './wording/index.js';

/** As sheets describe a machine, so is each of its lines explained. */
export function machineLines(
  kind: MachineKind,
  profile: Profile,
  { effort }: StarterWords,
  sheets: SheetWords,
): string[] {
  return MACHINE_KINDS[kind].map((line) => `${line}  # ${meaning(line, profile, effort, sheets)}`);
}

function meaning(line: string, profile: Profile, effort: string, { head: { machine } }: SheetWords): string {
  const { has } = machine;
  switch (/^(?:transfer )?\S+/.exec(line)?.[0]) {
    case 'setting':
      return machine.setting(profile.setting);
    case 'counter':
      return machine.counter(profile.counter, profile.counterCarry);
    case 'result':
      return machine.result(profile.result, profile.reach) + (profile.dials ? `; ${has.dials}` : '');
    case 'carriage':
      return machine.carriage(profile.carriage);
    case 'subtract':
      return machine.subtract[profile.subtract];
    case 'count':
      return machine.count[profile.count];
    case 'park':
      return has.park;
    case 'bell':
      return has.bell;
    case 'auto-clear':
      return has.autoClear;
    case 'auto-divide':
      return has.autoDivide;
    case 'transfer result':
      return profile.transferResult === 'at 1' ? has.transferResultAt1 : has.transferResult;
    case 'transfer counter':
      return has.transferCounter;
    default:
      return effort;
  }
}

/** The header of the machine. */
export const machineHeader = (kind: MachineKind, { machines }: StarterWords): string => {
  const { name, label } = machines[kind];
  return `machine ${name} "${label}"`;
};
