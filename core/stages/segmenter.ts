import type { Bin } from './bin.ts';
import type { Ammeter } from './board.ts';
import { Cusum } from './control-chart.ts';
import { NoiseMeter } from './noise.ts';
import { copyPiece, extendPiece, type FeedState, type Piece, pieceOf } from './piece.ts';

/** Bins of the newest piece that are kept, to find where a slow change began. */
const MEMORY = 256;
/** Seconds over which the level is followed: what changes slower is a slope, not a step. */
const FOLLOW_TICKS = 10_000;
/** A step is at least this share of the level. */
const SHARE = 0.06;
/**
 * From this interval on a level may last two readings: cuts are then offered at 2.5 sigma, which
 * costs little because there are few readings, and the exact pass takes the false ones back.
 */
const SLOW_TICKS = 3000;
const SLOW_BAND = 2.5;
/** Most noise that a busy draw has, as a share of its level. */
const MOST_BUSY = 0.15;

/**
 * Cuts bins into pieces about one level, one bin at a time. Two detectors run side by side: a band
 * about the followed level (5 sigma of the adaptive noise, 1.6 counts, 6 % of the level, whichever
 * is widest) for steps that show at once, and a two-sided CUSUM in units of sigma for small ones,
 * which tells where they began. Too many cuts are joined later by an exact pass; a missed one is
 * lost.
 */
export class Segmenter {
  readonly pieces: Piece[] = [];
  readonly noise = new NoiseMeter();
  private readonly cusum = new Cusum(0.7, 9);
  private recent: { bin: Bin; feed: FeedState; sigma: number }[] = [];
  private level = 0;
  private volts = Number.NaN;
  private settled = 0;
  private quietest = Number.POSITIVE_INFINITY;

  push(bin: Bin, feed: FeedState): void {
    if (bin.afterGap) this.noise.skip();
    this.noise.push(bin.amps);
    const sigma = this.sigmaNow();
    const open = this.pieces[this.pieces.length - 1];
    if (open === undefined || open.feed !== feed || this.leaves(bin, sigma, open)) {
      this.start(bin, feed, sigma);
      return;
    }
    extendPiece(open, bin, sigma);
    this.follow(bin, feed, sigma, open);
  }

  /** Resolution and own noise of the ammeter: the least noise that has been seen. */
  ammeter(): Ammeter {
    const countA = this.noise.quantum();
    const seen = Number.isFinite(this.quietest) ? this.quietest : this.noise.sigma();
    return { countA, quietA: Math.max(seen, countA / Math.sqrt(12)) };
  }

  /** The pieces as they would stand with one more bin, which is not taken in yet. */
  preview(bin: Bin, feed: FeedState): Piece[] {
    const pieces = this.pieces.slice();
    const sigma = this.sigmaNow();
    const open = pieces[pieces.length - 1];
    if (open === undefined || open.feed !== feed || this.leaves(bin, sigma, open)) {
      pieces.push(pieceOf(bin, feed, sigma));
    } else {
      const copy = copyPiece(open);
      extendPiece(copy, bin, sigma);
      pieces[pieces.length - 1] = copy;
    }
    return pieces;
  }

  /** Forgets pieces that ended before `tick`; the newest always stays. */
  dropBefore(tick: number): void {
    let count = 0;
    while (count < this.pieces.length - 1 && this.pieces[count]!.tick < tick) count++;
    if (count > 0) this.pieces.splice(0, count);
  }

  /**
   * Noise that the newest level can have: the noise of a busy draw does not follow it down to a low
   * level, where only the instrument's own is left.
   */
  private sigmaNow(): number {
    const sigma = this.noise.sigma();
    if (this.noise.isFull()) this.quietest = Math.min(this.quietest, sigma);
    if (!Number.isFinite(this.quietest)) return sigma;
    return Math.min(sigma, Math.max(1.5 * this.quietest, MOST_BUSY * Math.abs(this.level)));
  }

