import { describe, expect, it } from 'vitest';
import { FIRST_GUARD, type GuardSettings } from '../../../core/guard/guard-settings.ts';
import { guardFormOf, isGuardWrong, limitsOfForm } from '../../../renderer/guard/guard-form.ts';

const SETTINGS: GuardSettings = {
  policy: 'off',
  readings: [
    { on: 'amps', aboveA: 0.5, holdS: 2, action: 'off' },
    { on: 'energy', aboveWh: 1.5, action: 'alert' },
  ],
  stages: [
    { on: 'cycling', times: 3, action: 'off' },
    { on: 'fell-back', action: 'alert' },
  ],
  own: { overV: 20, overA: null },
};

describe('the form of limits', () => {
  it('gives back the limits that it was filled from', () => {
    for (const settings of [SETTINGS, FIRST_GUARD]) {
      const { readings, stages, own } = settings;
      expect(limitsOfForm(guardFormOf(settings))).toEqual({ readings, stages, own });
    }
  });

  it('takes units and prefixes as they are typed', () => {
    const form = guardFormOf(SETTINGS);
    const rows = { ...form.rows, amps: { limit: '350 mA', hold: '0,5', action: 'off' as const } };
    const read = limitsOfForm({ ...form, rows });
    expect(read).toMatchObject({ readings: [{ on: 'amps', aboveA: 0.35, holdS: 0.5 }, {}] });
  });

  it.each([
    ['amps', 'amps', { limit: 'a lot', hold: '', action: 'off' }],
    ['amps', 'no number', { limit: '', hold: '', action: 'off' }],
    ['volts', 'a negative one', { limit: '-3', hold: '', action: 'alert' }],
    ['cycling', 'half a round', { limit: '2.5', hold: '', action: 'off' }],
    ['watts', 'more than an hour', { limit: '3', hold: '9999', action: 'off' }],
  ] as const)('names the line that cannot be read: %s, %s', (on, _what, text) => {
    const form = guardFormOf(FIRST_GUARD);
    const read = limitsOfForm({ ...form, rows: { ...form.rows, [on]: text } });
    expect(isGuardWrong(read) && read.at).toBe(on);
  });

  it('leaves out a line without an action, whatever stands in it', () => {
    const form = guardFormOf(FIRST_GUARD);
    const rows = { ...form.rows, amps: { limit: 'x', hold: 'y', action: 'none' as const } };
    expect(limitsOfForm({ ...form, rows })).toMatchObject({ readings: [] });
  });
});
