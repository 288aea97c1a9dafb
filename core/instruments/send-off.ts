import type { ByteLink } from '../scpi/byte-link.ts';
import { booleanReply } from '../scpi/response-shape.ts';
import type { Clock } from '../scpi/session-clock.ts';
import { openWire, type Wire } from '../scpi/session-wire.ts';
import type { SwitchOff } from './switch-off.ts';

/**
 * What came of telling a supply to switch off: read back off, told several times where it cannot
 * tell, read back on, no answer, or an answer from another instrument.
 */
export type OffResult = 'read-back-off' | 'told' | 'stays-on' | 'silent' | 'another';

export interface OffSent {
  readonly result: OffResult;
  /** When the first OFF was handed to the port, on the clock given; NaN = none was. */
  readonly offMs: number;
}

const TRIES = 3;
const ANSWER_MS = 300;
const CAREFUL_PAUSE_MS = 100;

/**
 * Tells a supply on a line in an unknown state to switch off, and reads back. First an empty
 * message, which ends whatever was cut off half-way; then OFF at once; then who answers, so that
 * late answers to somebody else's questions are past; then whether the output is on.
 */
export async function sendOff(link: ByteLink, clock: Clock, how: SwitchOff): Promise<OffSent> {
  const wire = openWire(link, clock, { isStray: () => false });
  wire.pauseMs = how.pauseMs;
  wire.messageEnd = how.messageEnd;
  wire.replyEnd = how.replyEnd;
  let offMs = Number.NaN;
  let result: OffResult = 'silent';
  try {
    await tell();
  } catch (thrown) {
    // The link is gone, or was taken away because main is back: what was sent is still told.
    if (wire.isOpen) throw thrown;
    result = 'silent';
  }
  return { result, offMs };

  async function tell(): Promise<void> {
    if (how.messageEnd !== '') wire.transmit('');
    for (let i = 0; i < TRIES; i += 1) {
      if (i > 0) {
        // It may have missed one for coming too close behind another, or may be in local control.
        wire.pauseMs = Math.max(wire.pauseMs, CAREFUL_PAUSE_MS);
        if (how.takeRemote !== null) await sendPaused(wire, how.takeRemote);
      }
      if (how.select !== null) await sendPaused(wire, how.select);
      await sendPaused(wire, how.off);
      if (Number.isNaN(offMs)) offMs = wire.sentMs;
      result = await readBack(wire, how, ANSWER_MS * 2 ** i);
      if (result === 'read-back-off' || result === 'another' || !wire.isOpen) break;
    }
  }
}

async function sendPaused(wire: Wire, message: string): Promise<void> {
  await wire.paused();
  wire.transmit(message);
}

async function readBack(wire: Wire, how: SwitchOff, timeoutMs: number): Promise<OffResult> {
  if (how.identity !== '') {
    await wire.paused();
    let other = false;
    const who = await wire.exchange(
      '*IDN?',
      (line) => {
        if (line.includes(how.identity)) return { value: true };
        other ||= /[A-Za-z]{2}.*,/.test(line) && !line.includes('"');
        return 'ignore';
      },
      timeoutMs,
    );
    if (who.kind === 'closed') return 'silent';
    if (who.kind === 'silent') return other ? 'another' : 'silent';
  }
  if (how.askOutput === null) return 'told';
  await wire.paused();
  const asked = await wire.exchange(
    how.askOutput,
    (line) => {
      const value = booleanReply.decode(line);
      return value === undefined ? 'ignore' : { value };
    },
    timeoutMs,
  );
  if (asked.kind !== 'answered') return 'silent';
  return asked.value ? 'stays-on' : 'read-back-off';
}
