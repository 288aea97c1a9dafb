import type { ChecklistItem, Part, Run } from '../job/job.ts';

type Kept = Pick<ChecklistItem, 'id' | 'step' | 'needs' | 'state'>;
type Seen = Pick<Run, 'kind' | 'startedAt' | 'endedAt' | 'samples' | 'reach'>;

/** Runs that reach running after the newest fit which prove a repair. */
const COLD_WAKES = 3;

/** When the newest part was fitted, UTC ms; null when none was. */
export function lastFitAt(parts: readonly Pick<Part, 'action' | 'at'>[]): number | null {
  const fits = parts.filter((part) => part.action === 'fitted').map((part) => part.at);
  return fits.length === 0 ? null : Math.max(...fits);
}

/**
 * Ids of the open run items that a job's runs have done: the first powered run; a second one that
 * began after the newest fit; three that reached running since then.
 */
export function itemsDoneByRuns(
  items: readonly Kept[],
  runs: readonly Seen[],
  parts: readonly Pick<Part, 'action' | 'at'>[],
): readonly string[] {
  const ended = runs.filter((r) => r.kind === 'powered' && r.endedAt !== null && r.samples > 0);
  const fitAt = lastFitAt(parts);
  const since = ended.filter((run) => fitAt === null || run.startedAt >= fitAt);
  const isDone = (item: Kept): boolean => {
    switch (item.step) {
      case 'first-run':
        return ended.length > 0;
      case 'second-run':
        return fitAt !== null && since.length > 0;
      case 'wakes-three-times':
        return since.filter((run) => run.reach?.stage === 'running').length >= COLD_WAKES;
      default:
        return false;
    }
  };
  return items
    .filter((item) => item.needs === 'run' && item.state === 'open' && isDone(item))
    .map((item) => item.id);
}

/**
 * The step to do next: the first open one. While a powered run is live, a step that asks for a run is
 * under way, so hands go on to what is measured during it; null when nothing is open.
 */
export function nextItem<Item extends Pick<ChecklistItem, 'needs' | 'state'>>(
  items: readonly Item[],
  isRunLive: boolean,
): Item | null {
  const open = items.filter((item) => item.state === 'open');
  const free = isRunLive ? open.find((item) => item.needs !== 'run') : open[0];
  return free ?? open[0] ?? null;
}

/** Id of the open item that a lifted or fitted part has done; null when there is none. */
export function itemDoneByPart(items: readonly Kept[], action: Part['action']): string | null {
  const step = action === 'lifted' ? 'part-lifted' : 'part-fitted';
  return items.find((item) => item.step === step && item.state === 'open')?.id ?? null;
}

/** Why an item cannot be ticked by hand, and what does it instead; null when it can. */
export function whyNotByHand(
  item: Pick<ChecklistItem, 'needs' | 'readings'>,
  note: string,
): string | null {
  switch (item.needs) {
    case 'confirm':
    case 'caution':
      return null;
    case 'note':
      return note.trim() === '' ? 'Write a few words' : null;
    case 'reading':
      return item.readings.length > 0 ? null : 'Take the reading or type it';
    case 'run':
      return 'Make the run, or give a run to this job';
    case 'photo':
      return 'Attach a picture';
    case 'part':
      return 'Write the part down';
  }
}
