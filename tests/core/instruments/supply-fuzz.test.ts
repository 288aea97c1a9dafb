import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openSupply } from '../../../core/instruments/supply.ts';
import { openSession } from '../../../core/scpi/session.ts';
import { type Faults, faultyLine, seededRandom } from '../../support/faulty-line.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

/** As many as one wishes; another seed makes another line. */
const REPLIES = Number(process.env.WAKELINE_FUZZ_REPLIES ?? 10_000);
const SEED = Number(process.env.WAKELINE_FUZZ_SEED ?? 4);

const NONE: Faults = {
  lost: 0,
  cut: 0,
  delayed: 0,
  doubled: 0,
  echoedLater: 0,
  dirty: 0,
  split: 0,
};

/** A supply whose readings say which message they answer: volts n.25, amps n.75, set-points 1000. */
function countingSupply() {
  let count = 0;
  const unit = (header: string): string | null => {
    if (header === '*IDN?') return 'BENCHWORKS,COUNTER,1,1';
    if (header === 'MEAS:VOLT?') return `${count}.25`;
    if (header === 'MEAS:CURR?') return `${count}.75`;
    if (/^(VOLT|CURR)\?( MAX)?$/.test(header)) return '1000.5';
    if (header === 'OUTP?') return '1';
    if (header === 'SYST:ERR?') return '0,"No error"';
    return null;
  };
  return {
    get count() {
      return count;
    },
    answer(message: string): string | null {
      count += 1;
      const replies = message
        .split(';')
        .map((one) => unit(one.replace(/^:/, '')))
        .filter((reply) => reply !== null);
      return replies.length === 0 ? null : `${replies.join(';')}\r\n`;
    },
  };
}

describe('a supply on a bad line', () => {
  it('pairs volts and amps of one poll, never of two, and never takes an old poll for a new one', async () => {
    const clock = virtualClock();
    const supplyDevice = countingSupply();
    let faults = NONE;
    const line = faultyLine(
      clock,
      seededRandom(SEED),
      new Proxy(NONE, { get: (_, key: keyof Faults) => faults[key] }),
      supplyDevice.answer,
    );
    const supply = await clock.settle(openSupply(openSession(line, clock)));
    faults = {
      lost: 0.05,
      cut: 0.05,
      delayed: 0.04,
      doubled: 0.05,
      echoedLater: 0.08,
      dirty: 0.05,
      split: 0.05,
    };
    let read = 0;
    let failed = 0;
    while (supplyDevice.count < REPLIES) {
      const before = supplyDevice.count;
      try {
        const { volts, amps, outputOn } = await clock.settle(supply.read());
        read += 1;
        expect(volts! % 1).toBe(0.25);
        expect(amps).toBe(volts! + 0.5);
        expect(Math.floor(volts!)).toBeGreaterThan(before);
        expect(outputOn).toBe(true);
      } catch (thrown) {
        if (!(thrown instanceof WakelineError)) throw thrown;
        failed += 1;
      }
    }
    expect(line.spoiled).toBeGreaterThan(REPLIES / 4);
    expect(read).toBeGreaterThan(failed * 5);
  });
});
