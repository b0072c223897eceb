/** Figures that come into a register in another way than before: by levers and turns in place of dials and transfers. */
import { print } from '../../../grammar/printer.js';
import type { DialStep, TransferStep } from '../../../grammar/tree.js';
import { hasDriveLever, numberIn, pointOf } from '../../machine/index.js';
import type { Occurrence } from './walk.js';
import {
  asRead,
  isMinus,
  isSubtracting,
  lowered,
  movedOf,
  placesOf,
  positionAt,
  refuse,
  type Spot,
  shifts,
  spotAfter,
  spotBefore,
  type Way,
} from './way.js';

/** What the counter showed before figures are entered, and in which position the carriage stands. */
export interface Entry {
  readonly position: number;
  /** The counter's total, which has to be there again afterwards. */
  readonly counted: bigint;
  /** How the figures are written, where they fit on the levers as they are. */
  readonly text?: string;
}

/**
 * Brings a number into a result that was cleared, by levers and turns, and the counter back to
 * what it showed. The levers are left as they were found if anything depends on it.
 */
export function enterResult(way: Way, after: Spot, value: bigint, { position, counted, text }: Entry): string[] {
  if (value === 0n) return [];
  const { to } = way;
  const { line } = after;
  if (placesOf(value) > to.result) {
    refuse({ kind: 'limit', line, limit: 'result', has: to.result, needs: placesOf(value) });
  }
  const lives = way.liveness.get(after.walk);
  const isCounterLive = to.counter > 0 && (lives?.counter(after.row) ?? true);
  const undoes = isCounterLive && counted !== 0n;
  if (undoes && to.subtract === 'none' && to.count !== 'lever') refuse({ kind: 'counting', line });
  const state = after.walk.stateBefore(after.row);
  const levers = [
    ...(isSubtracting(way, state) ? ['mode subtract'] : []),
    ...(isMinus(way, state) ? ['count minus'] : []),
  ];
  const lines: string[] = levers.map((lever) => (lever === 'mode subtract' ? 'mode add' : 'count plus'));
  let stands = position;
  for (const { figures, at } of chunks(way, line, value, text)) {
    lines.push(...shifts(stands, at));
    stands = at;
    const entering = [`set ${figures}`, 'turn'];
    // With the levers at zero a turn back moves nothing but the counter.
    const undoing = undoes ? ['clear setting', ...idleBack(way)] : [];
    // A wheel at 9 goes back first: it may have no tens carry.
    const isAtNine = (counted / 10n ** BigInt(at - 1)) % 10n === 9n;
    lines.push(...(isAtNine ? [...undoing, ...entering] : [...entering, ...undoing]));
  }
  lines.push(...shifts(stands, position));
  if (isCounterLive && !undoes) lines.push('clear counter');
  lines.push(...levers);
  const setting = lowered(numberIn(state, way.from, 'setting'), way.moved.setting) ?? 0n;
  if (lives?.setting(after.row)) lines.push(setting === 0n ? 'clear setting' : `set ${setting}`);
  return lines;
}

/** What is left of a dividend that was built up, where anything depends on it. */
export function enterRest(way: Way, after: Spot, rest: bigint, entry: Entry): string[] {
  const lines = enterResult(way, after, rest, entry);
  if (lines.length === 0) return [];
  const text = asRead(way, rest, after.walk.stateBefore(after.row));
  return [`note ${JSON.stringify(way.notes.rest(text))}`, ...lines];
}

function idleBack({ to }: Way): string[] {
  if (to.count === 'lever') return ['count minus', 'turn', 'count plus'];
  return hasDriveLever(to) ? ['mode subtract', 'turn', 'mode add'] : ['turn back'];
}

interface Chunk {
  readonly figures: string;
  readonly at: number;
}

