import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { rangeOf, type TraceView, zoom } from '../trace/trace-view.ts';

/** Seconds shown about a moment that a person asked for. */
const ABOUT_S = 20;

/** The trace held still with a moment in its middle. */
export function viewAround(atTick: number, endTick: number): TraceView {
  const half = (ABOUT_S * TICKS_PER_SECOND) / 2;
  const held = { follow: false, fromTick: atTick - half, toTick: atTick + half } as const;
  // Zooming by nothing keeps the stretch inside the run.
  return zoom(
    held,
    1,
    (rangeOf(held, endTick).fromTick + rangeOf(held, endTick).toTick) / 2,
    endTick,
  );
}
