/** How the machine has to stand before the first step. */
import type { StepSyntax } from '../../grammar/tree.js';
import { hasDriveLever, REGISTERS, type Register } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import type { Text } from './model.js';
import { listed } from './spans.js';
import type { SheetWords } from './wording/index.js';

/** The state in which a run begins, as far as the machine has it; registers only where the steps rely on them. */
export function beginning(run: CaseRun, words: SheetWords): Text[] {
  const { profile } = run.order;
  const { begin } = words.operating;
  const zero = reliedOn(run).filter((register) => profile[register] > 0);
  const named = listed(
    zero.map((register): Text => [words.steps.the(register)]),
    words.steps.and,
  );
  const lines = [
    profile.subtract === 'half-step' ? begin.homeAdding : profile.carriage > 1 && begin.home,
    begin.rest,
    profile.subtract === 'lift' && begin.lowered,
    hasDriveLever(profile) && profile.subtract === 'lever' && begin.adding,
    profile.count === 'lever' && begin.countPlus,
    profile.autoClear && begin.autoClearOff,
    profile.autoDivide && begin.autoDivideOff,
    begin.markers,
  ].filter((line) => line !== false);
  return [...lines.map((line): Text => [line]), ...(zero.length > 0 ? [begin.zero(named, zero.length)] : [])];
}

/** Registers that are used or read before the steps have cleared or set them. */
function reliedOn({ tape, order }: CaseRun): readonly Register[] {
  const known = new Set<Register>(order.profile.counter > 0 ? [] : ['counter']);
  const relied = new Set<Register>();
  const use = (registers: readonly Register[]) => {
    for (const register of registers) if (!known.has(register)) relied.add(register);
  };
  for (let row = 0; row < tape.length && known.size + relied.size < REGISTERS.length; row++) {
    const { syntax } = tape.stepAt(row);
    use(usedBy(syntax));
    for (const register of madeBy(syntax)) known.add(register);
  }
  return REGISTERS.filter((register) => relied.has(register));
}

function usedBy(syntax: StepSyntax): readonly Register[] {
  switch (syntax.kind) {
    case 'turn':
      return REGISTERS;
    case 'transfer':
      // The levers must be clear for it.
      return [syntax.register, 'setting'];
    case 'expect':
      return syntax.items.flatMap((item) => (item.kind === 'register' ? [item.register] : []));
    case 'ask':
      return syntax.items.map(({ register }) => register);
    default:
      return [];
  }
}

function madeBy(syntax: StepSyntax): readonly Register[] {
  switch (syntax.kind) {
    case 'set':
      return ['setting'];
    case 'dial':
      return ['result'];
    case 'transfer':
      return [syntax.register, 'setting'];
    case 'clear':
      return syntax.all ? REGISTERS : syntax.registers;
    default:
      return [];
  }
}
