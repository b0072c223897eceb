/** What is read: `expect` and `ask`, without what the new machine has not. */
import { print } from '../../../grammar/printer.js';
import type { AskStep, ExpectItem, ExpectStep } from '../../../grammar/tree.js';
import { OVERDRAWN, OVERFLOWED } from '../../machine/index.js';
import { lookedIn } from '../../sequence/looks.js';
import { wholeOf } from '../../sequence/readings.js';
import type { Difference, Reason } from './facts.js';
import { digitString } from './numbers.js';
import type { Occurrence } from './walk.js';
import { positionAt, refuse, spotBefore, type Way } from './way.js';

export interface CarriedReading {
  readonly lines: string[];
  readonly differences: Difference[];
}

/** The readings that can be had; figures that come out otherwise are put right when all has been tried out. */
export function carryExpect(way: Way, o: Occurrence): CarriedReading {
  const step = o.step.syntax as ExpectStep;
  const { line } = o.step;
  const differences: Difference[] = [];
  const position = positionAt(way, spotBefore(o));
  const happened = o.run.happenedBefore(o.first);
  const has = (kind: ExpectItem['kind']) => step.items.some((item) => item.kind === kind);
  const bySubtracting = o.run.complementTurns.has(lastTurn(o)) && way.to.subtract !== 'none';
  const isBuilt = way.building?.get(o.run)?.at(lastTurn(o)) !== undefined;
  const told = (item: ExpectItem, reason: Reason, after?: ExpectItem): ExpectItem[] => {
    const register = lookedIn(item);
    differences.push({ line, register, before: wordOf(item), reason, ...(after && { after: wordOf(after) }) });
    return after ? [after] : [];
  };
  const carried = (item: ExpectItem): ExpectItem[] => {
    switch (item.kind) {
      case 'register':
        return item.register === 'counter' && way.to.counter === 0 ? told(item, 'no-counter') : [item];
      case 'bell': {
        if (isBuilt) return told(item, 'built-up');
        if (bySubtracting && !has('overflow')) return told(item, 'no-complement');
        if (way.to.bell) return [item];
        const instead = happened & OVERFLOWED ? 'overflow' : happened & OVERDRAWN ? 'overdraw' : undefined;
        const isThere = instead === undefined || has(instead) || (instead === 'overdraw' && way.to.subtract === 'none');
        return told(item, 'no-bell', isThere ? undefined : { ...item, kind: instead });
      }
      case 'overflow':
        return bySubtracting ? told(item, 'no-complement') : [item];
      case 'overdraw':
        if (isBuilt) return told(item, 'built-up');
        return way.to.subtract === 'none' ? told(item, 'by-complement') : [item];
      case 'parked':
        return position === 0 ? [item] : told(item, 'no-park');
      case 'carriage': {
        if (item.position.kind === 'name' || wholeOf(item.position) === position) return [item];
        return told(item, 'positions', { ...item, position: digitString(String(position)) });
      }
    }
  };
  const items = step.items.flatMap(carried);
  return { lines: items.length > 0 ? [print({ ...step, items })] : [], differences };
}

/** The row of the step that is looked back at. */
function lastTurn(o: Occurrence): number {
  for (let row = o.first - 1; row >= 0; row--) if (o.run.stepAt(row).kind === 'turn') return row;
  return -1;
}

/** A reading as it is written: figures, or the word of what happened. */
export function wordOf(item: ExpectItem): string {
  if (item.kind === 'register') {
    const { figures, negative } = item;
    return (negative ? '-' : '') + (figures.kind === 'number' ? figures.text : figures.name);
  }
  if (item.kind !== 'carriage') return item.kind;
  return item.position.kind === 'number' ? item.position.text : item.position.name;
}

/** What the reader is to note must be there to be read. */
export function carryAsk(way: Way, o: Occurrence): string[] {
  const step = o.step.syntax as AskStep;
  if (way.to.counter === 0 && step.items.some(({ register }) => register === 'counter')) {
    refuse({ kind: 'device', line: o.step.line, device: 'counter' });
  }
  return [print(step)];
}
