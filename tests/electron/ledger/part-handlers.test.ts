import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Quantity } from '../../../core/job/job.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields, report, runStart, samples } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('parts');
const clock = { ms: Date.UTC(2026, 1, 2, 8) };
const ledger = await openLedgerInThread({
  path: path.join(folder, 'ledger.sqlite'),
  now: () => clock.ms,
});
afterAll(() => ledger.close());
const { handlers, recorder } = ledger;

const part = (action: 'lifted' | 'fitted') => ({
  action,
  designator: 'C12',
  kind: 'ceramic',
  value: '10 uF',
  rail: '5 V',
  stateFound: action === 'lifted' ? 'shorted' : '',
  from: action === 'fitted' ? 'new stock' : '',
});

const itemsOf = async (jobId: string) => (await handlers.readJob({ id: jobId })).items;
const stateOf = async (jobId: string, step: string) =>
  (await itemsOf(jobId)).filter((item) => item.step === step).map((item) => item.state);

async function jobReadyForPower() {
  const job = await handlers.createJob(jobFields());
  for (const step of ['cells-unplugged', 'capacitors-discharged', 'looked-over']) {
    const item = (await itemsOf(job.id)).find((one) => one.step === step)!;
    await handlers.doItem({ jobId: job.id, itemId: item.id, note: '' });
  }
  return job;
}

const read = (jobId: string, o: { itemId?: string; quantity: Quantity; place: string }) =>
  handlers.addReading({
    jobId,
    itemId: o.itemId ?? null,
    runId: null,
    quantity: o.quantity,
    value: 12,
    overload: false,
    decimals: 2,
    place: o.place,
    expectedLow: null,
    expectedHigh: null,
    source: 'meter',
  });

async function powerOnce(jobId: string) {
  clock.ms += 1000;
  const run = await recorder.startRun(runStart({ jobId, startedAt: clock.ms }));
  await recorder.appendSupply({ runId: run.id, columns: samples(40) });
  clock.ms += 2000;
  return recorder.endRun({
    runId: run.id,
    endedAt: clock.ms,
    end: 'output-off',
    report: report(),
    settings: runStart().settings,
  });
}

