import { type Trouble, WakelineError } from '../errors.ts';
import type { ByteLink } from './byte-link.ts';
import { type ErrorEntry, unsolicitedError } from './response-error.ts';
import { errorReply, identityReply, type ReplyShape } from './response-shape.ts';
import type { Clock } from './session-clock.ts';
import { isNoise, withoutPrompt } from './session-noise.ts';
import {
  type CommandClass,
  LONGEST_ERROR_QUEUE,
  RESYNC_TRIES,
  type SessionTiming,
  USUAL_TIMING,
} from './session-timing.ts';
import {
  badReplyTrouble,
  lostTrouble,
  overtakenTrouble,
  refusedTrouble,
  silentTrouble,
} from './session-trouble.ts';
import { type LineVerdict, openWire, type TrafficListener, type Wire } from './session-wire.ts';

/** An answer with the times of its request and response on the session's clock. */
export interface Answer<T> {
  readonly value: T;
  readonly sentMs: number;
  readonly gotMs: number;
}

export interface QueryOptions {
  readonly class?: CommandClass;
  readonly timeoutMs?: number;
  /** How often it may be asked again; default by the session's timing. */
  readonly retries?: number;
  /** `urgent` goes before everything that waits. */
  readonly lane?: 'usual' | 'urgent';
}

/**
 * A conversation with one instrument: one request in flight, replies matched by their shape,
 * found again after silence or garbage before anything else is believed.
 */
export interface Session {
  /** What a person calls it: the link's name, with the identity once it is known. */
  readonly name: string;
  readonly clock: Clock;
  readonly isOpen: boolean;
  /** What `*IDN?` said; empty before `identify`. */
  readonly identity: string;
  /** Whether sets can be checked by the error queue; null = not known yet. */
  hasErrorQueue: boolean | null;
  /** Pause between messages that this instrument needs, in milliseconds. */
  pauseMs: number;
  /** Learns who answers, in what framing and at what pause. Throws `no-answer` or `bad-reply`. */
  identify(): Promise<string>;
  /**
   * Asks and waits for a reply of that shape. Throws `bad-reply` for anything else, `no-answer`,
   * `instrument-refused`, `port-lost`: never a made-up value.
   */
  query<T>(message: string, shape: ReplyShape<T>, options?: QueryOptions): Promise<Answer<T>>;
  /** Sends a set, once, and checks it by the error queue. Throws `instrument-refused` in its words. */
  set(message: string, options?: QueryOptions): Promise<void>;
  /**
   * Writes a message before all that waits, even while a reply is pending, as soon as the
   * instrument's pause allows; sets that waited are given up. Resolves once it is handed to the port.
   */
  urge(message: string): Promise<void>;
  /** Empties the error queue, at most so many entries as any instrument holds. */
  drainErrors(options?: QueryOptions): Promise<readonly ErrorEntry[]>;
  onClosed(listener: (pulled: boolean) => void): void;
  /** Errors that the instrument told without being asked. */
  onUnsolicited(listener: (entry: ErrorEntry) => void): void;
  close(): Promise<void>;
}

export interface SessionOptions {
  readonly timing?: SessionTiming;
  readonly onTraffic?: TrafficListener;
}

interface Turn {
  readonly isSet: boolean;
  readonly message: string;
  run(): Promise<void>;
  giveUp(trouble: Trouble): void;
}

type Tried<T> =
  | { readonly answer: Answer<T> }
  | { readonly trouble: Trouble; readonly isFinal: boolean };

