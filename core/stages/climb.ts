import { type Board, isSmall, levelOf } from './board.ts';
import { type Piece, pieceSd } from './piece.ts';
import { driftOf, joinSpans, type Span, spanS } from './span.ts';

/** What a draw that has left low draw settles to. */
export type Settled = 'running' | 'stalled' | 'flat-high';

/** A stretch of a climb: the staircase, or what it settled to. */
export interface ClimbPart {
  readonly stage: 'stepping' | Settled;
  readonly from: number;
  readonly to: number;
  /** A reset of a running board: the draw dips, steps up and is back at once. */
  readonly restart?: boolean;
}

/** Share of the running level from which a draw counts as running, and above which as high. */
export const RUNS_FROM = 0.8;
export const HIGH_FROM = 1.25;
/** Seconds of flat draw short of running after which a climb has stalled. */
const STALL_S = 3;
/** Seconds above the running level after which it is no load that came and went. */
const STAYS_S = 8;
/** Seconds after which a plateau counts as a stall although the draw rose again later. */
export const LONG_PLATEAU_S = 10;

/**
 * Splits spans `from`..`to` (draw above low, nothing limited or off) into staircase and what it
 * settles to. `ran` tells that the board had been running just before, `stalledA` the level that
 * it had stalled at.
 */
export function splitClimb(
  spans: readonly Span[],
  from: number,
  to: number,
  board: Board,
  ran: boolean,
  stalledA: number | null,
): ClimbPart[] {
  const parts: ClimbPart[] = [];
  let i = from;
  if (stalledA !== null) {
    while (i < to && !climbsOn(spans, stalledA, i, to, board)) i++;
    if (i > from) parts.push({ stage: 'stalled', from, to: i });
  }
  let running = ran;
  while (i < to) {
    const reset = running ? resetEnd(spans, i, to, board) : i;
    if (reset > i) {
      parts.push({ stage: 'stepping', from: i, to: reset, restart: true });
      i = reset;
      continue;
    }
    const settled = running ? i : settlesAt(spans, i, to, board);
    if (settled > i) parts.push({ stage: 'stepping', from: i, to: settled });
    if (settled >= to) break;
    const stage = running ? 'running' : settledName(spans, settled, to, board);
    let end = settled + 1;
    if (stage === 'running') {
      while (end < to && !leavesRunning(spans, end, board)) {
        if (resetEnd(spans, end, to, board) > end) break;
        end++;
      }
      if (settled === i && running && leavesRunning(spans, i, board)) {
        const other = leftName(spans, i, board);
        end = i + 1;
        while (end < to && leavesRunning(spans, end, board)) end++;
        parts.push({ stage: other, from: i, to: end });
        i = end;
        continue;
      }
      running = true;
    } else if (stage === 'stalled') {
      const level = levelOf(spans[settled]!, board.runV);
      while (end < to && !climbsOn(spans, level, end, to, board)) end++;
    } else {
      while (end < to && levelOf(spans[end]!, board.runV) > 1.2 * (board.runA ?? 0)) end++;
      running = true;
    }
    parts.push({ stage, from: settled, to: end });
    i = end;
  }
  return parts;
}

/** Share of the running level under which a running board is not just idle for a moment. */
const RESET_SHARE = 0.35;
/** Seconds that a reset takes at most: one of 1.3 s was seen on a small board. */
const RESET_S = 2;

/**
 * End of a reset of a running board that begins at span `i`: down to a third of the level or less
 * (held in reset), up again in two levels or more short of running, and back within 2 s. `i` when
 * there is none: a single dip is what an idle moment looks like.
 */
