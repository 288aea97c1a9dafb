import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';

/** What part of a run is on screen: moving with its end, or held still. */
export type TraceView =
  | { readonly follow: true; readonly spanTicks: number | null }
  | { readonly follow: false; readonly fromTick: number; readonly toTick: number };

export interface TickRange {
  readonly fromTick: number;
  readonly toTick: number;
}

/** Windows offered by key and by button; null = the whole run. */
export const SPANS = [
  { key: '1', words: '30 s', spanTicks: 30 * TICKS_PER_SECOND },
  { key: '2', words: '2 min', spanTicks: 120 * TICKS_PER_SECOND },
  { key: '3', words: '10 min', spanTicks: 600 * TICKS_PER_SECOND },
  { key: '4', words: 'All', spanTicks: null },
] as const;

/** Follows the newest 30 s: where a run begins. */
export const FIRST_VIEW: TraceView = { follow: true, spanTicks: SPANS[0].spanTicks };

const SHORTEST_TICKS = 0.2 * TICKS_PER_SECOND;
const SHORTEST_ALL_TICKS = 10 * TICKS_PER_SECOND;

/** Part of the width that is kept free for what comes next: the frame moves on when it is full. */
const AHEAD = 1 / 60;

/**
 * The stretch to draw, given the run's newest tick. A young run starts at the left edge; then the
 * stretch moves on in small steps, so that axes are laid out twice a second and not with every
 * sample.
 */
export function rangeOf(view: TraceView, endTick: number): TickRange {
  if (!view.follow) return { fromTick: view.fromTick, toTick: view.toTick };
  if (view.spanTicks === null) {
    const end = Math.max(SHORTEST_ALL_TICKS, endTick);
    // A power of two, or the step itself would move with the end.
    const step = 2 ** Math.floor(Math.log2(end * AHEAD));
    return { fromTick: 0, toTick: Math.ceil(end / step) * step };
  }
  const step = view.spanTicks * AHEAD;
  const toTick = Math.max(view.spanTicks, Math.ceil(endTick / step) * step);
  return { fromTick: toTick - view.spanTicks, toTick };
}

/** Narrows (`factor` < 1) or widens around `atTick`, which stays where it is on screen. */
export function zoom(
  view: TraceView,
  factor: number,
  atTick: number | null,
  endTick: number,
): TraceView {
  const range = rangeOf(view, endTick);
  const span = range.toTick - range.fromTick;
  const widest = Math.max(SHORTEST_ALL_TICKS, endTick);
  const wanted = Math.min(widest, Math.max(SHORTEST_TICKS, span * factor));
  if (atTick === null && view.follow) return { follow: true, spanTicks: wanted };
  const at = atTick ?? (range.fromTick + range.toTick) / 2;
  const fromTick = at - ((at - range.fromTick) / span) * wanted;
  return held(fromTick, wanted, endTick);
}

/** Moves by a share of the width: positive is later. Moving lets go of the run's end. */
export function pan(view: TraceView, share: number, endTick: number): TraceView {
  const range = rangeOf(view, endTick);
  const span = range.toTick - range.fromTick;
  return held(range.fromTick + span * share, span, endTick);
}

/** Holds a stretch still, kept inside the run. */
function held(fromTick: number, spanTicks: number, endTick: number): TraceView {
  const latest = Math.max(0, Math.max(SHORTEST_ALL_TICKS, endTick) - spanTicks);
  const from = Math.min(latest, Math.max(0, fromTick));
  return { follow: false, fromTick: from, toTick: from + spanTicks };
}