  private leaves(bin: Bin, sigma: number, open: Piece): boolean {
    const level = this.level;
    const slow = bin.tick - open.lastTick >= SLOW_TICKS;
    const band = Math.max(
      (slow ? SLOW_BAND : 5) * sigma * Math.sqrt(1 + 1 / this.settled),
      1.6 * this.noise.quantum(),
      SHARE * Math.abs(level),
      0.0006,
    );
    if (Math.abs(bin.amps - level) > band) return true;
    if (Number.isNaN(bin.volts) || Number.isNaN(this.volts)) return false;
    return Math.abs(bin.volts - this.volts) > Math.max(0.06 * Math.abs(this.volts), 0.25);
  }

  private start(bin: Bin, feed: FeedState, sigma: number): void {
    this.pieces.push(pieceOf(bin, feed, sigma));
    this.level = bin.amps;
    this.volts = bin.volts;
    this.settled = 1;
    this.recent = [{ bin, feed, sigma }];
    this.cusum.reset();
  }

  private follow(bin: Bin, feed: FeedState, sigma: number, open: Piece): void {
    const last = this.recent[this.recent.length - 1]!.bin;
    this.recent.push({ bin, feed, sigma });
    if (this.recent.length > 2 * MEMORY) this.recent = this.recent.slice(-MEMORY);
    const scale = Math.max(sigma, 0.015 * Math.abs(this.level), this.noise.quantum() * 0.4);
    const off = (bin.amps - this.level) / scale;
    const signal = this.cusum.push(Math.max(-4, Math.min(4, off)));
    if (signal !== 0) {
      const since = signal > 0 ? this.cusum.highSince : this.cusum.lowSince;
      this.splitBack(since, open);
      return;
    }
    this.settled++;
    const share = Math.min(0.5, Math.max(0.03, (bin.tick - last.tick) / FOLLOW_TICKS));
    this.level += (bin.amps - this.level) * Math.max(1 / this.settled, share);
    if (!Number.isNaN(bin.volts)) {
      this.volts = Number.isNaN(this.volts)
        ? bin.volts
        : this.volts + (bin.volts - this.volts) * Math.max(1 / this.settled, share);
    }
  }

  /** Moves the newest `since` bins of the open piece into a piece of their own. */
  private splitBack(since: number, open: Piece): void {
    const kept = this.recent.length - since;
    if (since >= open.bins || kept < 1) {
      this.cusum.reset();
      return;
    }
    const moved = this.recent.slice(kept);
    if (open.bins <= this.recent.length) {
      const first = this.recent[this.recent.length - open.bins]!;
      const again = pieceOf(first.bin, first.feed, first.sigma);
      for (const r of this.recent.slice(this.recent.length - open.bins + 1, kept)) {
        extendPiece(again, r.bin, r.sigma);
      }
      this.pieces[this.pieces.length - 1] = again;
    } else {
      trimPiece(
        open,
        moved.map((m) => m.bin),
      );
    }
    this.start(moved[0]!.bin, moved[0]!.feed, moved[0]!.sigma);
    const fresh = this.pieces[this.pieces.length - 1]!;
    for (const m of moved.slice(1)) {
      extendPiece(fresh, m.bin, m.sigma);
      this.recent.push(m);
      this.settled++;
      this.level += (m.bin.amps - this.level) / this.settled;
    }
  }
}

/** Takes bins off the end of a long piece: its extremes stay, its sums give them back. */
function trimPiece(piece: Piece, bins: readonly Bin[]): void {
  for (let i = bins.length - 1; i >= 0; i--) {
    const bin = bins[i]!;
    const left = piece.bins - 1;
    const mean = (piece.amps * piece.bins - bin.amps) / left;
    piece.squares = Math.max(0, piece.squares - (bin.amps - mean) * (bin.amps - piece.amps));
    piece.amps = mean;
    piece.bins = left;
    piece.samples -= bin.samples;
    piece.ampsSum -= bin.ampsSum;
    piece.withinSquares = Math.max(0, piece.withinSquares - bin.withinSquares);
  }
  const from = bins[0]!.tick;
  piece.blocks = piece.blocks.filter((b) => b.tick < from);
  piece.lastTick = from - 1;
}
