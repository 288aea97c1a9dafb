import type { Feed } from '../../core/job/job.ts';

/** Where a board can be fed. */
export const FEED_POINTS: readonly { readonly point: Feed['point']; readonly words: string }[] = [
  { point: 'charger-input', words: 'Charger input' },
  { point: 'battery-line', words: 'Battery line' },
  { point: 'main-rail', words: 'Main rail' },
  { point: 'board-input', words: 'Board input' },
  { point: 'other', words: 'Other' },
];

/** What can be plugged in beside the feed. */
export const PLUGGED_PARTS = [
  { part: 'cells', words: 'Cells' },
  { part: 'screen', words: 'Screen' },
  { part: 'drive', words: 'Drive' },
] as const;

/** A feed in words: `fed at charger input, with screen, drive`. */
export function feedWords(feed: Feed): string {
  const point = FEED_POINTS.find((one) => one.point === feed.point)?.words.toLowerCase() ?? 'other';
  const plugged = PLUGGED_PARTS.filter(({ part }) => feed[part]).map(({ words }) =>
    words.toLowerCase(),
  );
  const withParts = plugged.length === 0 ? '' : `, with ${plugged.join(', ')}`;
  const note = feed.note === '' ? '' : `, ${feed.note}`;
  return `fed at ${point === 'other' ? 'another point' : point}${withParts}${note}`;
}
