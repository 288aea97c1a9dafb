import { WakelineError } from '../errors.ts';
import { identityReply } from './response-shape.ts';
import type { Step, Tried } from './session-step.ts';
import type { SessionTiming } from './session-timing.ts';
import type { MessageEnd, Wire } from './session-wire.ts';

/** Pauses between messages that are tried, in milliseconds, when back-to-back goes unanswered. */
const PAUSES_MS = [0, 20, 50, 100, 200] as const;
/** Instruments that end nothing tell messages apart by the quiet between them. */
const ENDLESS_PAUSE_MS = 50;
const MESSAGE_ENDS: readonly MessageEnd[] = ['\n', '\r', '\r\n', ''];
/** Asked so often at most until two answers agree. */
const MOST_ASKS = 12;

/**
 * Learns who answers: `*IDN?` until two answers in a row agree, because a boot banner or a late
 * line may come first. On the way it learns how the instrument ends its replies, which end our
 * messages need, and the pause between them. Throws `no-answer` or `bad-reply`.
 */
export async function identify(wire: Wire, step: Step, timing: SessionTiming): Promise<string> {
  await wire.untilQuiet(timing.quietMs / 3, timing.quietCapMs);
  let last = await firstAnswer(wire, step, timing);
  let pauseIndex = 0;
  // An answer to a question asked after a long silence says nothing of the pause that is needed.
  let isCloseBehind = true;
  let silentInRow = 0;
  let hasBegunAgain = false;
  for (let i = 0; i < MOST_ASKS; i += 1) {
    const tried = await step.tryOnce('*IDN?', identityReply, timing.timeoutMs.identity);
    if ('answer' in tried) {
      if (tried.answer.value === last && isCloseBehind) {
        step.identity = last;
        return last;
      }
      last = tried.answer.value;
      isCloseBehind = true;
      silentInRow = 0;
      continue;
    }
    silentInRow += 1;
    if (silentInRow === 2 && !hasBegunAgain) {
      // What was taken for an answer was said while it started: nothing is known of it yet.
      hasBegunAgain = true;
      last = await firstAnswer(wire, step, timing);
      isCloseBehind = true;
      continue;
    }
    pauseIndex += 1;
    if (tried.isFinal || pauseIndex >= PAUSES_MS.length) throw new WakelineError(tried.trouble);
    await wire.untilQuiet(timing.quietMs, timing.quietCapMs);
    wire.pauseMs = Math.max(wire.pauseMs, PAUSES_MS[pauseIndex]!);
    isCloseBehind = false;
  }
  throw new WakelineError({
    code: 'bad-reply',
    what: `It answered *IDN? differently every time, lastly "${last}"`,
    where: 'asking who is there',
    todo: 'Check the baud rate, and that one instrument only is on this line.',
  });
}

async function firstAnswer(wire: Wire, step: Step, timing: SessionTiming): Promise<string> {
  let trouble: Exclude<Tried<string>, { answer: unknown }> | null = null;
  // The last try is the first again: opening the port restarts some instruments, which are deaf
  // for seconds, and by then they are up.
  const { pauseMs } = wire;
  const ends = timing.retries > 0 ? [...MESSAGE_ENDS, MESSAGE_ENDS[0]!] : MESSAGE_ENDS;
  for (const end of ends) {
    wire.messageEnd = end;
    // What was sent with another end may still wait in the instrument for this one.
    if (end !== '' && trouble !== null) wire.transmit('');
    wire.pauseMs = end === '' ? ENDLESS_PAUSE_MS : pauseMs;
    const tried = await step.tryOnce('*IDN?', identityReply, timing.timeoutMs.identity);
    if ('answer' in tried) return tried.answer.value;
    if (trouble === null || tried.trouble.code === 'bad-reply') trouble = tried;
    if (tried.isFinal) break;
    const { outcome } = tried;
    if (outcome?.kind === 'silent' && identityReply.decode(outcome.partial) !== undefined) {
      // A whole answer that never ended: it ends with CR alone, or not at all.
      wire.replyEnd = outcome.isAtReturn ? 'cr' : 'quiet';
      if (wire.replyEnd === 'quiet') wire.pauseMs = ENDLESS_PAUSE_MS;
      await wire.untilQuiet(timing.quietMs, timing.quietCapMs);
      const again = await step.tryOnce('*IDN?', identityReply, timing.timeoutMs.identity);
      if ('answer' in again && again.answer.value === outcome.partial) return again.answer.value;
      wire.replyEnd = 'lf';
      wire.pauseMs = pauseMs;
    }
    await wire.untilQuiet(timing.quietMs, timing.quietCapMs);
  }
  throw new WakelineError(trouble!.trouble);
}