/** A number cut into what the levers take at once, from the units up, with the carriage in between. */
function chunks(way: Way, line: number, value: bigint, text: string | undefined): Chunk[] {
  const { setting, carriage } = way.to;
  const power = 10n ** BigInt(setting);
  if (value < power) return [{ figures: text ?? String(value), at: 1 }];
  const found: Chunk[] = [];
  let rest = value;
  for (let place = 1; rest > 0n; place += setting) {
    const at = Math.min(place, carriage);
    const chunk = rest % power;
    rest /= power;
    if (chunk === 0n) continue;
    const up = place - at;
    if (placesOf(chunk) + up > setting) {
      refuse({ kind: 'limit', line, limit: 'setting', has: setting, needs: placesOf(value) });
    }
    found.push({ figures: `${chunk}${up > 0 ? ` at ${up + 1}` : ''}`, at });
  }
  return found;
}

/** Wheels set by hand; without dials, figures that are set and turned in once. */
export function carryDial(way: Way, o: Occurrence): string[] {
  const step = o.step.syntax as DialStep;
  const { line } = o.step;
  const moved = movedOf(way, 'result');
  const shown = numberIn(o.after, way.from, 'result');
  const value = lowered(shown, moved);
  if (value === undefined || placesOf(value) > way.to.result) {
    return refuse({
      kind: 'limit',
      line,
      limit: 'result',
      has: way.to.result,
      needs: Math.max(placesOf(value ?? shown), way.to.result + 1),
    });
  }
  const { figures, at } = step.part;
  const isAlone = moved === 0 && at === undefined;
  const isValue = figures.kind === 'number' ? figures.isValue : o.run.run.order.values.get(figures.name)?.isValue;
  if (way.to.dials) {
    const isTooLong = figures.kind === 'number' && !isValue && figures.figures.length > way.to.result;
    if ((moved === 0 || (isValue && !isTooLong)) && !isTooLong) return [print(step)];
    return figures.kind === 'name' ? refuse({ kind: 'varies', line, what: 'dial' }) : [`dial result ${value}`];
  }
  const isSameMarker = !isValue || pointOf(o.before, 'setting') === pointOf(o.before, 'result');
  const own = figures.kind === 'number' ? figures.text : figures.name;
  const text = isAlone && isSameMarker ? own : undefined;
  if (figures.kind === 'name' && (!text || placesOf(value) > way.to.setting))
    refuse({ kind: 'varies', line, what: 'dial' });
  const position = positionAt(way, spotBefore(o));
  if (position === 0) return refuse({ kind: 'device', line, device: 'dial' });
  const counted = o.run.totalsBefore(o.first).counter;
  const entered = enterResult(way, spotAfter(o), value, { position, counted, ...(text !== undefined && { text }) });
  return ['clear result', ...entered];
}

/** Back transfer; without it, the reading is set on the levers. */
export function carryTransfer(way: Way, o: Occurrence): string[] {
  const { register } = o.step.syntax as TransferStep;
  const { line } = o.step;
  const { to } = way;
  const setting = numberIn(o.after, way.from, 'setting');
  const own = print(o.step.syntax);
  const device = `transfer ${register}` as const;
  const position = positionAt(way, spotBefore(o));
  const hasIt = register === 'result' ? to.transferResult !== 'none' : to.transferCounter;
  const moved = movedOf(way, register) === 0 && way.moved.setting === 0;
  if (hasIt && moved) {
    const shown = numberIn(o.before, way.from, register);
    const isHome = register === 'counter' || position === 1;
    if (isHome || to.transferResult === 'anywhere') return [own];
    // In position 1 the levers take the units too: they must be what was transferred.
    if (shown === setting) return [...shifts(position, 1), own, ...shifts(1, position)];
  }
  const value = lowered(setting, way.moved.setting);
  if (value === undefined || placesOf(value) > to.setting) {
    return refuse({ kind: 'limit', line, limit: 'setting', has: to.setting, needs: placesOf(value ?? setting) });
  }
  if (register === 'counter' && to.counter === 0) return refuse({ kind: 'device', line, device });
  const note = `note ${JSON.stringify(way.notes.readReading(register))}`;
  return [note, `clear ${register}`, value === 0n ? 'clear setting' : `set ${value}`];
}
