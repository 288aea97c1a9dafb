import { describe, expect, it } from 'vitest';
import { share } from '../../../renderer/state/share.ts';

describe('sharing what did not change', () => {
  it('keeps the whole when nothing changed', () => {
    const before = { a: 1, b: { c: [1, 2, { d: null }] } };
    expect(share(before, structuredClone(before))).toBe(before);
  });

  it('keeps the parts beside the one that changed', () => {
    const before = { supply: { volts: 1 }, feed: { point: 'other' }, shelf: [{ key: 'a' }] };
    const after = share(before, { ...structuredClone(before), supply: { volts: 2 } });
    expect(after).not.toBe(before);
    expect(after.supply).toEqual({ volts: 2 });
    expect(after.feed).toBe(before.feed);
    expect(after.shelf).toBe(before.shelf);
  });

  it('sees what was added, what went and what became nothing', () => {
    expect(share({ a: 1 }, { a: 1, b: undefined })).toEqual({ a: 1, b: undefined });
    expect('b' in share({ a: 1 }, { a: 1, b: undefined })).toBe(true);
    expect(share({ a: 1, b: 2 }, { a: 1 })).toEqual({ a: 1 });
    expect(share([1, 2, 3], [1, 2])).toEqual([1, 2]);
    expect(share({ a: { b: 1 } }, { a: null })).toEqual({ a: null });
    expect(share(null, { a: 1 })).toEqual({ a: 1 });
    expect(share([1], { 0: 1 })).toEqual({ 0: 1 });
  });

  it('keeps a reading that is not a number', () => {
    const before = { volts: Number.NaN };
    expect(share(before, { volts: Number.NaN })).toBe(before);
  });
});
