import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { startPoller } from '../../../electron/bench/poller.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

const noAnswer = () =>
  new WakelineError({ code: 'no-answer', what: 'No answer', where: 'x', todo: 'y' });

/** A poller whose reads take what `tookMs` says for each. */
function polled(intervalMs: number, tookMs: (poll: number) => number) {
  const clock = virtualClock();
  const mids: number[] = [];
  const troubles: string[] = [];
  let poll = 0;
  let underWay = 0;
  let most = 0;
  const poller = startPoller({
    clock,
    intervalMs,
    async read() {
      const took = tookMs(poll);
      poll += 1;
      underWay += 1;
      most = Math.max(most, underWay);
      await new Promise<void>((resolve) => {
        clock.setTimer(resolve, Math.abs(took));
      });
      underWay -= 1;
      if (took < 0) throw noAnswer();
      return poll;
    },
    onReading: (_, at) => mids.push(at.midMs),
    onTrouble: (trouble) => troubles.push(trouble.code),
  });
  return { clock, poller, mids, troubles, most: () => most, polls: () => poll };
}

describe('the poller', () => {
  it('keeps its cadence and stamps each reading at the middle of request and response', async () => {
    const { clock, poller, mids } = polled(50, (poll) => 4 + (poll % 3) * 4);
    await clock.pass(1000);
    expect(mids.slice(0, 4)).toEqual([2, 54, 106, 152]);
    expect(mids).toHaveLength(20);
    expect(poller.rateHz).toBeCloseTo(20, 0);
    expect(poller.missed).toBe(0);
  });

  it('takes the times that a reading carries, for readings that waited in a queue', async () => {
    const clock = virtualClock();
    const mids: number[] = [];
    startPoller({
      clock,
      intervalMs: 50,
      read: async () => ({ sentMs: 1000, gotMs: 1010 }),
      timesOf: (reading) => reading,
      onReading: (_, at) => mids.push(at.midMs),
      onTrouble: () => {},
    });
    await clock.pass(1);
    expect(mids).toEqual([1005]);
  });

  it('never piles up on a slow instrument: it polls as fast as it can and counts what it missed', async () => {
    const { clock, poller, mids, most } = polled(50, () => 120);
    await clock.pass(3000);
    expect(most()).toBe(1);
    expect(poller.rateHz).toBeCloseTo(1000 / 120, 1);
    // Of 60 that fell due, those that were not read were missed, but for one under way.
    expect(Math.abs(60 - mids.length - poller.missed)).toBeLessThanOrEqual(2);
  });

  it('goes back to its cadence after one slow poll and does not catch up in a burst', async () => {
    const { clock, poller, mids } = polled(50, (poll) => (poll === 4 ? 1000 : 2));
    await clock.pass(2000);
    const after = mids.filter((mid) => mid > 1250);
    for (let i = 1; i < after.length; i += 1) expect(after[i]! - after[i - 1]!).toBe(50);
    expect(poller.missed).toBe(19);
  });

  it('goes on after a failed poll, and counts it as missed', async () => {
    const { clock, poller, mids, troubles } = polled(50, (poll) => (poll % 4 === 3 ? -2 : 2));
    await clock.pass(1000);
    expect(troubles).toEqual(Array(5).fill('no-answer'));
    expect(mids).toHaveLength(15);
    expect(poller.missed).toBe(5);
  });

  it('stops, also in the middle of a read, and says nothing afterwards', async () => {
    const { clock, poller, mids, polls } = polled(50, () => 30);
    await clock.pass(110);
    const stopped = poller.stop();
    await clock.settle(stopped);
    const before = { mids: mids.length, polls: polls() };
    await clock.pass(1000);
    expect({ mids: mids.length, polls: polls() }).toEqual(before);
  });
});
