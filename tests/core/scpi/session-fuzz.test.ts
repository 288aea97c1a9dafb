import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { numberReply } from '../../../core/scpi/response-shape.ts';
import { openSession } from '../../../core/scpi/session.ts';
import { longestQueryMs, USUAL_TIMING } from '../../../core/scpi/session-timing.ts';
import { type Faults, faultyLine, seededRandom } from '../../support/faulty-line.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

const WHO = 'BENCHWORKS,TWO-FORTY,000017,1.4';
const NONE: Faults = {
  lost: 0,
  cut: 0,
  delayed: 0,
  doubled: 0,
  echoedLater: 0,
  dirty: 0,
  split: 0,
};

/** As many as one wishes; another seed makes another line. */
const REPLIES = Number(process.env.WAKELINE_FUZZ_REPLIES ?? 10_000);
const SEED = Number(process.env.WAKELINE_FUZZ_SEED ?? 20);

/**
 * A device whose every answer says which message it answers: message n asked as MEAS:VOLT? gives
 * n.25 and as MEAS:CURR? n.75, so that a reading under the wrong query cannot hide.
 */
function countingDevice() {
  let count = 0;
  return {
    get count() {
      return count;
    },
    answer(message: string): string | null {
      count += 1;
      const units = message.split(';');
      if (units[0] === '*IDN?') return `${units.map(() => WHO).join(';')}\r\n`;
      if (message === 'SYST:ERR?') return '0,"No error"\r\n';
      if (message === 'MEAS:VOLT?') return `${count}.25\r\n`;
      if (message === 'MEAS:CURR?') return `${count}.75\r\n`;
      return null;
    },
  };
}

describe('a session on a bad line', () => {
  const kinds = [
    { kind: 'joins queries', canJoin: true, hasErrorQueue: true },
    { kind: 'has an error queue', canJoin: false, hasErrorQueue: true },
    { kind: 'only says who it is', canJoin: false, hasErrorQueue: false },
  ];
  it.each(kinds)(
    'to a device that $kind gives no reading to the wrong query, hangs past no time-out and survives',
    async (kind) => {
      const clock = virtualClock();
      const random = seededRandom(SEED);
      const device = countingDevice();
      let faults = NONE;
      // The session's own way to a device; faults begin once it knows who answers.
      const line = faultyLine(
        clock,
        random,
        new Proxy(NONE, { get: (_, key: keyof Faults) => faults[key] }),
        device.answer,
      );
      const session = openSession(line, clock);
      await clock.settle(session.identify());
      session.canJoin = kind.canJoin;
      session.hasErrorQueue = kind.hasErrorQueue;
      faults = {
        lost: 0.06,
        cut: 0.06,
        delayed: 0.04,
        doubled: 0.06,
        echoedLater: 0,
        dirty: 0.06,
        split: 0.06,
      };
      const longestMs = longestQueryMs(USUAL_TIMING, USUAL_TIMING.timeoutMs.status);
      let answered = 0;
      let failed = 0;
      for (let i = 0; device.count < REPLIES; i += 1) {
        const isVolts = i % 2 === 0;
        const before = device.count;
        const startMs = clock.nowMs();
        try {
          const message = isVolts ? 'MEAS:VOLT?' : 'MEAS:CURR?';
          const { value } = await clock.settle(session.query(message, numberReply));
          answered += 1;
          if (value.kind !== 'value') throw new Error('not a value');
          expect(value.value % 1, `${message} answered ${value.value}`).toBe(isVolts ? 0.25 : 0.75);
          expect(Math.floor(value.value)).toBeGreaterThan(before);
        } catch (thrown) {
          if (!(thrown instanceof WakelineError)) throw thrown;
          failed += 1;
        }
        expect(clock.nowMs() - startMs).toBeLessThanOrEqual(longestMs);
      }
      expect(line.spoiled).toBeGreaterThan(REPLIES / 4);
      expect(answered).toBeGreaterThan(failed * 5);
    },
  );

  it('survives a million random bytes and answers again when they stop', async () => {
    const clock = virtualClock();
    const random = seededRandom(7);
    let isNoisy = false;
    let bytesSent = 0;
    const noise = () => {
      const length = 1 + Math.floor(random() * 4000);
      bytesSent += length;
      let text = '';
      for (let i = 0; i < length; i += 1) text += String.fromCharCode(Math.floor(random() * 256));
      return text;
    };
    const line = faultyLine(clock, random, NONE, (message) => {
      if (isNoisy) return noise();
      return message === '*IDN?' ? `${WHO}\r\n` : '3.300\r\n';
    });
    const session = openSession(line, clock);
    await clock.settle(session.identify());
    isNoisy = true;
    const longestMs = longestQueryMs(USUAL_TIMING, USUAL_TIMING.timeoutMs.status);
    while (bytesSent < 1_000_000) {
      const startMs = clock.nowMs();
      const outcome = await clock.settle(
        session.query('MEAS:VOLT?', numberReply).then(
          ({ value }) => (value.kind === 'value' ? Number.isFinite(value.value) : true),
          (thrown: unknown) => thrown instanceof WakelineError,
        ),
      );
      expect(outcome).toBe(true);
      expect(clock.nowMs() - startMs).toBeLessThanOrEqual(longestMs);
    }
    isNoisy = false;
    const { value } = await clock.settle(session.query('MEAS:VOLT?', numberReply));
    expect(value).toMatchObject({ value: 3.3 });
  });

  it('that is random from the first byte is refused, not believed', async () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const clock = virtualClock();
      const random = seededRandom(seed);
      const line = faultyLine(clock, random, NONE, () => {
        let text = '';
        for (let i = 0; i < 300; i += 1) text += String.fromCharCode(Math.floor(random() * 256));
        return text;
      });
      const outcome = await clock.settle(
        openSession(line, clock)
          .identify()
          .then(
            (identity) => identity,
            (thrown: unknown) => thrown,
          ),
      );
      expect(outcome).toBeInstanceOf(WakelineError);
    }
  });
});
