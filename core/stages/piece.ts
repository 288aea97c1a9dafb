import type { Bin } from './bin.ts';

/** What the supply itself was doing: output off, at its limit, or feeding. */
export type FeedState = 'off' | 'limit' | 'on';

/** Mean of a short stretch inside a piece: what slopes are judged by. */
export interface Block {
  readonly tick: number;
  readonly bins: number;
  readonly amps: number;
}

/** A stretch of bins about one level, with what is needed to join, name and explain it. */
export interface Piece {
  feed: FeedState;
  tick: number;
  lastTick: number;
  bins: number;
  samples: number;
  /** Moments of the bins' amps. */
  amps: number;
  squares: number;
  /** Sum and count of squared differences of neighbouring bins. */
  diffSquares: number;
  diffs: number;
  ampsSum: number;
  /** Squared deviations of readings from their own bin's mean: what moves faster than a bin. */
  withinSquares: number;
  ampsMin: number;
  ampsMax: number;
  /** Tick of the bin with the highest reading. */
  peakTick: number;
  firstAmps: number;
  lastAmps: number;
  volts: number;
  voltsBins: number;
  voltsMin: number;
  voltsMax: number;
  firstVolts: number;
  lastVolts: number;
  ccBins: number;
  toldBins: number;
  afterGap: boolean;
  /** Ticks inside it over which nothing was read. */
  gapTicks: number;
  /** Noise sigma in amps when the piece ended. */
  sigma: number;
  blocks: Block[];
  blockTicks: number;
}

const BLOCKS = 128;

/** A piece of one bin. */
export function pieceOf(bin: Bin, feed: FeedState, sigma: number): Piece {
  const hasVolts = !Number.isNaN(bin.volts);
  return {
    feed,
    tick: bin.tick,
    lastTick: bin.lastTick,
    bins: 1,
    samples: bin.samples,
    amps: bin.amps,
    squares: 0,
    diffSquares: 0,
    diffs: 0,
    ampsSum: bin.ampsSum,
    withinSquares: bin.withinSquares,
    ampsMin: bin.ampsMin,
    ampsMax: bin.ampsMax,
    peakTick: bin.tick,
    firstAmps: bin.amps,
    lastAmps: bin.amps,
    volts: hasVolts ? bin.volts : Number.NaN,
    voltsBins: hasVolts ? 1 : 0,
    voltsMin: hasVolts ? bin.volts : Number.POSITIVE_INFINITY,
    voltsMax: hasVolts ? bin.volts : Number.NEGATIVE_INFINITY,
    firstVolts: bin.volts,
    lastVolts: bin.volts,
    ccBins: bin.regulation === 'cc' ? 1 : 0,
    toldBins: bin.regulation === null ? 0 : 1,
    afterGap: bin.afterGap,
    gapTicks: 0,
    sigma,
    blocks: [{ tick: bin.tick, bins: 1, amps: bin.amps }],
    blockTicks: 1000,
  };
}

/** Adds a bin at the end of a piece. */
export function extendPiece(piece: Piece, bin: Bin, sigma: number): void {
  piece.bins++;
  const off = bin.amps - piece.amps;
  piece.amps += off / piece.bins;
  piece.squares += off * (bin.amps - piece.amps);
  const step = bin.amps - piece.lastAmps;
  if (!bin.afterGap) {
    piece.diffSquares += step * step;
    piece.diffs++;
  }
  if (bin.afterGap) piece.gapTicks += bin.tick - piece.lastTick;
  piece.lastAmps = bin.amps;
  piece.lastTick = bin.lastTick;
  piece.samples += bin.samples;
  piece.ampsSum += bin.ampsSum;
  piece.withinSquares += bin.withinSquares;
  piece.ampsMin = Math.min(piece.ampsMin, bin.ampsMin);
  if (bin.ampsMax > piece.ampsMax) {
    piece.ampsMax = bin.ampsMax;
    piece.peakTick = bin.tick;
  }
  if (!Number.isNaN(bin.volts)) {
    piece.voltsBins++;
    piece.volts =
      piece.voltsBins === 1 ? bin.volts : piece.volts + (bin.volts - piece.volts) / piece.voltsBins;
    piece.voltsMin = Math.min(piece.voltsMin, bin.volts);
    piece.voltsMax = Math.max(piece.voltsMax, bin.volts);
    if (Number.isNaN(piece.firstVolts)) piece.firstVolts = bin.volts;
    piece.lastVolts = bin.volts;
  }
  if (bin.regulation === 'cc') piece.ccBins++;
  if (bin.regulation !== null) piece.toldBins++;
  piece.sigma = sigma;
  addBlock(piece, { tick: bin.tick, bins: 1, amps: bin.amps });
}

