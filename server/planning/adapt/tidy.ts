/**
 * Takes out what carrying over step by step leaves behind: levers put back only to be put over again, settings that
 * nothing uses, clearing of what is clear.
 *
 * Invariant: no step that was written by hand is taken out but a setting in whose place another one was made, and the
 * drive moved over for a division that the machine made by itself.
 */
import type { Draft, Piece } from './draft.js';

export function tidy(draft: Draft): void {
  postponeLevers(draft);
  dropDrive(draft);
  dropEntering(draft);
  for (let isChanged = true; isChanged; ) {
    isChanged = false;
    for (const lever of ['mode', 'count'] as const) isChanged = dropLever(draft, lever) || isChanged;
    isChanged = dropSetting(draft) || isChanged;
    isChanged = dropClearing(draft) || isChanged;
  }
  mergeShifts(draft);
}

const isProse = ({ text }: Piece): boolean => /^(?:note|caution) /.test(text);
const isBarrier = ({ text }: Piece): boolean => /^(?:repeat |\}|run )/.test(text);
const isMachineWork = ({ text }: Piece): boolean => /^(?:turn|multiply|divide|auto-divide)/.test(text);

/** What happened in a turn is read right behind it: levers are put back after that. */
export function postponeLevers(draft: Draft): void {
  const { pieces } = draft;
  for (let i = pieces.length - 2; i >= 0; i--) {
    const [piece, next] = [pieces[i], pieces[i + 1]];
    const isMade = !piece.isOwn && /^(?:mode|count|set|clear setting)\b/.test(piece.text);
    const isFixed = /^(?:set|clear)/.test(piece.text) && / setting /.test(`${next.text} `);
    if (!isMade || isFixed || !/^expect .*\b(?:bell|overflow|overdraw)\b/.test(next.text)) continue;
    draft.postpone(piece, next);
    // The one before may have to follow: in their old order, behind the reading.
    pieces.splice(i, 2, next, piece);
  }
}

/** Division by hand moves the drive itself: what stood around the machine's own division is of no use there. */
function dropDrive(draft: Draft): void {
  const pieces = draft.pieces.filter((piece) => !isProse(piece));
  const decides = (p: Piece) => p.text.startsWith('mode ') || isBarrier(p) || isMachineWork(p) || /half/.test(p.text);
  const dropped = new Set<Piece>();
  for (const [i, piece] of pieces.entries()) {
    if (piece.isOwn || !piece.text.startsWith('divide')) continue;
    const before = pieces.slice(0, i).findLast(decides);
    const after = nextOf(pieces, i, decides);
    if (before?.text !== 'mode subtract' || after?.text !== 'mode add') continue;
    dropped.add(before).add(after);
  }
  draft.remove(dropped);
}

/** What was dialled, and would be turned in only to be cleared away before anybody has read it. */
function dropEntering(draft: Draft): void {
  const pieces = draft.pieces.filter((piece) => !isProse(piece));
  const isTouching = (p: Piece) =>
    isBarrier(p) || isMachineWork(p) || p.text === 'transfer result' || /^(?:clear|dial) .*\bresult\b/.test(p.text);
  const isReading = ({ text }: Piece) => /^(?:expect|ask) /.test(text) && /result|bell|over/.test(text);
  const dropped = new Set<Piece>();
  for (const [i, { of, key, isOwn }] of pieces.entries()) {
    if (of !== 'dial' || isOwn || pieces[i + 1]?.key === key) continue;
    const next = nextOf(pieces, i, (p) => isTouching(p) || isReading(p) || p.text === 'clear all');
    if (next && !next.isOwn && next.text === 'clear result') {
      for (const piece of pieces) if (piece.key === key) dropped.add(piece);
    }
  }
  draft.remove(dropped);
}

/** The next piece of a kind behind another. */
function nextOf(pieces: readonly Piece[], at: number, isWanted: (piece: Piece) => boolean): Piece | undefined {
  for (let i = at + 1; i < pieces.length; i++) if (isWanted(pieces[i])) return pieces[i];
  return undefined;
}

/** A lever that is put over again before it does anything, or that stands so already. */
function dropLever(draft: Draft, lever: 'mode' | 'count'): boolean {
  const pieces = draft.pieces.filter((piece) => !isProse(piece));
  const dropped = new Set<Piece>();
  const isLever = ({ text }: Piece) => text.startsWith(`${lever} `);
  const decides = (p: Piece) => isLever(p) || isBarrier(p) || isMachineWork(p) || /half/.test(p.text);
  let stands: string | undefined = lever === 'mode' ? 'mode add' : 'count plus';
  for (const [i, piece] of pieces.entries()) {
    if (isBarrier(piece) || /^(?:auto-divide|shift .*half|turn until stop)/.test(piece.text)) stands = undefined;
    if (!isLever(piece)) continue;
    const next = piece.isOwn ? undefined : nextOf(pieces, i, decides);
    if (!piece.isOwn && (piece.text === stands || (next && isLever(next)))) dropped.add(piece);
    else stands = piece.text;
  }
  draft.remove(dropped);
  return dropped.size > 0;
}

/** A setting that is set afresh before it is used. */
function dropSetting(draft: Draft): boolean {
  const pieces = draft.pieces.filter((piece) => !isProse(piece));
  const dropped = new Set<Piece>();
  const sets = ({ text }: Piece) => /^(?:set |clear (?:all|setting))/.test(text);
  const uses = ({ text }: Piece) => /^transfer /.test(text) || (!text.startsWith('points ') && / setting\b/.test(text));
  const decides = (p: Piece) => sets(p) || isBarrier(p) || isMachineWork(p) || uses(p);
  for (const [i, piece] of pieces.entries()) {
    if (!/^(?:set |clear setting$)/.test(piece.text)) continue;
    const next = nextOf(pieces, i, decides);
    const isReplaced = next !== undefined && sets(next);
    if (isReplaced && (!piece.isOwn || (!next.isOwn && next.text.startsWith('set ')))) dropped.add(piece);
  }
  draft.remove(dropped);
  return dropped.size > 0;
}

/** Clearing a register that is clear. */
function dropClearing(draft: Draft): boolean {
  const dropped = new Set<Piece>();
  const isClear = { result: false, counter: false };
  for (const piece of draft.pieces) {
    const register = !piece.isOwn && /^clear (result|counter)$/.exec(piece.text)?.[1];
    if ((register === 'result' || register === 'counter') && isClear[register]) dropped.add(piece);
    for (const each of ['result', 'counter'] as const) {
      if (clears(piece, each)) isClear[each] = true;
      else if (isBarrier(piece) || isMachineWork(piece) || changes(piece, each)) isClear[each] = false;
    }
  }
  draft.remove(dropped);
  return dropped.size > 0;
}

const clears = ({ text }: Piece, register: string): boolean =>
  /^clear /.test(text) && (text === 'clear all' || text.split(' ').includes(register));
const changes = ({ text }: Piece, register: string): boolean =>
  text.startsWith(register === 'result' ? 'dial ' : 'transfer ') || text === `transfer ${register}`;

/** A made shift right before the carriage is brought to a place: from where does not matter. */
function mergeShifts(draft: Draft): void {
  const pieces = draft.pieces.filter((piece) => !isProse(piece));
  const dropped = new Set<Piece>();
  for (const [i, piece] of pieces.entries()) {
    const next = pieces[i + 1];
    if (piece.isOwn || !/^shift (?:right|left|to)\b(?!.*half)/.test(piece.text)) continue;
    if (next && /^shift to /.test(next.text) && piece.line !== next.line) dropped.add(piece);
  }
  draft.remove(dropped);
}