function resetEnd(spans: readonly Span[], i: number, to: number, board: Board): number {
  const before = spans[i - 1];
  const ref = board.runA ?? (before === undefined ? 0 : levelOf(before, board.runV));
  if (ref <= 0 || levelOf(spans[i]!, board.runV) > RESET_SHARE * ref) return i;
  let levels = 0;
  for (let k = i; k < to; k++) {
    if ((spans[k]!.start - spans[i]!.start) / 10_000 > RESET_S) return i;
    const share = levelOf(spans[k]!, board.runV) / ref;
    if (share >= RUNS_FROM) return levels >= 3 ? k : i;
    levels++;
  }
  return i;
}

/** Index of the span where the climb from `from` settles; `to` when it does not. */
function settlesAt(spans: readonly Span[], from: number, to: number, board: Board): number {
  for (let j = from; j < to; j++) {
    if (board.runA === null) {
      if (settlesUnknown(spans, j, to, board)) return j;
      continue;
    }
    const level = levelOf(spans[j]!, board.runV);
    const last = j === to - 1;
    const lasts = spanS(spans[j]!);
    if (level >= RUNS_FROM * board.runA) {
      const high = level > HIGH_FROM * board.runA;
      const held = meanAfter(spans, j, to, board, 2);
      const fallsShort = held < 0.75 * board.runA;
      const soon = meanAfter(spans, j, to, board, 4);
      if (!high && !fallsShort && !climbsHigh(spans, j, to, board)) return j;
      const comesBack =
        !fallsShort && (soon < HIGH_FROM * board.runA || returns(spans, j, to, board));
      const stays = lasts >= STALL_S || last || comesBack || staysHigh(spans, j, to, board);
      if (high && stays && !stillClimbs(spans, j, to, board)) return j;
    } else if (lasts >= LONG_PLATEAU_S || restsFrom(spans, j, to, board)) return j;
    else if (busyShort(spans, j, to, board)) return j;
  }
  return to;
}

/** Whether the staircase goes on within 3 s to a level that it does not come down from. */
function stillClimbs(spans: readonly Span[], j: number, to: number, board: Board): boolean {
  const level = levelOf(spans[j]!, board.runV);
  for (let i = j + 1; i < to; i++) {
    if ((spans[i]!.start - spans[j]!.start) / 10_000 > STALL_S) return false;
    if (climbsOn(spans, level, i, to, board)) return true;
  }
  return false;
}

/** Whether a draw at the running level is only passing it on its way to stay well above. */
function climbsHigh(spans: readonly Span[], j: number, to: number, board: Board): boolean {
  for (let i = j + 1; i < to; i++) {
    if ((spans[i]!.start - spans[j]!.start) / 10_000 > STALL_S) return false;
    if (staysHigh(spans, i, to, board)) return true;
  }
  return false;
}

/** Whether a draw above the running level comes back to it within 8 s, as a load that goes does. */
function returns(spans: readonly Span[], j: number, to: number, board: Board): boolean {
  for (let i = j + 1; i < to; i++) {
    if ((spans[i]!.start - spans[j]!.start) / 10_000 > STAYS_S) return false;
    const share = levelOf(spans[i]!, board.runV) / board.runA!;
    if (share < RUNS_FROM) return false;
    if (share <= HIGH_FROM && spanS(spans[i]!) >= 0.5) return true;
  }
  return false;
}

/**
 * Whether the rest of the climb stands about the level of span `j` for 3 s or more, without getting
 * anywhere: one flat span, or several that come and go within a fifth of it.
 */
function restsFrom(spans: readonly Span[], j: number, to: number, board: Board): boolean {
  const level = levelOf(spans[j]!, board.runV);
  for (let i = j + 1; i < to; i++) {
    const now = levelOf(spans[i]!, board.runV);
    if (now > 1.2 * level || now < 0.8 * level) return false;
  }
  const ends = levelOf(spans[to - 1]!, board.runV);
  return ends <= 1.12 * level && (spans[to - 1]!.end - spans[j]!.start) / 10_000 >= STALL_S;
}

