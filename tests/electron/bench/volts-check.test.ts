import { afterEach, describe, expect, it, vi } from 'vitest';
import type { MeterReading } from '../../../core/instruments/meter.ts';
import type { Quantity } from '../../../core/job/job.ts';
import { createVoltsCheck } from '../../../electron/bench/volts-check.ts';

afterEach(() => vi.useRealTimers());
const reading = (value: number | null, quantity: Quantity = 'volts'): MeterReading => ({
  quantity,
  value,
  overload: value === null,
  decimals: 4,
  sentMs: 0,
  gotMs: 0,
});

describe('the look at the volts before a resistance is kept', () => {
  it('waits for two readings in volts and puts the meter back', async () => {
    const set: Quantity[] = [];
    const check = createVoltsCheck(async (quantity) => void set.push(quantity), 'ohms');
    check.see(reading(5, 'ohms'));
    check.see(reading(1.2));
    check.see(reading(0.003));
    expect(await check.isDead).toBe(true);
    expect(set).toEqual(['volts', 'ohms']);
  });

  it('finds the point alive on volts, and on over range', async () => {
    for (const value of [0.4, -0.4, null]) {
      const check = createVoltsCheck(async () => {}, 'diode');
      check.see(reading(value));
      check.see(reading(value));
      expect(await check.isDead).toBe(false);
    }
  });

  it('clears no point on a meter that says nothing', async () => {
    vi.useFakeTimers();
    const check = createVoltsCheck(async () => {}, 'ohms');
    await vi.advanceTimersByTimeAsync(6500);
    expect(await check.isDead).toBe(false);
  });

  it('lets a meter be whose switch is turned by hand', async () => {
    const check = createVoltsCheck(() => Promise.reject(new Error('by hand')), 'ohms');
    expect(await check.isDead).toBe(true);
  });
});
