import { type Board, isZero, levelOf } from './board.ts';
import type { Named } from './named.ts';
import { type Span, spanS } from './span.ts';
import type { Reach, StageId } from './stage.ts';

const ORDER = ['off', 'no-draw', 'flat-low', 'stepping', 'running'] as const;

const RANK: Readonly<Record<StageId, number>> = {
  off: 0,
  'no-draw': 1,
  limited: 1,
  'flat-low': 2,
  creeping: 2,
  'fell-back': 2,
  stepping: 3,
  stalled: 3,
  cycling: 3,
  running: 4,
  'flat-high': 4,
};

/** The furthest stage so far and the span with the highest level held. */
export interface Furthest {
  readonly rank: number;
  readonly held: Span | null;
}

export const NOWHERE: Furthest = { rank: 0, held: null };

/** Adds named stretches to how far a run got. A stall is where it stopped, not how far it got. */
export function further(so: Furthest, named: readonly Named[], board: Board): Furthest {
  let { rank, held } = so;
  for (const n of named) {
    rank = Math.max(rank, RANK[n.stage]);
    for (const span of n.spans) {
      if (span.piece.feed === 'off' || (spanS(span) < 0.5 && span.piece.bins < 3)) continue;
      if (held === null || levelOf(span, board.runV) > levelOf(held, board.runV)) held = span;
    }
  }
  return { rank, held };
}

/** How far a run got, in the report's terms. */
export function reachOf(so: Furthest, board: Board): Reach {
  const stage = ORDER[so.rank]!;
  const { held } = so;
  if (held === null) return { stage, heldA: null, heldW: null, share: null };
  const { amps, volts, voltsBins } = held.piece;
  const share =
    board.runA === null || isZero(held, board) ? null : levelOf(held, board.runV) / board.runA;
  return { stage, heldA: amps, heldW: voltsBins > 0 ? amps * volts : null, share };
}