/** A busy draw at 0.6 of the running level or more that goes on for 5 s: running lightly. */
function busyShort(spans: readonly Span[], j: number, to: number, board: Board): boolean {
  const mean = meanAfter(spans, j, to, board, 5);
  if (mean < 0.6 * board.runA! || mean >= RUNS_FROM * board.runA!) return false;
  if (levelOf(spans[j]!, board.runV) < 0.6 * board.runA!) return false;
  let end = j + 1;
  while (end < to && (spans[end]!.start - spans[j]!.start) / 10_000 < 5) end++;
  return turns(spans, j, end, board) >= 3;
}

function turns(spans: readonly Span[], from: number, to: number, board: Board): number {
  let count = 0;
  let way = 0;
  for (let i = from + 1; i < to; i++) {
    const now = Math.sign(levelOf(spans[i]!, board.runV) - levelOf(spans[i - 1]!, board.runV));
    if (now !== 0 && now !== way) count++;
    way = now === 0 ? way : now;
  }
  return count;
}

function settlesUnknown(spans: readonly Span[], j: number, to: number, board: Board): boolean {
  const level = levelOf(spans[j]!, board.runV);
  const start = spans[j]!.start;
  for (let m = j + 1; m < to; m++) {
    const after = (spans[m]!.start - start) / 10_000;
    if (after > LONG_PLATEAU_S) break;
    const higher = levelOf(spans[m]!, board.runV);
    const lasts = spanS(spans[m]!);
    if (higher > 1.15 * level && (lasts >= 0.4 || m === to - 1)) {
      if (!returnsUnder(spans, m + 1, to, board, 1.1 * level, 8)) return false;
    }
    if (higher < 0.85 * level && after < 3 && lasts >= 1) {
      if (!returnsOver(spans, m + 1, to, board, 0.9 * level)) return false;
    }
  }
  const last = spans[to - 1]!;
  const lasts = (last.end - start) / 10_000;
  return lasts >= STALL_S || j < to - 2;
}

function returnsUnder(
  spans: readonly Span[],
  from: number,
  to: number,
  board: Board,
  level: number,
  withinS: number,
): boolean {
  for (let i = from; i < to; i++) {
    if ((spans[i]!.start - spans[from - 1]!.start) / 10_000 > withinS) return false;
    if (levelOf(spans[i]!, board.runV) <= level) return true;
  }
  return false;
}

function returnsOver(
  spans: readonly Span[],
  from: number,
  to: number,
  board: Board,
  level: number,
): boolean {
  for (let i = from; i < to; i++) if (levelOf(spans[i]!, board.runV) >= level) return true;
  return false;
}

/** Time-weighted mean level over `seconds` from span `j`, within the climb. */
function meanAfter(
  spans: readonly Span[],
  j: number,
  to: number,
  board: Board,
  seconds: number,
): number {
  const until = spans[j]!.start + seconds * 10_000;
  let sum = 0;
  let time = 0;
  for (let i = j; i < to && spans[i]!.start < until; i++) {
    const lasts = Math.max(1, Math.min(spans[i]!.end, until) - spans[i]!.start);
    sum += lasts * levelOf(spans[i]!, board.runV);
    time += lasts;
  }
  return sum / time;
}

function settledName(spans: readonly Span[], j: number, to: number, board: Board): Settled {
  const level = levelOf(spans[j]!, board.runV);
  if (board.runA === null) {
    let end = j + 1;
    while (end < to && !climbsOn(spans, level, end, to, board)) end++;
    const whole = joinSpans(spans, j, end);
    if (isBusy(whole, board) && !isTwoLevel(whole.piece)) return 'running';
    const jumped = j === 0 || levelOf(spans[j - 1]!, board.runV) <= board.lowA;
    const controller = board.runV !== null && board.runV > 21 && board.runV < 30;
    return jumped && controller && !isSmall(level, board.runV) ? 'running' : 'stalled';
  }
  if (level > HIGH_FROM * board.runA) {
    if (staysHigh(spans, j, to, board)) return 'flat-high';
    if (!isBusy(spans[j]!, board) && (spanS(spans[j]!) >= STALL_S || j === to - 1)) {
      return 'flat-high';
    }
  }
  if (level >= RUNS_FROM * board.runA) return 'running';
  return busyShort(spans, j, to, board) ? 'running' : 'stalled';
}

