import { describe, expect, it } from 'vitest';
import type { Run } from '../../../core/job/job.ts';
import { UNKNOWN_BOARD } from '../../../core/stages/stage.ts';
import { createLiveFeed } from '../../../electron/bench/bench-feed.ts';
import { createBenchRecorder } from '../../../electron/bench/bench-recorder.ts';
import type { RecorderCalls, RunStart } from '../../../electron/ledger/recorder-calls.ts';

interface Kept {
  readonly start: RunStart;
  readonly ticks: number[];
  end: string | null;
}

/** A ledger that answers late, as a busy worker does, and keeps what it was told. */
function lateLedger(delayMs: number) {
  const runs: Kept[] = [];
  const late = <T>(value: T) => new Promise<T>((done) => setTimeout(() => done(value), delayMs));
  const of = (runId: string) => runs[Number(runId)]!;
  const recorder = {
    settingsFor: () => late(UNKNOWN_BOARD),
    startRun: (start: RunStart) => {
      runs.push({ start, ticks: [], end: null });
      return late({ id: String(runs.length - 1), kind: start.kind } as Run);
    },
    appendSupply: ({ runId, columns }: { runId: string; columns: { ticks: Float64Array } }) => {
      of(runId).ticks.push(...columns.ticks);
      return late(null);
    },
    saveReport: () => late(null),
    endRun: ({ runId, end }: { runId: string; end: string }) => {
      of(runId).end = end;
      return late({ id: runId, kind: of(runId).start.kind } as Run);
    },
  } as unknown as RecorderCalls;
  return { runs, recorder };
}

function recorderOn(recorder: RecorderCalls) {
  const troubles: string[] = [];
  const bench = createBenchRecorder({
    recorder,
    live: createLiveFeed(() => {}),
    facts: () => ({
      jobId: null,
      feed: { point: 'board-input', cells: false, screen: false, drive: false, note: '' },
      setV: 12,
      limitA: 1,
      instrument: 'test',
      pretend: true,
      canSwitch: true,
      huntId: null,
    }),
    wallMs: () => 1_700_000_000_000,
    runBegan() {},
    runEnded() {},
    stagesMoved() {},
    trouble: (trouble) => troubles.push(trouble.what),
  });
  let atMs = 0;
  return {
    bench,
    troubles,
    feed(outputOn: boolean, count: number) {
      for (let i = 0; i < count; i += 1) {
        atMs += 50;
        const times = { sentMs: atMs - 2, gotMs: atMs + 2 };
        bench.push({ volts: 12, amps: 0.1, regulation: 'cv', outputOn, ...times }, atMs);
      }
    },
    settle: async () => {
      for (let i = 0; i < 20; i += 1) {
        await new Promise((done) => setTimeout(done, 10));
        await bench.flush();
      }
    },
  };
}

const isRising = (ticks: readonly number[]) =>
  ticks.every((tick, i) => i === 0 || tick > ticks[i - 1]!);

describe('the bench recorder', () => {
  it('records idle, powered and idle again, with a second before and half a second after', async () => {
    const { runs, recorder } = lateLedger(1);
    const desk = recorderOn(recorder);
    desk.feed(false, 60);
    await desk.settle();
    desk.feed(true, 40);
    await desk.settle();
    desk.feed(false, 30);
    await desk.settle();
    await desk.bench.stop('app-closed');
    expect(runs.map((run) => [run.start.kind, run.end])).toEqual([
      ['idle', 'output-off'],
      ['powered', 'output-off'],
      ['idle', 'app-closed'],
    ]);
    const powered = runs[1]!.ticks;
    expect(powered.length).toBeGreaterThanOrEqual(20 + 40 + 10);
    expect(runs.every((run) => isRising(run.ticks))).toBe(true);
    expect(desk.troubles).toEqual([]);
  });

  it('mixes no samples when the output is on and off before the ledger has answered', async () => {
    const { runs, recorder } = lateLedger(30);
    const desk = recorderOn(recorder);
    desk.feed(false, 4);
    desk.feed(true, 4);
    desk.feed(false, 14);
    desk.feed(true, 6);
    await desk.settle();
    await desk.bench.stop('app-closed');
    expect(runs.map((run) => run.start.kind)).toEqual(['idle', 'powered', 'idle', 'powered']);
    expect(runs.every((run) => isRising(run.ticks) && run.end !== null)).toBe(true);
    expect(desk.troubles).toEqual([]);
  });

  it('keeps samples that the ledger refused and hands them in again', async () => {
    const { runs, recorder } = lateLedger(1);
    let refusals = 2;
    const append = recorder.appendSupply;
    recorder.appendSupply = (columns) => {
      refusals -= 1;
      return refusals >= 0 ? Promise.reject(new Error('disk full')) : append(columns);
    };
    const desk = recorderOn(recorder);
    desk.feed(false, 10);
    for (let i = 0; i < 6; i += 1) {
      await new Promise((done) => setTimeout(done, 10));
      desk.feed(false, 1);
      await desk.bench.flush().catch(() => {});
    }
    await desk.bench.stop('app-closed');
    expect(runs[0]!.ticks.length).toBe(16);
    expect(isRising(runs[0]!.ticks)).toBe(true);
  });
});
