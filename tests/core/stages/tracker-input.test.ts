import { describe, expect, it } from 'vitest';
import { UNKNOWN_BOARD } from '../../../core/stages/stage.ts';
import { classifyTrace, createTracker, TRACKER_VERSION } from '../../../core/stages/tracker.ts';
import type { Sample } from '../../../core/trace/sample.ts';

const sample = (atS: number, amps: number | null, more: Partial<Sample> = {}): Sample => ({
  tick: Math.round(atS * 10_000),
  volts: 12,
  amps,
  regulation: null,
  outputOn: null,
  ...more,
});

/** Reads `amps` at 20 Hz from `fromS` for `forS` seconds into the tracker. */
function read(
  tracker: ReturnType<typeof createTracker>,
  fromS: number,
  forS: number,
  amps: number,
  more: Partial<Sample> = {},
) {
  for (let i = 0; i < forS * 20; i++) {
    tracker.push(sample(fromS + i / 20, amps + (i % 3) * 0.0003, more));
  }
}

describe('odd input', () => {
  it('no sample at all gives an empty report', () => {
    expect(createTracker(UNKNOWN_BOARD).finish()).toEqual({
      trackerVersion: TRACKER_VERSION,
      samples: 0,
      durationS: 0,
      reach: { stage: 'off', heldA: null, heldW: null, share: null },
      stages: [],
      marks: [],
      steps: [],
      energyWh: null,
      chargeAh: null,
      peakA: null,
    });
  });

  it('one sample gives one stage without length', () => {
    const tracker = createTracker(UNKNOWN_BOARD);
    tracker.push(sample(3, 0.02));
    const report = tracker.finish();
    expect(report).toMatchObject({ samples: 1, durationS: 0, chargeAh: null, peakA: 0.02 });
    expect(report.stages).toMatchObject([{ startS: 3, endS: 3 }]);
  });

  it('readings that are not numbers are left out: no stage, no charge, no peak', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0.4 });
    read(tracker, 0, 10, 0.4);
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, null]) {
      tracker.push(sample(10, bad));
    }
    tracker.push(sample(10.05, 0.4, { volts: Number.POSITIVE_INFINITY }));
    read(tracker, 10.1, 10, 0.4);
    const report = tracker.finish();
    expect(report.stages.map((s) => s.stage)).toEqual(['running']);
    expect(report.peakA).toBeCloseTo(0.4006, 6);
    expect(Number.isFinite(report.energyWh)).toBe(true);
  });

  it('time that stands still or goes back drops the reading and moves nothing', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0.4 });
    read(tracker, 0, 10, 0.4);
    tracker.push(sample(5, 3));
    tracker.push(sample(Number.NaN, 3));
    read(tracker, 10, 10, 0.4);
    const report = tracker.finish();
    expect(report.stages.map((s) => s.stage)).toEqual(['running']);
    expect(report.peakA).toBeLessThan(0.41);
    expect(report.durationS).toBeCloseTo(19.95, 6);
  });

  it('a gap of hours is a mark; neither its time nor a guess of its charge counts', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0.4 });
    read(tracker, 0, 10, 0.4);
    read(tracker, 20_000, 10, 0.4);
    const report = tracker.finish();
    expect(report.marks.map((m) => m.mark)).toEqual(['gap']);
    expect(report.chargeAh! * 3600).toBeCloseTo(0.4 * 19.9, 1);
  });

  it('negative current is no draw', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0.4 });
    read(tracker, 0, 10, -0.03);
    expect(tracker.finish().stages.map((s) => s.stage)).toEqual(['no-draw']);
  });

  it('settings that make no sense count as not known', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0, limitA: Number.NaN, setV: -3 });
    read(tracker, 0, 10, 0.4);
    expect(tracker.finish().stages[0]!.reason).toContain('No running level is known');
  });

  it('two hundred thousand readings of every wild kind end in a report', () => {
    const n = 200_000;
    const columns = {
      ticks: Float64Array.from({ length: n }, (_, i) => i * 37 - (i % 1000 === 0 ? 5000 : 0)),
      amps: Float64Array.from(
        { length: n },
        (_, i) => Math.sin(i * i) * (i % 7) - (i % 11 ? 0 : 9),
      ),
      volts: Float64Array.from({ length: n }, (_, i) =>
        i % 13 === 0 ? Number.NaN : (i * 31) % 24,
      ),
      regulation: Uint8Array.from({ length: n }, (_, i) => i % 5),
    };
    const report = classifyTrace(columns, { ...UNKNOWN_BOARD, runningA: 2, limitA: 5, setV: 12 });
    expect(report.samples).toBeGreaterThan(190_000);
    expect(report.stages.length).toBeGreaterThan(0);
    for (const list of [report.stages, report.marks, report.steps]) {
      expect(list.length).toBeLessThan(61_000);
    }
  });
});

describe('a live run', () => {
  it('marks the wake request, notes and what the supply says of its output', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0.4 });
    read(tracker, 0, 2, 0, { volts: 0, outputOn: false, regulation: 'off' });
    read(tracker, 2, 4, 0.02, { outputOn: true, regulation: 'cv' });
    tracker.wakeRequest(40_000);
    tracker.note(41_000, 'side button, held');
    read(tracker, 6, 2, 0, { volts: 0, outputOn: false, regulation: 'off' });
    const { marks } = tracker.report();
    expect(marks.map((m) => [m.mark, m.atS])).toEqual([
      ['output-on', 2],
      ['wake-request', 4],
      ['note', 4.1],
      ['output-off', 6],
    ]);
    expect(marks[2]!.text).toBe('side button, held');
  });

  it('reads current limit from a limit that was set on the way', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, setV: 12, limitA: 2, runningA: 0.4 });
    read(tracker, 0, 5, 0.4);
    tracker.changeFeed(50_000, { setV: 12, limitA: 0.2 });
    read(tracker, 5, 5, 0.198, { volts: 5 });
    expect(tracker.report().stages.map((s) => s.stage)).toEqual(['running', 'limited']);
  });

  it('names the newest stretch at once and revises it while it is the newest', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0.4, setV: 12 });
    read(tracker, 0, 3, 0.02);
    read(tracker, 3, 1, 0.2);
    expect(tracker.report().stages.at(-1)!.stage).toBe('stepping');
    read(tracker, 4, 6, 0.2);
    const later = tracker.report().stages;
    expect(later.map((s) => s.stage)).toEqual(['flat-low', 'stalled']);
    expect(later.every((s) => !s.final)).toBe(true);
    expect(tracker.finish().stages.every((s) => s.final)).toBe(true);
  });

  it('sees the newest reading in a report although it has not been joined yet', () => {
    const tracker = createTracker(UNKNOWN_BOARD);
    for (let i = 0; i < 10; i++) tracker.push(sample(i, 0.02));
    tracker.push(sample(10, 0, { volts: 0 }));
    expect(tracker.report().stages.at(-1)).toMatchObject({ stage: 'off', startS: 10, endS: 10 });
  });

  it('keeps a stage for good 90 s after its end at the earliest, two minutes at the latest', () => {
    const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0.4 });
    read(tracker, 0, 5, 0.02);
    read(tracker, 5, 85, 0.4);
    expect(tracker.report().stages[0]!.final).toBe(false);
    read(tracker, 90, 36, 0.4);
    expect(tracker.report().stages[0]).toMatchObject({ stage: 'flat-low', final: true });
  });
});
