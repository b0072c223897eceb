/** What a trial shows to be wanting, and a further step puts right. */
import type { Source, Tried } from './causes.js';
import type { Draft, Piece } from './draft.js';
import { postponeLevers } from './tidy.js';
import { keyOf } from './walk.js';
import type { Way } from './way.js';

/** Puts steps in. Returns whether there were any, so that it has to be tried again. */
export function mend(draft: Draft, tried: Tried, source: Source, way: Way): boolean {
  const mended = new Set<Piece>();
  for (const { facts, at } of tried.report.findings) {
    const piece = tried.pieceOf.get(`${at.line}:${at.from}`)?.piece;
    const isOld = source.report.findings.some((old) => old.at.line === piece?.line && old.facts.code === facts.code);
    if (!piece || isOld || mended.has(piece)) continue;
    const isPutRight =
      facts.code === 'result-overflow'
        ? way.byComplement && expectOverflow(draft, piece)
        : (facts.code === 'counter-overflow' || facts.code === 'counter-underflow') &&
          !isCounterRead(piece, source, way) &&
          easeCounter(draft, piece, facts.code === 'counter-underflow', way);
    if (isPutRight) mended.add(piece);
  }
  return mended.size > 0;
}

/** A complement that was added passes the top of the result, and is meant to. */
function expectOverflow(draft: Draft, piece: Piece): boolean {
  if (!piece.text.startsWith('turn')) return false;
  draft.insert(made('expect overflow', piece), piece);
  return true;
}

function isCounterRead({ key }: Piece, { walks }: Source, way: Way): boolean {
  // What is only expected is told where it changes, and must not be cleared away.
  if (way.strictness === 'wanted') return true;
  return walks.some((walk) => {
    const lives = way.liveness.get(walk);
    const own = walk.occurrences.filter(({ step }) => keyOf(step) === key);
    return own.some(({ first, end }) => lives?.counter(first) || lives?.counter(end));
  });
}

/** A counter that nobody reads is cleared before it runs over, or made to count the other way. */
function easeCounter(draft: Draft, piece: Piece, isBelow: boolean, { to }: Way): boolean {
  const { pieces } = draft;
  const at = pieces.indexOf(piece);
  const before = pieces[at - 1];
  if (!before || before.text === 'clear counter') return false;
  if (!isBelow || to.count === 'first') {
    draft.insert(made('clear counter', piece), before);
    return true;
  }
  if (to.count !== 'lever' || !/^(?:turn|multiply)/.test(piece.text)) return false;
  const stands = pieces.slice(0, at).findLast(({ text }) => text.startsWith('count '))?.text ?? 'count plus';
  if (before.text.startsWith('count ')) return false;
  draft.insert(made(stands === 'count plus' ? 'count minus' : 'count plus', piece), before);
  draft.insert(made(stands, piece), piece);
  postponeLevers(draft);
  return true;
}

const made = (text: string, { line, key, of }: Piece): Piece => ({ text, line, key, isOwn: false, of });
