import { WakelineError } from '../errors.ts';
import type { ByteLink } from './byte-link.ts';
import type { ErrorEntry } from './response-error.ts';
import { errorReply, type ReplyShape } from './response-shape.ts';
import type { Clock } from './session-clock.ts';
import { identify } from './session-identify.ts';
import { type Answer, stepKeeper } from './session-step.ts';
import {
  type CommandClass,
  LONGEST_ERROR_QUEUE,
  type SessionTiming,
  USUAL_TIMING,
} from './session-timing.ts';
import { lostTrouble, overtakenTrouble, refusedTrouble } from './session-trouble.ts';
import { type Lane, turns } from './session-turns.ts';
import { openWire, type ReplyEnd, type TrafficListener, type Wire } from './session-wire.ts';

export interface QueryOptions {
  readonly class?: CommandClass;
  readonly timeoutMs?: number;
  /** How often it may be asked again; default by the session's timing. */
  readonly retries?: number;
  /** `urgent` goes before everything that waits. */
  readonly lane?: Lane;
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
  /** Whether several queries may stand in one message; false until a driver has found out. */
  canJoin: boolean;
  /** When an answer to anything last came, on the session's clock. */
  readonly answeredMs: number;
  /** What ends our messages and its replies, as `identify` found it. */
  readonly framing: { readonly messageEnd: Wire['messageEnd']; readonly replyEnd: ReplyEnd };
  /** Learns who answers, in what framing and at what pause. Throws `no-answer` or `bad-reply`. */
  identify(): Promise<string>;
  /**
   * Asks and waits for a reply of that shape. Throws `bad-reply` for anything else, `no-answer`,
   * `instrument-refused`, `port-lost`: never a made-up value.
   */
  query<T>(message: string, shape: ReplyShape<T>, options?: QueryOptions): Promise<Answer<T>>;
  /**
   * Sends a set, once, and checks it by the error queue. Throws `instrument-refused` in its words;
   * also when something was urged after the count of `urges` given (default: now).
   */
  set(message: string, urgesBefore?: number): Promise<void>;
  /** How often something was urged so far. */
  readonly urges: number;
  /**
   * Writes a message before all that waits, even while a reply is pending, as soon as the
   * instrument's pause allows; sets that waited are given up. Resolves once it is handed to the port.
   */
  urge(message: string): Promise<void>;
  /** Empties the error queue, at most so many entries as any instrument holds. */
  drainErrors(): Promise<readonly ErrorEntry[]>;
  onClosed(listener: (pulled: boolean) => void): void;
  /** Errors that nothing asked here caused, or that the instrument told out of turn. */
  onUnsolicited(listener: (entry: ErrorEntry) => void): void;
  close(): Promise<void>;
}

export interface SessionOptions {
  readonly timing?: SessionTiming;
  readonly onTraffic?: TrafficListener | undefined;
}

/** Without a leading colon: alone in its message it means the same, to simpler parsers too. */
const ASK_ERROR = 'SYST:ERR?';

/** Opens a conversation over a link. Sends nothing by itself. */
export function openSession(link: ByteLink, clock: Clock, options: SessionOptions = {}): Session {
  const timing = options.timing ?? USUAL_TIMING;
  const step = stepKeeper(() => wire, timing, link.name);
  const wire: Wire = openWire(link, clock, {
    isStray: step.isStray,
    onTraffic: options.onTraffic,
  });
  const queue = turns();
  let urges = 0;
  const listeners: ((entry: ErrorEntry) => void)[] = [];
  const tell = (entry: ErrorEntry) => {
    for (const listener of listeners) listener(entry);
  };
  step.onUnsolicited = tell;
  const where = () => (step.identity === '' ? link.name : `${step.identity} on ${link.name}`);

  async function drain(): Promise<readonly ErrorEntry[]> {
    const entries: ErrorEntry[] = [];
    for (let i = 0; i < LONGEST_ERROR_QUEUE; i += 1) {
      const timeoutMs = timing.timeoutMs.status;
      const { value } = await step.ask(ASK_ERROR, errorReply, timeoutMs, timing.retries);
      if (value.code === 0) break;
      entries.push(value);
    }
    return entries;
  }

  async function setChecked(message: string, urgesBefore: number): Promise<void> {
    // Errors that were there before belong to something else.
    if (session.hasErrorQueue === true) for (const entry of await drain()) tell(entry);
    await wire.paused();
    if (!wire.isOpen) throw new WakelineError(lostTrouble(where()));
    // Whatever was urged while this waited comes after it in the person's mind.
    if (urges !== urgesBefore) throw new WakelineError(overtakenTrouble(where(), message));
    wire.transmit(message);
    if (session.hasErrorQueue !== true) return;
    const errors = await drain();
    if (errors.length > 0) throw new WakelineError(refusedTrouble(where(), message, errors));
  }

  const session: Session = {
    clock,
    get hasErrorQueue() {
      return step.hasErrorQueue;
    },
    set hasErrorQueue(has) {
      step.hasErrorQueue = has;
    },
    get name() {
      return where();
    },
    get isOpen() {
      return wire.isOpen;
    },
    get identity() {
      return step.identity;
    },
    get canJoin() {
      return step.canJoin;
    },
    set canJoin(can) {
      step.canJoin = can;
    },
    get answeredMs() {
      return step.answeredMs;
    },
    get framing() {
      return { messageEnd: wire.messageEnd, replyEnd: wire.replyEnd };
    },
    get pauseMs() {
      return wire.pauseMs;
    },
    set pauseMs(ms) {
      wire.pauseMs = ms;
    },
    identify: () => queue.take('usual', 'query', '*IDN?', () => identify(wire, step, timing)),
    query(message, shape, query = {}) {
      const timeoutMs = query.timeoutMs ?? timing.timeoutMs[query.class ?? 'status'];
      const retries = query.retries ?? timing.retries;
      return queue.take(query.lane ?? 'usual', 'query', message, () =>
        step.ask(message, shape, timeoutMs, retries),
      );
    },
    set(message, urgesBefore = urges) {
      return queue.take('usual', 'set', message, () => setChecked(message, urgesBefore));
    },
    get urges() {
      return urges;
    },
    async urge(message) {
      urges += 1;
      queue.dropSets((dropped) => overtakenTrouble(where(), dropped));
      if (!wire.isOpen) throw new WakelineError(lostTrouble(where()));
      await wire.transmitUrgent(message);
    },
    drainErrors: () => queue.take('usual', 'query', ASK_ERROR, drain),
    onClosed: (listener) => wire.onClosed(listener),
    onUnsolicited(listener) {
      listeners.push(listener);
    },
    close: () => wire.close(),
  };
  return session;
}
