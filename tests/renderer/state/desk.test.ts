import { describe, expect, it } from 'vitest';
import type { Bridge, EventName, Events } from '../../../core/contract/contract.ts';
import { createDesk } from '../../../renderer/state/desk.ts';
import { FAKE_BENCH, fakeRun } from '../../support/fake-bench.ts';
import { fakeJob, wholeOf } from '../../support/fake-jobs.ts';

/** A bridge that answers what it was told and lets a test speak as main. */
function spokenBridge() {
  const listeners = new Map<EventName, (fact: never) => void>();
  const asked: string[] = [];
  const job = fakeJob(1, {}, 0);
  const bridge = new Proxy({} as Bridge, {
    get: (_, name: string) => {
      if (name === 'on') {
        return (event: EventName, listener: (fact: never) => void) => {
          listeners.set(event, listener);
          return () => listeners.delete(event);
        };
      }
      return (args: unknown) => {
        asked.push(`${name} ${JSON.stringify(args)}`);
        const value = name === 'readJob' ? wholeOf(job) : name === 'benchState' ? FAKE_BENCH : null;
        return Promise.resolve({ ok: true, value });
      };
    },
  });
  const tell = <E extends EventName>(event: E, fact: Events[E]) =>
    (listeners.get(event) as ((fact: Events[E]) => void) | undefined)?.(fact);
  return { bridge, tell, asked, job, listeners };
}

const batch = (runId: string, sequence: number) => ({
  sequence,
  runId,
  fresh: sequence === 1,
  ticks: Float64Array.from([sequence * 500]),
  volts: Float64Array.from([19]),
  amps: Float64Array.from([0.2]),
  regulation: Uint8Array.from([1]),
});
const report = () =>
  fakeRun({ jobId: null, kind: 'powered', supply: FAKE_BENCH.supply }).tracker.finish();
const settle = () => new Promise((resolve) => setTimeout(resolve));

describe('what the window knows', () => {
  it('acknowledges every batch that it has taken', () => {
    const { bridge, tell, asked } = spokenBridge();
    createDesk(bridge).start();
    tell('liveBatch', batch('a', 1));
    tell('liveBatch', batch('a', 2));
    expect(asked.filter((one) => one.startsWith('ackLive'))).toEqual([
      'ackLive {"sequence":1}',
      'ackLive {"sequence":2}',
    ]);
  });

  it('reads the job that is put on the bench, and reads it again when it changes', async () => {
    const { bridge, tell, asked, job } = spokenBridge();
    const desk = createDesk(bridge);
    desk.start();
    await settle();
    tell('benchChanged', { ...FAKE_BENCH, jobId: job.job.id });
    await settle();
    expect(desk.store.get().job?.job.number).toBe(1);
    tell('jobChanged', { jobId: job.job.id });
    tell('jobChanged', { jobId: 'another' });
    await settle();
    expect(asked.filter((one) => one.startsWith('readJob'))).toHaveLength(2);
    tell('benchChanged', FAKE_BENCH);
    expect(desk.store.get().job).toBeNull();
  });

  it('keeps the run that ended until the next powered one begins', () => {
    const { bridge, tell } = spokenBridge();
    const desk = createDesk(bridge);
    desk.start();
    const first = fakeRun({ jobId: null, kind: 'powered', supply: FAKE_BENCH.supply }).run;
    const idle = fakeRun({ jobId: null, kind: 'idle', supply: FAKE_BENCH.supply }).run;
    const second = fakeRun({ jobId: null, kind: 'powered', supply: FAKE_BENCH.supply }).run;
    tell('benchChanged', { ...FAKE_BENCH, run: first });
    tell('liveBatch', batch(first.id, 1));
    tell('runEnded', { run: { ...first, endedAt: 1, end: 'output-off' }, report: report() });
    tell('benchChanged', { ...FAKE_BENCH, run: idle });
    tell('liveBatch', batch(idle.id, 1));
    expect(desk.store.get().finished?.trace?.runId).toBe(first.id);
    tell('benchChanged', { ...FAKE_BENCH, run: second });
    expect(desk.store.get().finished).toBeNull();
  });

  it('keeps alarms, newest first, and no more than five', () => {
    const { bridge, tell } = spokenBridge();
    const desk = createDesk(bridge);
    desk.start();
    for (let i = 0; i < 7; i += 1) {
      tell('alarmRaised', { code: 'port-lost', what: `lost ${i}`, where: 'x', todo: 'y' });
    }
    expect(desk.store.get().alarms.map((alarm) => alarm.what)).toEqual([
      'lost 6',
      'lost 5',
      'lost 4',
      'lost 3',
      'lost 2',
    ]);
  });

  it('stops listening when it is told to', () => {
    const { bridge, listeners } = spokenBridge();
    const stop = createDesk(bridge).start();
    expect(listeners.size).toBeGreaterThan(0);
    stop();
    expect(listeners.size).toBe(0);
  });
});