/** Opens a conversation over a link. Sends nothing by itself. */
export function openSession(link: ByteLink, clock: Clock, options: SessionOptions = {}): Session {
  const timing = options.timing ?? USUAL_TIMING;
  const wire: Wire = openWire(link, clock, options.onTraffic);
  const usual: Turn[] = [];
  const urgent: Turn[] = [];
  const unsolicitedListeners: ((entry: ErrorEntry) => void)[] = [];
  let isBusy = false;
  let isInStep = false;
  let identity = '';
  let refusal: ErrorEntry | null = null;

  const where = () => (identity === '' ? link.name : `${identity} on ${link.name}`);

  function judgeFor<T>(message: string, shape: ReplyShape<T>): (line: string) => LineVerdict<T> {
    return (line) => {
      const reply = withoutPrompt(line);
      const error = unsolicitedError(reply);
      if (error !== undefined) {
        if (error === null) return 'ignore';
        for (const listener of unsolicitedListeners) listener(error);
        if (error.code === 0) return 'ignore';
        refusal = error;
        return 'hasten';
      }
      if (isNoise(reply, message, identity === '' ? null : identity)) return 'ignore';
      const value = shape.decode(reply);
      return value === undefined ? 'hasten' : { value };
    };
  }

  async function pump(): Promise<void> {
    if (isBusy) return;
    isBusy = true;
    for (;;) {
      const turn = urgent.shift() ?? usual.shift();
      if (turn === undefined) break;
      await turn.run();
    }
    isBusy = false;
  }

  function line<T>(
    message: string,
    isSet: boolean,
    lane: QueryOptions['lane'],
    work: () => Promise<T>,
  ): Promise<T> {
    return new Promise<T>((resolve, reject) => {
      (lane === 'urgent' ? urgent : usual).push({
        isSet,
        message,
        run: () => work().then(resolve, reject),
        giveUp: (trouble) => reject(new WakelineError(trouble)),
      });
      void pump();
    });
  }

  /** Finds the step again: quiet first, then a query whose answer is known. */
  async function resync(): Promise<boolean> {
    const due: ReplyShape<string> =
      identity === ''
        ? identityReply
        : { due: identity, decode: (text) => (text === identity ? text : undefined) };
    for (let i = 0; i < RESYNC_TRIES; i += 1) {
      await wire.untilQuiet(timing.quietMs, timing.quietCapMs);
      if (!wire.isOpen) return false;
      const judge = (reply: string): LineVerdict<string> => {
        const value = due.decode(withoutPrompt(reply));
        return value === undefined ? 'ignore' : { value };
      };
      const outcome = await wire.exchange('*IDN?', judge, timing.timeoutMs.identity);
      if (outcome.kind === 'answered') {
        isInStep = true;
        return true;
      }
    }
    return false;
  }

  async function tryOnce<T>(
    message: string,
    shape: ReplyShape<T>,
    timeoutMs: number,
  ): Promise<Tried<T>> {
    if (!wire.isOpen) return { trouble: lostTrouble(where()), isFinal: true };
    if (wire.hasStray) isInStep = false;
    if (!isInStep && identity !== '' && !(await resync())) {
      const lost = !wire.isOpen;
      const trouble = lost
        ? lostTrouble(where())
        : silentTrouble(where(), message, timing.timeoutMs.identity * RESYNC_TRIES);
      return { trouble, isFinal: true };
    }
    const pause = wire.paused();
    if (pause !== null) await pause;
    refusal = null;
    if (!wire.isOpen) return { trouble: lostTrouble(where()), isFinal: true };
    const outcome = await wire.exchange(message, judgeFor(message, shape), timeoutMs);
    if (outcome.kind === 'answered') {
      return { answer: { value: outcome.value, sentMs: wire.sentMs, gotMs: outcome.gotMs } };
    }
    isInStep = false;
    if (outcome.kind === 'closed') return { trouble: lostTrouble(where()), isFinal: true };
    const told = refusal as ErrorEntry | null;
    if (told !== null) return { trouble: refusedTrouble(where(), message, [told]), isFinal: true };
    const came = outcome.partial !== '' ? outcome.partial : outcome.odd;
    if (came === null) {
      return { trouble: silentTrouble(where(), message, timeoutMs), isFinal: false };
    }
    const isCut = outcome.partial !== '';
    return {
      trouble: badReplyTrouble(where(), message, came, shape.due, isCut),
      isFinal: false,
    };
  }

  async function ask<T>(
    message: string,
    shape: ReplyShape<T>,
    query: QueryOptions,
  ): Promise<Answer<T>> {
    const timeoutMs = query.timeoutMs ?? timing.timeoutMs[query.class ?? 'status'];
    const retries = query.retries ?? timing.retries;
    for (let attempt = 0; ; attempt += 1) {
      const tried = await tryOnce(message, shape, timeoutMs);
      if ('answer' in tried) return tried.answer;
      if (tried.isFinal || attempt >= retries) throw new WakelineError(tried.trouble);
    }
  }

  async function drain(query: QueryOptions): Promise<readonly ErrorEntry[]> {
    const entries: ErrorEntry[] = [];
    for (let i = 0; i < LONGEST_ERROR_QUEUE; i += 1) {
      const { value } = await ask(':SYST:ERR?', errorReply, query);
      if (value.code === 0) break;
      entries.push(value);
    }
    return entries;
  }

  const session: Session = {
    clock,
    hasErrorQueue: null,
    get name() {
      return where();
    },
    get isOpen() {
      return wire.isOpen;
    },
    get identity() {
      return identity;
    },
    get pauseMs() {
      return wire.pauseMs;
    },
    set pauseMs(ms) {
      wire.pauseMs = ms;
    },
    identify: () =>
      line('*IDN?', false, 'usual', async () => {
        await wire.untilQuiet(timing.quietMs / 3, timing.quietCapMs);
        let last = '';
        for (let i = 0; i < 4; i += 1) {
          const { value } = await ask('*IDN?', identityReply, { class: 'identity' });
          if (value === last) break;
          last = value;
        }
        identity = last;
        isInStep = true;
        return identity;
      }),
    query: (message, shape, query = {}) =>
      line(message, false, query.lane, () => ask(message, shape, query)),
    set: (message, query = {}) =>
      line(message, true, query.lane, async () => {
        if (!wire.isOpen) throw new WakelineError(lostTrouble(where()));
        await wire.paused();
        wire.transmit(message);
        if (session.hasErrorQueue !== true) return;
        const errors = await drain(query);
        if (errors.length > 0) throw new WakelineError(refusedTrouble(where(), message, errors));
      }),
    async urge(message) {
      for (const turn of usual.splice(0)) {
        if (turn.isSet) turn.giveUp(overtakenTrouble(where(), turn.message));
        else usual.push(turn);
      }
      if (!wire.isOpen) throw new WakelineError(lostTrouble(where()));
      const pause = wire.paused();
      if (pause !== null) await pause;
      wire.transmit(message);
    },
    drainErrors: (query = {}) => line(':SYST:ERR?', false, query.lane, () => drain(query)),
    onClosed: wire.onClosed,
    onUnsolicited: (listener) => {
      unsolicitedListeners.push(listener);
    },
    close: () => wire.close(),
  };
  return session;
}
