import { describe, expect, it } from 'vitest';
import { knownPlaces } from '../../../renderer/probing/known-places.ts';
import { fakeJob, wholeOf } from '../../support/fake-jobs.ts';

describe('the names that a reading is offered', () => {
  it('are open steps of its own quantity first, then every place of the job once', () => {
    const whole = wholeOf(fakeJob(1, {}, 0));
    const volts = whole.items.filter((one) => one.quantity === 'volts' && one.place !== '');
    const found = knownPlaces(whole, 'volts');
    expect(found.slice(0, volts.length).map((one) => one.item?.id)).toEqual(
      volts.map((one) => one.id),
    );
    const names = found.map((one) => one.place);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toEqual(
      expect.arrayContaining(whole.items.map((one) => one.place).filter(Boolean)),
    );
  });

  it('leave settled steps as a name only, and are none without a job', () => {
    const whole = wholeOf(fakeJob(1, {}, 0));
    const items = whole.items.map((one) => ({ ...one, state: 'done' as const }));
    expect(knownPlaces({ ...whole, items }, 'volts').every((one) => one.item === null)).toBe(true);
    expect(knownPlaces(null, 'volts')).toEqual([]);
  });
});
