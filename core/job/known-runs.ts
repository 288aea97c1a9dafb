import type { TrackerSettings } from '../stages/stage.ts';
import type { BoardFacts, Feed, Run } from './job.ts';

/** An earlier run of the same board model and what it shows of that model. */
export interface KnownRun {
  readonly role: Run['role'];
  readonly reachedRunning: boolean;
  /** False when its job was closed as not repaired. */
  readonly provedGood: boolean;
  readonly feed: Feed;
  /** Level it ran at, and the volts at which. */
  readonly runningA: number | null;
  readonly runningV: number | null;
  readonly runsFlat: boolean | null;
  /** Seconds from output on, or the wake request after it, to running. */
  readonly wokeAfterS: number | null;
}

/** Most earlier runs that are learned from: the newest ones. */
const MOST_RUNS = 5;
/** Feed volts closer than this share are the same feed; others are compared in watts. */
const SAME_VOLTS = 0.1;

/** Whether two runs were fed at the same point with the same things plugged in. */
export function isSameFeed(a: Feed, b: Feed): boolean {
  return a.point === b.point && a.cells === b.cells && a.screen === b.screen && a.drive === b.drive;
}

/** Whether a run may teach the level of its board: marked as after repair, or it reached running. */
export function isKnownGood(run: KnownRun): boolean {
  if (run.runningA === null || run.role === 'before') return false;
  return (run.role === 'after' && run.provedGood) || run.reachedRunning;
}

function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.length === 0 ? null : sorted[Math.floor((sorted.length - 1) / 2)]!;
}

/**
 * What the tracker is told of a board: from its model's known-good runs with a comparable feed
 * (newest first in `runs`), else from the notes on the board, else nothing. Amps and volts; the
 * running level is one that was seen, with its own volts. Common practice, no source.
 */
export function settingsFromRuns(o: {
  runs: readonly KnownRun[];
  board: BoardFacts | null;
  feed: Feed;
  setV: number | null;
  limitA: number | null;
  zeroFloorA: number | null;
}): TrackerSettings {
  const alike = o.runs.filter((run) => isKnownGood(run) && isSameFeed(run.feed, o.feed));
  const { setV } = o;
  const sameVolts = alike.filter(
    (run) =>
      setV !== null && run.runningV !== null && Math.abs(run.runningV - setV) <= SAME_VOLTS * setV,
  );
  const good = (sameVolts.length > 0 ? sameVolts : alike).slice(0, MOST_RUNS);
  const level = median(good.map((run) => run.runningA!));
  const seen = good.find((run) => run.runningA === level);
  const flat = good.flatMap((run) => (run.runsFlat === null ? [] : [run.runsFlat]));
  const woke = good.flatMap((run) => (run.wokeAfterS === null ? [] : [run.wokeAfterS]));
  return {
    setV,
    limitA: o.limitA,
    zeroFloorA: o.zeroFloorA,
    runningA: level ?? o.board?.runningA ?? null,
    runningV: seen === undefined ? (o.board?.statedInputV ?? null) : seen.runningV,
    runsFlat:
      flat.length > 0
        ? flat.filter((isFlat) => isFlat).length * 2 > flat.length
        : (o.board?.runsFlat ?? null),
    wakesWithinS: woke.length === 0 ? null : Math.max(...woke),
  };
}
