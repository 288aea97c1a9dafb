import type { FeedChange, Mark, StageReport, TrackerSettings } from '../../core/stages/stage.ts';
import { createTracker } from '../../core/stages/tracker.ts';
import { REGULATION_CODES, TICKS_PER_SECOND, type TraceColumns } from '../../core/trace/sample.ts';

/** Marks that only a person or a guard can make: the samples do not show them. */
const MADE: readonly Mark['mark'][] = ['wake-request', 'note', 'guard-trip'];

/** Classifies a kept run again, stretch by stretch. */
export interface Replay {
  push(columns: TraceColumns): void;
  /** The last word, with the marks that only a person or a guard made carried over. */
  finish(marks: readonly Mark[]): StageReport;
}

/**
 * A replay with these settings and what the supply was set to later in the run. Deterministic,
 * however the run is cut into stretches.
 */
export function createReplay(
  settings: TrackerSettings,
  feedChanges: readonly FeedChange[] = [],
): Replay {
  const tracker = createTracker(settings);
  const due = feedChanges.map(({ atS, ...feed }) => ({
    tick: Math.round(atS * TICKS_PER_SECOND),
    feed,
  }));
  return {
    push({ ticks, volts, amps, regulation }) {
      for (let i = 0; i < ticks.length; i += 1) {
        while (due[0] !== undefined && due[0].tick <= ticks[i]!) {
          const { tick, feed } = due.shift()!;
          tracker.changeFeed(tick, feed);
        }
        tracker.push({
          tick: ticks[i]!,
          volts: told(volts[i]!),
          amps: told(amps[i]!),
          regulation: REGULATION_CODES[regulation[i]!] ?? null,
          outputOn: null,
        });
      }
    },
    finish(marks) {
      for (const mark of marks) {
        const tick = Math.round(mark.atS * TICKS_PER_SECOND);
        if (mark.mark === 'wake-request') tracker.wakeRequest(tick);
        if (mark.mark === 'note') tracker.note(tick, mark.text);
      }
      const report = tracker.finish();
      const made = marks.filter((mark) => MADE.includes(mark.mark));
      const own = report.marks.filter((mark) => !MADE.includes(mark.mark));
      // As they were written, not as the tracker words them.
      return { ...report, marks: [...own, ...made].sort((a, b) => a.atS - b.atS) };
    },
  };
}

/**
 * Classifies a kept run again from its samples, in one go, and carries over the marks that only a
 * person or a guard made. Deterministic: the same samples and settings give the same stages.
 */
export function replayedReport(
  parts: readonly TraceColumns[],
  settings: TrackerSettings,
  marks: readonly Mark[],
  feedChanges: readonly FeedChange[] = [],
): StageReport {
  const replay = createReplay(settings, feedChanges);
  for (const part of parts) replay.push(part);
  return replay.finish(marks);
}

const told = (value: number): number | null => (Number.isNaN(value) ? null : value);
