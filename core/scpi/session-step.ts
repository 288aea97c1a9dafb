import { type Trouble, WakelineError } from '../errors.ts';
import { decodeErrorEntry, type ErrorEntry, unsolicitedError } from './response-error.ts';
import type { ReplyShape } from './response-shape.ts';
import { isNoise, withoutEcho, withoutPrompt } from './session-noise.ts';
import { resyncQuestions } from './session-resync.ts';
import { RESYNC_TRIES, type SessionTiming } from './session-timing.ts';
import { badReplyTrouble, lostTrouble, refusedTrouble, silentTrouble } from './session-trouble.ts';
import type { Judge, Wire, WireOutcome } from './session-wire.ts';

/** An answer with the times of its request and response on the session's clock. */
export interface Answer<T> {
  readonly value: T;
  readonly sentMs: number;
  readonly gotMs: number;
}

/** What one try of a query came to. */
export type Tried<T> =
  | { readonly answer: Answer<T> }
  | {
      readonly trouble: Trouble;
      /** Asking again cannot help. */
      readonly isFinal: boolean;
      readonly outcome: WireOutcome<T> | null;
    };

/**
 * Keeps requests and replies in step. After anything odd (silence, garbage, a line nobody asked
 * for) it waits for quiet and asks `*IDN?`, whose answer is known, and believes nothing before
 * that answer has come: so a late reply is never taken for the next one.
 */
export interface Step {
  identity: string;
  /** Whether several queries may stand in one message. */
  canJoin: boolean;
  /** Whether `SYST:ERR?` is answered; null = not known yet. */
  hasErrorQueue: boolean | null;
  /** When an answer to anything last came, on the session's clock. */
  answeredMs: number;
  /** Called for each error that the instrument tells without being asked. */
  onUnsolicited: (entry: ErrorEntry) => void;
  /** Whether a line that nobody waits for puts the replies in doubt. */
  isStray(line: string): boolean;
  /** Asks once, in step. */
  tryOnce<T>(message: string, shape: ReplyShape<T>, timeoutMs: number): Promise<Tried<T>>;
  /** Asks, and again up to `retries` times. Throws `no-answer`, `bad-reply`, `port-lost`... */
  ask<T>(
    message: string,
    shape: ReplyShape<T>,
    timeoutMs: number,
    retries: number,
  ): Promise<Answer<T>>;
}

const LEAST_PATIENCE_MS = 400;
const PATIENCE_TIMES = 8;