describe('a fitted part', () => {
  it('asks for exactly the points measured before, again, and for a second run', async () => {
    const job = await jobReadyForPower();
    await read(job.id, { quantity: 'ohms', place: 'VIN' });
    await read(job.id, { quantity: 'ohms', place: 'vin' });
    await read(job.id, { quantity: 'diode', place: 'SDA' });
    await read(job.id, { quantity: 'volts', place: 'VIN' });
    clock.ms += 1000;
    const lifted = await handlers.addPart({ jobId: job.id, part: part('lifted') });
    expect(lifted).toMatchObject({ jobId: job.id, at: clock.ms, designator: 'C12' });
    expect(await stateOf(job.id, 'part-lifted')).toEqual(['done']);
    expect(await stateOf(job.id, 'same-points-again')).toEqual([]);

    await handlers.addPart({ jobId: job.id, part: part('fitted') });
    const again = (await itemsOf(job.id)).filter((item) => item.step === 'same-points-again');
    expect(again.map(({ quantity, place, state }) => ({ quantity, place, state }))).toEqual([
      { quantity: 'ohms', place: 'VIN', state: 'open' },
      { quantity: 'diode', place: 'SDA', state: 'open' },
    ]);
    expect(await stateOf(job.id, 'second-run')).toEqual(['open']);
  });

  it('parts the runs into before and after, and leaves what a technician said', async () => {
    const job = await jobReadyForPower();
    const first = await powerOnce(job.id);
    const said = await powerOnce(job.id);
    await handlers.changeRun({ id: said.id, role: 'after' });
    await handlers.addPart({ jobId: job.id, part: part('lifted') });
    const lifted = await powerOnce(job.id);
    expect(lifted.role).toBeNull();
    clock.ms += 1000;
    await handlers.addPart({ jobId: job.id, part: part('fitted') });
    const later = await powerOnce(job.id);
    await handlers.changeRun({ id: later.id, role: null });
    await handlers.addPart({ jobId: job.id, part: part('fitted') });
    const { runs } = await handlers.readJob({ id: job.id });
    const roles = [first, said, lifted, later].map(
      ({ id }) => runs.find((run) => run.id === id)!.role,
    );
    expect(roles).toEqual(['before', 'after', 'before', null]);
    expect((await powerOnce(job.id)).role).toBe('after');
  });

  it('holds power back until those points are read or skipped with a reason', async () => {
    const job = await jobReadyForPower();
    for (const item of await itemsOf(job.id)) {
      if (!item.beforePower || item.state !== 'open') continue;
      await read(job.id, { itemId: item.id, quantity: 'ohms', place: item.place });
    }
    expect(await recorder.openGates({ jobId: job.id })).toEqual([]);
    clock.ms += 1000;
    await handlers.addPart({ jobId: job.id, part: part('fitted') });
    const gates = await recorder.openGates({ jobId: job.id });
    expect(gates.map((gate) => gate.title)).toEqual([
      'Fitted part: right way round, seated, no bridge beside it',
      'Same point again: Input',
      'Same point again: Main rail',
      'Same point again: Main rail to core',
    ]);
    await handlers.doItem({ jobId: job.id, itemId: gates[0]!.id, note: '' });
    await read(job.id, { itemId: gates[1]!.id, quantity: 'ohms', place: 'Input' });
    for (const gate of gates.slice(2)) {
      await handlers.skipItem({ jobId: job.id, itemId: gate.id, reason: 'not near the repair' });
    }
    expect(await recorder.openGates({ jobId: job.id })).toEqual([]);
  });

  it('opens the same steps again when another part is fitted', async () => {
    const job = await jobReadyForPower();
    await read(job.id, { quantity: 'ohms', place: 'VIN' });
    clock.ms += 1000;
    await handlers.addPart({ jobId: job.id, part: part('fitted') });
    const [again] = (await itemsOf(job.id)).filter((item) => item.step === 'same-points-again');
    await read(job.id, { itemId: again!.id, quantity: 'ohms', place: 'VIN' });
    await powerOnce(job.id);
    expect(await stateOf(job.id, 'same-points-again')).toEqual(['done']);
    expect(await stateOf(job.id, 'second-run')).toEqual(['done']);
    clock.ms += 1000;
    await handlers.addPart({ jobId: job.id, part: part('fitted') });
    expect(await stateOf(job.id, 'same-points-again')).toEqual(['open']);
    expect(await stateOf(job.id, 'second-run')).toEqual(['open']);
    const kept = (await itemsOf(job.id)).find((item) => item.id === again!.id);
    expect(kept?.readings).toHaveLength(1);
  });

  it('does not take a run from before the fit for the second one', async () => {
    const job = await jobReadyForPower();
    await powerOnce(job.id);
    expect(await stateOf(job.id, 'first-run')).toEqual(['done']);
    clock.ms += 1000;
    await handlers.addPart({ jobId: job.id, part: part('fitted') });
    expect(await stateOf(job.id, 'second-run')).toEqual(['open']);
    await powerOnce(job.id);
    await powerOnce(job.id);
    expect(await stateOf(job.id, 'second-run')).toEqual(['done']);
    expect(await stateOf(job.id, 'wakes-three-times')).toEqual(['open']);
    await powerOnce(job.id);
    expect(await stateOf(job.id, 'wakes-three-times')).toEqual(['done']);
  });
});

describe('a part that was written down wrong', () => {
  it('can be corrected, and asks for the points again once it says fitted', async () => {
    const job = await jobReadyForPower();
    const wrong = await handlers.addPart({ jobId: job.id, part: part('lifted') });
    const right = { ...part('fitted'), designator: 'C13' };
    expect(await handlers.changePart({ id: wrong.id, part: right })).toEqual({
      ...wrong,
      ...right,
    });
    expect((await handlers.readJob({ id: job.id })).parts).toEqual([{ ...wrong, ...right }]);
    expect(await stateOf(job.id, 'second-run')).toEqual(['open']);
  });
});
