import { TICKS_PER_SECOND } from '../trace/sample.ts';
import type { Ammeter } from './board.ts';
import { besideSlope } from './climb.ts';
import { type Piece, pieceSd } from './piece.ts';
import type { Span } from './span.ts';

/** Share of the way to the new level at which a step has arrived. */
const ARRIVED = 0.9;
/** Times the ammeter's own noise that a movement has to be to be the draw's. */
const STANDS_OUT = 1.5;

/**
 * Standard uncertainty of a piece's mean in amps: scatter over the root of the number of bins (type
 * A) and half the last digit as a rectangular distribution, count / sqrt 12 (type B), added as
 * squares (JCGM 100:2008, 4.2.3, 4.3.7 and 5.1.2).
 */
export function meanUncertaintyA(piece: Piece, ammeter: Pick<Ammeter, 'countA'>): number {
  const scatter = pieceSd(piece) / Math.sqrt(piece.bins);
  return Math.hypot(scatter, ammeter.countA / Math.sqrt(12));
}

/**
 * What a draw moves by beside its level or slope, root mean square in amps, ripple faster than a bin
 * of 20 ms included; null where the ammeter's own noise explains it.
 */
export function rippleA(piece: Piece, ammeter: Ammeter): number | null {
  if (piece.bins < 4) return null;
  const within = piece.withinSquares / piece.samples;
  const ripple = Math.hypot(besideSlope(piece), Math.sqrt(within));
  // The noise of one reading is that of a bin's middle times the root of the readings in it.
  const noise = ammeter.quietA * Math.sqrt(piece.samples / piece.bins);
  return ripple > STANDS_OUT * Math.max(noise, ammeter.countA / Math.sqrt(12)) ? ripple : null;
}

/**
 * Seconds from the last reading at the level before to the first that had gone nine tenths of the
 * way to the new one; null across missing readings.
 */
export function riseS(before: Span, span: Span): number | null {
  const [from, to] = [before.piece.amps, span.piece.amps];
  if (span.piece.afterGap) return null;
  const arrived = span.piece.blocks.find(
    (block) => (block.amps - from) * Math.sign(to - from) >= ARRIVED * Math.abs(to - from),
  );
  const at = arrived?.tick ?? span.piece.tick;
  return Math.max(0, at - before.piece.lastTick) / TICKS_PER_SECOND;
}
