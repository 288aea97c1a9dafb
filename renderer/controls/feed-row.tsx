import { useRef } from 'react';
import type { Feed } from '../../core/job/job.ts';
import { useKey } from '../keys/use-key.ts';
import { FEED_POINTS, PLUGGED_PARTS } from '../parts/feed-words.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** Where this run is fed and what is plugged in: one tap each. */
export function FeedRow() {
  const feed = useDeskState((state) => state.bench?.feed ?? null);
  const { ask } = useActions();
  const first = useRef<HTMLDivElement | null>(null);
  useKey('feed', () => {
    first.current?.querySelector<HTMLElement>('input:checked, input')?.focus();
  });
  if (feed === null) return null;
  const change = (part: Partial<Feed>) => void ask('setFeed', { feed: { ...feed, ...part } });
  return (
    <div className="feed-row" ref={first}>
      <fieldset className="segments">
        <legend>
          Fed at <KeyCap>F</KeyCap>
        </legend>
        {FEED_POINTS.map(({ point, words }) => (
          <label key={point} className="segment">
            <input
              type="radio"
              name="feed-point"
              checked={feed.point === point}
              onChange={() => change({ point })}
            />
            {words}
          </label>
        ))}
      </fieldset>
      <fieldset className="segments">
        <legend>Plugged in</legend>
        {PLUGGED_PARTS.map(({ part, words }) => (
          <label key={part} className="segment">
            <input
              type="checkbox"
              checked={feed[part]}
              onChange={() => change({ [part]: !feed[part] })}
            />
            {words}
          </label>
        ))}
      </fieldset>
    </div>
  );
}
