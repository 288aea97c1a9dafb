import { useKey } from '../keys/use-key.ts';
import { rangeOf, SPANS, type TraceView } from './trace-view.ts';

/** The keys that choose how much of a run is on screen, and the one that goes to the trace. */
export function useSpanKeys(
  view: TraceView,
  onView: (view: TraceView) => void,
  endTick: () => number,
): void {
  const follow = (index: 0 | 1 | 2 | 3) =>
    onView({ follow: true, spanTicks: SPANS[index].spanTicks });
  useKey('span1', () => follow(0));
  useKey('span2', () => follow(1));
  useKey('span3', () => follow(2));
  useKey('span4', () => follow(3));
  useKey('follow', () => {
    if (view.follow) return;
    const { fromTick, toTick } = rangeOf(view, endTick());
    onView({ follow: true, spanTicks: toTick - fromTick });
  });
  useKey('trace', () => document.querySelector<HTMLElement>('.trace-plot')?.focus());
}