export function stepKeeper(wire: () => Wire, timing: SessionTiming, linkName: string): Step {
  let isInStep = true;
  let refusal: ErrorEntry | null = null;
  let resyncs = 0;
  /** Answers that resyncs asked for and never saw, by question. */
  const owed = new Map<string, number>();

  const where = () => (step.identity === '' ? linkName : `${step.identity} on ${linkName}`);
  const isIdentity = (reply: string) =>
    step.identity !== '' && (reply === step.identity || reply.startsWith(`${step.identity};`));

  /** Whether a line answers nothing. An identity that nobody asked for is one of a late resync. */
  function isChatter(reply: string, isIdentityDue: boolean): boolean {
    const error = unsolicitedError(reply);
    if (error === undefined) {
      if (isNoise(reply, wire().sent)) return true;
      return !isIdentityDue && isIdentity(reply);
    }
    if (error !== null && error.code !== 0) {
      step.onUnsolicited(error);
      refusal = error;
    }
    return true;
  }

  function judgeFor<T>(message: string, shape: ReplyShape<T>): Judge<T> {
    return (line) => {
      const reply = withoutEcho(withoutPrompt(line), message);
      if (isChatter(reply, message === '*IDN?')) return refusal === null ? 'ignore' : 'hasten';
      const value = shape.decode(reply);
      return value === undefined ? 'hasten' : { value };
    };
  }

  /** How long it may take to say who it is: by its own pace first, so that silence is noticed soon. */
  function patienceMs(attempt: number): number {
    if (attempt > 0) return timing.timeoutMs.identity;
    const byPaceMs = Math.max(LEAST_PATIENCE_MS, PATIENCE_TIMES * wire().slowestMs);
    return Math.min(timing.timeoutMs.identity, byPaceMs);
  }

  /**
   * Asks something whose answer is known until the answer to that very question has come. Each
   * resync asks another question where there is a choice, so that the late answer to an earlier
   * one is told apart; an answer still owed to the same question gets a long quiet to arrive in.
   */
  async function resync(): Promise<boolean> {
    const questions = resyncQuestions(step.identity, step.canJoin, step.hasErrorQueue === true);
    for (let i = 0; i < RESYNC_TRIES; i += 1) {
      const { message, fits } = questions[resyncs % questions.length]!;
      resyncs += 1;
      const isOwed = (owed.get(message) ?? 0) > 0;
      const { identity } = timing.timeoutMs;
      if (isOwed) await wire().untilQuiet(identity, timing.quietCapMs + identity);
      // A time-out that passed in silence was quiet enough.
      else await wire().untilQuiet(timing.quietMs, timing.quietCapMs, wire().sentMs);
      await wire().paused();
      owed.set(message, (owed.get(message) ?? 0) + 1);
      const judge: Judge<string> = (line) => {
        const reply = withoutEcho(withoutPrompt(line), message);
        if (fits(reply)) return { value: reply };
        isChatter(reply, false);
        return 'ignore';
      };
      const outcome = await wire().exchange(message, judge, patienceMs(i));
      if (outcome.kind === 'answered') {
        owed.set(message, 0);
        isInStep = true;
        step.answeredMs = outcome.gotMs;
        const entry = decodeErrorEntry(outcome.value);
        if (entry !== undefined && entry.code !== 0) step.onUnsolicited(entry);
      }
      if (outcome.kind !== 'silent') return isInStep;
    }
    return false;
  }

  function troubleOfOutcome(
    outcome: WireOutcome<unknown> & { kind: 'silent' },
    message: string,
    due: string,
    timeoutMs: number,
  ): Trouble {
    if (refusal !== null) return refusedTrouble(where(), message, [refusal]);
    const { odd, partial } = outcome;
    if (partial !== '') return badReplyTrouble(where(), message, partial, due, true);
    if (odd !== null) return badReplyTrouble(where(), message, odd, due, false);
    return silentTrouble(where(), message, timeoutMs);
  }

  const step: Step = {
    identity: '',
    canJoin: false,
    hasErrorQueue: null,
    answeredMs: Number.NEGATIVE_INFINITY,
    onUnsolicited: () => {},
    isStray: (line) => !isChatter(withoutPrompt(line), false),
    async tryOnce(message, shape, timeoutMs) {
      const final = (trouble: Trouble) => ({ trouble, isFinal: true, outcome: null });
      if (!wire().isOpen) return final(lostTrouble(where()));
      if (wire().hasStray) isInStep = false;
      if (!isInStep && step.identity !== '' && !(await resync())) {
        if (!wire().isOpen) return final(lostTrouble(where()));
        return final(silentTrouble(where(), '*IDN?', timing.timeoutMs.identity));
      }
      await wire().paused();
      refusal = null;
      const outcome = await wire().exchange(message, judgeFor(message, shape), timeoutMs);
      if (outcome.kind === 'answered') {
        step.answeredMs = outcome.gotMs;
        return { answer: { value: outcome.value, sentMs: wire().sentMs, gotMs: outcome.gotMs } };
      }
      isInStep = false;
      if (outcome.kind === 'closed') return final(lostTrouble(where()));
      const trouble = troubleOfOutcome(outcome, message, shape.due, timeoutMs);
      return { trouble, isFinal: refusal !== null, outcome };
    },
    async ask(message, shape, timeoutMs, retries) {
      for (let attempt = 0; ; attempt += 1) {
        const tried = await step.tryOnce(message, shape, timeoutMs);
        if ('answer' in tried) return tried.answer;
        if (tried.isFinal || attempt >= retries) throw new WakelineError(tried.trouble);
      }
    },
  };
  return step;
}