/** Whether a draw, busy or flat, stays above the running level for 8 s and never comes back to it. */
export function staysHigh(spans: readonly Span[], j: number, to: number, board: Board): boolean {
  if (levelOf(spans[j]!, board.runV) <= HIGH_FROM * board.runA!) return false;
  const start = spans[j]!.start;
  let end = start;
  for (let i = j; i < to && (end - start) / 10_000 < STAYS_S; i++) {
    const level = levelOf(spans[i]!, board.runV);
    if (level < HIGH_FROM * board.runA! && spanS(spans[i]!) > 0.3) return false;
    // Read once a second, loads that come and go are one span that swings down to the level.
    if (level - pieceSd(spans[i]!.piece) < 1.1 * board.runA!) return false;
    end = spans[i]!.end;
  }
  return (end - start) / 10_000 >= STAYS_S;
}

/** Whether a span of a running board is no ordinary load: long, flat and far from its level. */
function leavesRunning(spans: readonly Span[], i: number, board: Board): boolean {
  if (board.runA === null) return false;
  const span = spans[i]!;
  const level = levelOf(span, board.runV);
  if (isBusy(span, board) || spanS(span) < 8) return false;
  return level > HIGH_FROM * board.runA || level < 0.5 * board.runA;
}

function leftName(spans: readonly Span[], i: number, board: Board): Settled {
  return levelOf(spans[i]!, board.runV) > board.runA! ? 'flat-high' : 'stalled';
}

/** Whether a stalled draw climbs on at span `m`: clearly higher, and not back within 8 s. */
function climbsOn(
  spans: readonly Span[],
  level: number,
  m: number,
  to: number,
  board: Board,
): boolean {
  const higher = levelOf(spans[m]!, board.runV);
  if (higher <= 1.15 * level || spanS(spans[m]!) < 0.2) return false;
  return !returnsUnder(spans, m + 1, to, board, 1.1 * level, 8);
}

/** Most that a fan or lamp moves a draw by, as a share of its level. */
const DUTY_SHARE = 0.05;
/** Kurtosis of readings that stand at two levels alike is 1, of evenly spread ones 1.8. */
const TWO_LEVELS = 1.6;

/** Whether a draw goes to and fro between two levels close together: a fan turning, and no work. */
export function isTwoLevel(piece: Piece): boolean {
  const { blocks, amps } = piece;
  if (blocks.length < 12 || besideSlope(piece) > DUTY_SHARE * amps) return false;
  const mean = blocks.reduce((sum, b) => sum + b.amps, 0) / blocks.length;
  let second = 0;
  let fourth = 0;
  for (const block of blocks) {
    const square = (block.amps - mean) ** 2;
    second += square;
    fourth += square * square;
  }
  return fourth * blocks.length < TWO_LEVELS * second * second;
}

/** Standard deviation beside a straight slope, in amps: a board that warms is not busy for that. */
export function besideSlope(piece: Piece): number {
  const drift = driftOf(piece);
  return Math.sqrt(Math.max(0, pieceSd(piece) ** 2 - (drift * drift) / 12));
}

/** Whether a draw moves more than the instrument's noise and 2 % of its level explain. */
export function isBusy(span: Span, board: Board): boolean {
  const sd = besideSlope(span.piece);
  // With no quiet stretch to learn from, the draw's own movement must not pass for noise.
  const own = Math.min(3 * board.quietA, 0.025 + 0.01 * span.piece.amps);
  // A last digit that flickers between neighbours is no work.
  const noise = Math.max(own, board.countA);
  return span.piece.bins >= 4 && sd > Math.max(noise, 0.02 * span.piece.amps);
}
