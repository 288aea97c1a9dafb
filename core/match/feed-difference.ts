import type { Feed } from '../job/job.ts';

const POINTS: Readonly<Record<Feed['point'], string>> = {
  'charger-input': 'the charger input',
  'battery-line': 'the battery line',
  'main-rail': 'the main rail',
  'board-input': 'the board input',
  other: 'another point',
};
const PLUGGED = ['cells', 'screen', 'drive'] as const;

/** What is unlike about `theirs`, seen from `ours`, in words; null when both were fed alike. */
export function feedDifference(ours: Feed, theirs: Feed): string | null {
  const words: string[] = [];
  if (ours.point !== theirs.point) {
    words.push(`fed at ${POINTS[theirs.point]}, not ${POINTS[ours.point]}`);
  }
  for (const part of PLUGGED) {
    if (ours[part] !== theirs[part]) words.push(`${theirs[part] ? 'with' : 'without'} ${part}`);
  }
  return words.length === 0 ? null : words.join(', ');
}
