import { describe, expect, it } from 'vitest';
import { followedPitch } from '../../../renderer/sounds/followed-value.ts';
import { benchState } from '../../support/idle-bench.ts';

describe('the tone that follows a reading', () => {
  it('follows the draw only while the output is on', () => {
    const on = benchState({ supply: { outputOn: true, amps: 0.2 } });
    expect(followedPitch('draw', on)).toBeGreaterThan(110);
    expect(followedPitch('draw', benchState({ supply: { outputOn: false } }))).toBeNull();
    expect(followedPitch('draw', benchState({ supply: { link: 'lost' } }))).toBeNull();
  });

  it('follows the meter only in the function that was chosen, and not an open lead', () => {
    const ohms = benchState({ meter: { quantity: 'ohms', value: 3 } });
    expect(followedPitch('ohms', ohms)).not.toBeNull();
    expect(followedPitch('millivolts', ohms)).toBeNull();
    const open = benchState({ meter: { quantity: 'ohms', value: null, overload: true } });
    expect(followedPitch('ohms', open)).toBeNull();
    expect(followedPitch('off', ohms)).toBeNull();
  });
});
