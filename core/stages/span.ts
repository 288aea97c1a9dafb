import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { fitLine } from '../trace/straight-line.ts';
import { penalisedPartition } from './change-points.ts';
import { joinPieces, type Piece } from './piece.ts';

/** A piece with the time that it stands for: up to the next piece, or to the newest reading. */
export interface Span {
  readonly piece: Piece;
  readonly start: number;
  readonly end: number;
}

/** Seconds that a span lasts. */
export function spanS(span: Span): number {
  return (span.end - span.start) / TICKS_PER_SECOND;
}

/** Pieces in order as spans; each lasts until the next begins, the last until `endTick`. */
export function spansOf(pieces: readonly Piece[], endTick: number): Span[] {
  return pieces.map((piece, i) => ({
    piece,
    start: piece.tick,
    end: i + 1 < pieces.length ? pieces[i + 1]!.tick : Math.max(endTick, piece.lastTick),
  }));
}

/** Spans `from` (included) to `to` (not included) as one. */
export function joinSpans(spans: readonly Span[], from: number, to: number): Span {
  let piece = spans[from]!.piece;
  for (let i = from + 1; i < to; i++) piece = joinPieces(piece, spans[i]!.piece);
  return { piece, start: spans[from]!.start, end: spans[to - 1]!.end };
}

/** Effective count beyond which a longer stretch does not weigh more: levels count, not lengths. */
const WEIGHT_CAP = 40;
/** Share of the level below which a difference does not matter, whatever the noise. */
const MATTERS = 0.05;
/** Most noise that a busy draw has, as a share of its level. */
const MOST_BUSY = 0.15;
/** Cost of a cut in units of squared deviation over variance. */
const PENALTY = 12;

/**
 * Takes back cuts that the noise explains: the exact penalised partition over the candidate cuts,
 * with each piece weighed by its own noise and by 5 % of its level. `quietA` is the instrument's own
 * noise. Cuts where the supply changed what it does, or the volts moved, stay.
 */
export function joinAlike(spans: readonly Span[], quietA: number): Span[] {
  const out: Span[] = [];
  let from = 0;
  for (let i = 1; i <= spans.length; i++) {
    if (i < spans.length && !hardCut(spans[i - 1]!.piece, spans[i]!.piece)) continue;
    partitionRun(spans, from, i, quietA, out);
    from = i;
  }
  return out;
}

function hardCut(a: Piece, b: Piece): boolean {
  if (a.feed !== b.feed) return true;
  if (a.voltsBins === 0 || b.voltsBins === 0) return false;
  return Math.abs(a.volts - b.volts) > Math.max(0.08 * Math.max(a.volts, b.volts), 0.3);
}

function partitionRun(
  spans: readonly Span[],
  from: number,
  to: number,
  quietA: number,
  out: Span[],
): void {
  const n = to - from;
  if (n <= 1) {
    if (n === 1) out.push(spans[from]!);
    return;
  }
  const cells = {
    weight: new Float64Array(n),
    mean: new Float64Array(n),
    squares: new Float64Array(n),
  };
  for (let i = 0; i < n; i++) {
    const p = spans[from + i]!.piece;
    const most = Math.max(1.5 * quietA, MOST_BUSY * Math.abs(p.amps));
    const sigma = Math.max(quietA, Math.min(p.sigma, most));
    const variance = sigma * sigma + (MATTERS * p.amps) ** 2 + 1e-8;
    cells.weight[i] = Math.min(p.bins, WEIGHT_CAP) / variance;
    cells.mean[i] = p.amps;
  }
  let start = 0;
  for (const end of penalisedPartition(cells, PENALTY).ends) {
    out.push(joinSpans(spans, from + start, from + end));
    start = end;
  }
}

/** Change of level from a piece's start to its end by a straight line through its blocks, in amps. */
export function driftOf(piece: Piece): number {
  const { blocks } = piece;
  if (blocks.length < 3) return piece.lastAmps - piece.firstAmps;
  const line = fitLine(
    blocks.map((b) => (b.tick - blocks[0]!.tick) / TICKS_PER_SECOND),
    blocks.map((b) => b.amps),
    blocks.map((b) => b.bins),
  );
  return (line.slope * (piece.lastTick - piece.tick)) / TICKS_PER_SECOND;
}

/**
 * Joins neighbours that one slope runs through: both drift the way that their levels differ, and at
 * the border they meet within 35 % of that difference. Two flat levels with a step between do not.
 */
export function joinSlopes(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (const span of spans) {
    const last = out[out.length - 1];
    if (last !== undefined && oneSlope(last.piece, span.piece)) {
      out[out.length - 1] = joinSpans([last, span], 0, 2);
    } else out.push(span);
  }
  return out;
}

const EDGE_BLOCKS = 6;

function oneSlope(a: Piece, b: Piece): boolean {
  if (a.feed !== b.feed || a.bins < 3 || b.bins < 3 || hardCut(a, b)) return false;
  const difference = b.amps - a.amps;
  if (a.blocks.length >= 3 && b.blocks.length >= 3 && a.bins >= 5 && b.bins >= 5) {
    const before = edge(a.blocks.slice(-EDGE_BLOCKS), b.tick);
    const after = edge(b.blocks.slice(0, EDGE_BLOCKS), b.tick);
    if (Math.abs(after - before) < 0.35 * Math.abs(difference)) return true;
  }
  // Short pieces of a fast slope: their own drift and the single readings at the border tell.
  const way = Math.sign(difference);
  const least = 0.2 * Math.abs(difference);
  if (driftOf(a) * way < least || driftOf(b) * way < least) return false;
  if (Math.abs(difference) < 6 * Math.min(a.sigma, b.sigma)) return false;
  return Math.abs(b.firstAmps - a.lastAmps) < 0.35 * Math.abs(difference);
}

function edge(blocks: Piece['blocks'], tick: number): number {
  const line = fitLine(
    blocks.map((b) => b.tick - tick),
    blocks.map((b) => b.amps),
    blocks.map((b) => b.bins),
  );
  return line.intercept;
}
