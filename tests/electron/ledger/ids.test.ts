import { validate, version } from 'uuid';
import { describe, expect, it } from 'vitest';
import { createIds } from '../../../electron/ledger/ids.ts';

describe('ids', () => {
  it('are UUIDs of version 7 that carry the clock (RFC 9562, 5.7)', () => {
    const id = createIds(() => 0x0187_1234_5678)();
    expect(validate(id)).toBe(true);
    expect(version(id)).toBe(7);
    expect(id.slice(0, 13)).toBe('01871234-5678');
  });

  it('sort in the order they were made, within a millisecond and when the clock steps back', () => {
    const times = [5, 5, 5, 9, 2, 2, 10];
    const newId = createIds(() => times.shift() ?? 10);
    const ids = Array.from({ length: 2000 }, newId);
    expect(ids).toEqual([...ids].sort());
    expect(new Set(ids).size).toBe(ids.length);
  });
});
