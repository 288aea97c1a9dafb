import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { type Board, isZero, levelOf } from './board.ts';
import { LONG_PLATEAU_S } from './climb.ts';
import { isLow } from './low-draw.ts';
import { type Span, spanS } from './span.ts';

/** Seconds under which a change between no draw and flat low is no stage of its own. */
const FLICKER_S = 0.5;

/** A name for one span of a low stretch. */
export interface LowName {
  readonly stage: 'no-draw' | 'flat-low' | 'stepping' | 'stalled';
  readonly at: number;
}

/**
 * Names spans `i`..`end` that nothing climbed out of: no draw, flat low, or a small climb that
 * stalled at the end.
 */
export function nameLow(spans: readonly Span[], i: number, end: number, board: Board): LowName[] {
  const names: LowName[] = [];
  const zero = steadyZeros(spans, i, end, board);
  let first: number | null = null;
  for (let k = i; k < end; k++) {
    const span = spans[k]!;
    const level = levelOf(span, board.runV);
    if (zero[k - i]) {
      names.push({ stage: 'no-draw', at: k });
    } else if (
      first !== null &&
      board.runA !== null &&
      level > 2.5 * first &&
      level > 0.1 * board.runA &&
      spanS(span) > 3 &&
      k === end - 1
    ) {
      names.push({ stage: 'stalled', at: k });
      stepsBefore(names, spans, first, board);
    } else {
      first ??= level;
      names.push({ stage: 'flat-low', at: k });
    }
  }
  return names;
}

/** Names the short levels between the first plateau and a small climb's stall for the steps they are. */
function stepsBefore(names: LowName[], spans: readonly Span[], firstA: number, board: Board): void {
  for (let n = names.length - 2; n >= 0; n--) {
    const { stage, at } = names[n]!;
    const span = spans[at]!;
    if (stage !== 'flat-low' || spanS(span) > LONG_PLATEAU_S) return;
    if (levelOf(span, board.runV) <= 1.25 * firstA) return;
    names[n] = { stage: 'stepping', at };
  }
}

/** For each span whether it counts as no draw; bursts and flickers go with what is around them. */
function steadyZeros(spans: readonly Span[], i: number, end: number, board: Board): boolean[] {
  const known = spans.slice(i, end).map((span) => {
    if (!isLow(span, board)) return null;
    return isZero(span, board);
  });
  const settled = known.map((zero, k) => {
    if (zero !== null) return zero;
    const after = known.slice(k).find((z) => z !== null);
    const before = known.slice(0, k).findLast((z) => z !== null);
    return before ?? after ?? false;
  });
  for (let k = 0; k < settled.length; k++) {
    if (k > 0 && settled[k] === settled[k - 1]) continue;
    let to = k;
    while (to < settled.length && settled[to] === settled[k]) to++;
    const lasted = (spans[i + to - 1]!.end - spans[i + k]!.start) / TICKS_PER_SECOND;
    if (to < settled.length && lasted < FLICKER_S)
      settled.fill(k > 0 ? settled[k - 1]! : settled[to]!, k, to);
    k = to - 1;
  }
  return settled;
}
