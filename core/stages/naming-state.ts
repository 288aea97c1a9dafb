import { type Board, levelOf } from './board.ts';
import type { LoopFacts, Named } from './named.ts';
import { joinSpans } from './span.ts';

/** Where naming starts from: what the stretches that were dropped have left behind. */
export interface NamingState {
  /** Whether the board had climbed since the output went on, and whether it had run. */
  readonly climbed: boolean;
  readonly ran: boolean;
  /** Level that it had stalled at, in amps at the board's running volts; null otherwise. */
  readonly stalledA: number | null;
  readonly loop: LoopFacts | null;
  readonly lastA: number | null;
  /** Whether the trace begins here, in the middle of whatever the board was doing. */
  readonly begins: boolean;
}

export const FRESH_RUN: NamingState = {
  climbed: false,
  ran: false,
  stalledA: null,
  loop: null,
  lastA: null,
  begins: true,
};

/** Where naming goes on from once this stretch has been named for good and dropped. */
export function stateAfter(state: NamingState, named: Named, board: Board): NamingState {
  const lastA = named.spans[named.spans.length - 1]!.piece.amps;
  const next = { ...state, lastA, stalledA: null, loop: null, begins: false };
  switch (named.stage) {
    case 'off':
      return { ...next, climbed: false, ran: false };
    case 'running':
    case 'flat-high':
      return { ...next, climbed: true, ran: true };
    case 'stalled': {
      const whole = joinSpans(named.spans, 0, named.spans.length);
      return { ...next, climbed: true, stalledA: levelOf(whole, board.runV) };
    }
    case 'stepping':
      return { ...next, climbed: true };
    case 'cycling':
      return { ...next, climbed: true, ran: false, loop: named.facts.loop ?? null };
    case 'fell-back':
      return { ...next, ran: false };
    default:
      return next;
  }
}
