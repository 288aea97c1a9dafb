import { describe, expect, it } from 'vitest';
import { hasSocat } from '../support/pty.ts';
import { killAndHang } from './kill-and-hang.ts';

describe.skipIf(!hasSocat())('kills and hangs', () => {
  // In full: node tests/watch/kills.ts.
  it('goes off within a second each time, loses at most a second, and keeps the ledger whole', async () => {
    const outcomes = await killAndHang({ kills: 4, hangs: 2, seed: 7, say: () => {} });
    expect(outcomes).toHaveLength(6);
    for (const one of outcomes) {
      expect(one.offMs, one.kind).not.toBeNull();
      expect(one.offMs, one.kind).toBeLessThan(1000);
      expect(one.integrity, one.kind).toBe('ok');
      expect(one.lostS ?? 0, one.kind).toBeLessThanOrEqual(1);
    }
    expect(outcomes.filter(({ wasOn }) => wasOn).length).toBeGreaterThanOrEqual(5);
  }, 90_000);
});