function addBlock(piece: Piece, block: Block): void {
  const last = piece.blocks[piece.blocks.length - 1];
  if (last !== undefined && block.tick - last.tick < piece.blockTicks) {
    piece.blocks[piece.blocks.length - 1] = joinBlocks(last, block);
    return;
  }
  piece.blocks.push(block);
  if (piece.blocks.length <= BLOCKS) return;
  piece.blockTicks *= 2;
  piece.blocks = coarser(piece.blocks, piece.blockTicks);
}

/** Two neighbouring blocks as one. */
export function joinBlocks(a: Block, b: Block): Block {
  const bins = a.bins + b.bins;
  return { tick: a.tick, bins, amps: a.amps + ((b.amps - a.amps) * b.bins) / bins };
}

function coarser(blocks: readonly Block[], ticks: number): Block[] {
  const out: Block[] = [];
  for (const block of blocks) {
    const last = out[out.length - 1];
    if (last !== undefined && block.tick - last.tick < ticks) {
      out[out.length - 1] = joinBlocks(last, block);
    } else out.push(block);
  }
  return out;
}

/** Two neighbouring pieces as one; the first one's feed state wins unless the second is longer. */
export function joinPieces(a: Piece, b: Piece): Piece {
  const bins = a.bins + b.bins;
  const off = b.amps - a.amps;
  const voltsBins = a.voltsBins + b.voltsBins;
  const step = b.firstAmps - a.lastAmps;
  let blockTicks = Math.max(a.blockTicks, b.blockTicks);
  let blocks = [...a.blocks, ...b.blocks];
  while (blocks.length > BLOCKS) {
    blockTicks *= 2;
    blocks = coarser(blocks, blockTicks);
  }
  return {
    feed: b.bins > a.bins ? b.feed : a.feed,
    tick: a.tick,
    lastTick: b.lastTick,
    bins,
    samples: a.samples + b.samples,
    amps: a.amps + (off * b.bins) / bins,
    squares: a.squares + b.squares + (off * off * a.bins * b.bins) / bins,
    diffSquares: a.diffSquares + b.diffSquares + (b.afterGap ? 0 : step * step),
    diffs: a.diffs + b.diffs + (b.afterGap ? 0 : 1),
    ampsSum: a.ampsSum + b.ampsSum,
    withinSquares: a.withinSquares + b.withinSquares,
    ampsMin: Math.min(a.ampsMin, b.ampsMin),
    ampsMax: Math.max(a.ampsMax, b.ampsMax),
    peakTick: b.ampsMax > a.ampsMax ? b.peakTick : a.peakTick,
    firstAmps: a.firstAmps,
    lastAmps: b.lastAmps,
    volts:
      voltsBins === 0
        ? Number.NaN
        : ((a.voltsBins > 0 ? a.volts * a.voltsBins : 0) +
            (b.voltsBins > 0 ? b.volts * b.voltsBins : 0)) /
          voltsBins,
    voltsBins,
    voltsMin: Math.min(a.voltsMin, b.voltsMin),
    voltsMax: Math.max(a.voltsMax, b.voltsMax),
    firstVolts: Number.isNaN(a.firstVolts) ? b.firstVolts : a.firstVolts,
    lastVolts: Number.isNaN(b.lastVolts) ? a.lastVolts : b.lastVolts,
    ccBins: a.ccBins + b.ccBins,
    toldBins: a.toldBins + b.toldBins,
    afterGap: a.afterGap,
    gapTicks: a.gapTicks + b.gapTicks + (b.afterGap ? b.tick - a.lastTick : 0),
    sigma: b.bins > a.bins ? b.sigma : a.sigma,
    blocks,
    blockTicks,
  };
}

/** Standard deviation of a piece's bins in amps. */
export function pieceSd(piece: Piece): number {
  return piece.bins > 1 ? Math.sqrt(piece.squares / (piece.bins - 1)) : 0;
}

/** A piece that can be changed without changing the first. */
export function copyPiece(piece: Piece): Piece {
  return { ...piece, blocks: [...piece.blocks] };
}
