import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openBeforeSoak } from '../../../core/checklist/gates.ts';
import type { SoakState } from '../../../core/contract/soak-calls.ts';
import { createBenchSoak } from '../../../electron/bench/bench-soak.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { benchState, liveRun } from '../../support/idle-bench.ts';
import { jobFields, report } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const ledger = await openLedgerInThread({ path: path.join(tempFolder('soak'), 'ledger.sqlite') });
afterAll(() => ledger.close());
const { handlers } = ledger;

async function soaking(o: { isOn?: boolean; isDirty?: boolean } = {}) {
  const job = await handlers.createJob(jobFields());
  if (o.isDirty !== true) {
    for (const { id, title } of openBeforeSoak((await handlers.readJob(job)).items)) {
      await handlers.skipItem({ jobId: job.id, itemId: id, reason: `not for this test: ${title}` });
    }
  }
  const run = liveRun({ jobId: job.id });
  const states: SoakState[] = [];
  const notes: string[] = [];
  const soak = createBenchSoak({
    bench: () =>
      benchState({
        jobId: job.id,
        run: o.isOn === false ? null : run,
        supply: { outputOn: o.isOn ?? true },
      }),
    ledger: handlers,
    note: (text) => void notes.push(text),
    wallMs: () => 5_000_000,
    tell: (state) => states.push(state),
  });
  let atMs = 1000;
  const read = (amps: number, seconds: number) => {
    for (let i = 0; i < seconds * 20; i += 1) {
      atMs += 50;
      const times = { sentMs: atMs, gotMs: atMs };
      soak.see({ volts: 19, amps, regulation: 'cv', outputOn: true, ...times }, atMs);
    }
  };
  const step = async () => {
    await soak.handlers.stopSoak({});
    const { items } = await handlers.readJob({ id: job.id });
    return items.find((item) => item.step === 'soaked')!;
  };
  const now = () => soak.handlers.soakState({}) as SoakState;
  return { soak, read, step, now, states, notes, run };
}

describe('a soak at the bench', () => {
  it('passes onto the checklist with its numbers, and onto the run', async () => {
    const { soak, read, step, now, notes } = await soaking();
    await soak.handlers.startSoak({ minutes: 0.5, lowA: 0.4, highA: 0.6 });
    read(0.5, 31);
    expect(now()).toMatchObject({ isRunning: false, verdict: { passed: true } });
    expect(await step()).toMatchObject({
      state: 'done',
      reason: expect.stringContaining('Soak passed: 30 s of 0.5 min; draw 0.5 A to 0.5 A'),
    });
    expect(notes[0]).toContain('Soak passed');
  });

  it('fails onto the checklist, and leaves the step open', async () => {
    const { soak, read, step } = await soaking();
    await soak.handlers.startSoak({ minutes: 5, lowA: null, highA: null });
    read(0.5, 10);
    const fell = { ...report().stages[0]!, stage: 'fell-back' as const, startS: 14, endS: 19 };
    soak.seeStages(liveRun().id, report({ stages: [fell] }));
    expect(await step()).toMatchObject({
      state: 'open',
      reason: expect.stringContaining('Soak failed: fell back after 14 s'),
    });
  });

  it('counts the run’s own time from where it stood when the soak began', async () => {
    const { soak, read, step } = await soaking();
    soak.seeStages(liveRun().id, report({ durationS: 100 }));
    await soak.handlers.startSoak({ minutes: 5, lowA: null, highA: null });
    read(0.5, 10);
    const fell = { ...report().stages[0]!, stage: 'cycling' as const, startS: 108, endS: 115 };
    soak.seeStages(liveRun().id, report({ stages: [fell] }));
    expect((await step()).reason).toContain('cycling after 8 s');
  });

  it('fails when the run ends, or a person stops it', async () => {
    const ended = await soaking();
    await ended.soak.handlers.startSoak({ minutes: 5, lowA: null, highA: null });
    ended.read(0.5, 3);
    ended.soak.runEnded('another run');
    expect(ended.now().isRunning).toBe(true);
    ended.soak.runEnded(ended.run.id);
    expect(ended.now().verdict?.words).toContain('the run ended');
    const stopped = await soaking();
    await stopped.soak.handlers.startSoak({ minutes: 5, lowA: null, highA: null });
    stopped.read(0.5, 3);
    expect((await stopped.step()).reason).toContain('stopped by hand');
  });

  it('tells how it goes, about once a second', async () => {
    const { soak, read, states } = await soaking();
    await soak.handlers.startSoak({ minutes: 5, lowA: null, highA: null });
    read(0.5, 10);
    expect(states.length).toBeGreaterThan(8);
    expect(states.length).toBeLessThan(14);
  });

  it('refuses without a powered run, and bounds that cross', async () => {
    const { soak } = await soaking({ isOn: false });
    await expect(soak.handlers.startSoak({ minutes: 5, lowA: null, highA: null })).rejects.toThrow(
      'No powered run is live',
    );
    const on = await soaking();
    await expect(on.soak.handlers.startSoak({ minutes: 5, lowA: 0.5, highA: 0.4 })).rejects.toThrow(
      'at least 0.5 A and at most 0.4 A',
    );
  });

  it('waits until flux and wash are off, and the step is done or skipped with a reason', async () => {
    const { soak, now } = await soaking({ isDirty: true });
    await expect(soak.handlers.startSoak({ minutes: 5, lowA: null, highA: null })).rejects.toThrow(
      /Not yet: .*"Flux and residue off, dry, before the soak"/,
    );
    expect(now().isRunning).toBe(false);
  });
});
