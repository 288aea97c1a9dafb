import { type Trouble, troubleOf, WakelineError } from '../../core/errors.ts';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import { openSession, type Session } from '../../core/scpi/session.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import type { TrafficListener } from '../../core/scpi/session-wire.ts';
import { type Poller, type ReadingTimes, startPoller } from './poller.ts';

/** How an instrument is reached, polled and reported. */
export interface ConnectOptions<R> {
  /** Opens the way to it; called again for every try to get it back. */
  readonly open: () => Promise<ByteLink>;
  readonly clock: Clock;
  readonly intervalMs: number;
  /** Refuse anybody else; default: whoever answers first is the one that is waited for later. */
  readonly expectIdentity?: string;
  onReading(reading: R, at: ReadingTimes): void;
  /** A poll that failed on a link that still stands. */
  onTrouble?(trouble: Trouble): void;
  onLost(trouble: Trouble): void;
  onBack(): void;
  readonly onTraffic?: TrafficListener;
}

/** An instrument that stays connected: polled, and brought back by its identity when lost. */
export interface Connected<D> {
  /** The driver now in use; the same instrument after a reconnect, on a new link. */
  readonly driver: D;
  readonly isLive: boolean;
  readonly rateHz: number;
  /** Polls that gave no reading, those of the time without a link among them. */
  readonly missed: number;
  close(): Promise<void>;
}

const RETRY_MS = 250;
/** An instrument on an open link that answered nothing for this long is lost. */
const SILENT_MS = 2500;
/** One that answers, but so many polls in a row not, is no use either: it is connected anew. */
const FAILED_POLLS = 5;

interface Held<D> {
  readonly session: Session;
  readonly driver: D;
}

/** Opens an instrument, polls it and keeps it. Throws when the first connection fails. */
export async function connectInstrument<D extends { identity: string }, R>(
  options: ConnectOptions<R>,
  openDriver: (session: Session) => Promise<D>,
  read: (driver: D) => Promise<R>,
  timesOf?: (reading: R) => { sentMs: number; gotMs: number },
): Promise<Connected<D>> {
  const { clock } = options;
  let expected = options.expectIdentity ?? null;
  let poller: Poller | null = null;
  let missedBefore = 0;
  let isClosed = false;
  let isLost = false;
  let failedInRow = 0;
  let lostMs = 0;
  let stopRetry: (() => void) | null = null;

  async function connect(): Promise<Held<D>> {
    const link = await options.open();
    const session = openSession(link, clock, {
      ...(options.onTraffic === undefined ? {} : { onTraffic: options.onTraffic }),
    });
    try {
      const identity = await session.identify();
      if (expected !== null && identity !== expected) {
        throw new WakelineError({
          code: 'instrument-refused',
          what: `Here answers "${identity}", where "${expected}" was connected`,
          where: link.name,
          todo: 'Plug the same instrument in again, or connect this one anew.',
        });
      }
      expected = identity;
      const driver = await openDriver(session);
      return { session, driver };
    } catch (thrown) {
      await session.close();
      throw thrown;
    }
  }

  let held = await connect();

  function startPolling(): void {
    failedInRow = 0;
    const { driver, session } = held;
    session.onClosed(() => lose(troubleOf(lostError(session.name), session.name)));
    poller = startPoller<R>({
      read: () => read(driver),
      clock,
      intervalMs: options.intervalMs,
      ...(timesOf === undefined ? {} : { timesOf }),
      onReading(reading, at) {
        failedInRow = 0;
        options.onReading(reading, at);
      },
      onTrouble(trouble) {
        // A meter in a wrong function answers well enough: it is not lost.
        failedInRow = trouble.code === 'instrument-refused' ? 0 : failedInRow + 1;
        const isSilent = clock.nowMs() - session.answeredMs >= SILENT_MS;
        const isGone = isSilent || failedInRow >= FAILED_POLLS;
        if (trouble.code === 'port-lost' || isGone) lose(trouble);
        else options.onTrouble?.(trouble);
      },
    });
  }

  function lose(trouble: Trouble): void {
    if (isLost || isClosed) return;
    isLost = true;
    lostMs = clock.nowMs();
    missedBefore += poller?.missed ?? 0;
    void poller?.stop();
    poller = null;
    void held.session.close();
    options.onLost(trouble);
    retryLater();
  }

  function retryLater(): void {
    if (isClosed) return;
    stopRetry = clock.setTimer(() => {
      void connect().then(
        (again) => {
          if (isClosed) {
            void again.session.close();
            return;
          }
          held = again;
          isLost = false;
          missedBefore += Math.floor((clock.nowMs() - lostMs) / options.intervalMs);
          startPolling();
          options.onBack();
        },
        () => retryLater(),
      );
    }, RETRY_MS);
  }

  startPolling();
  return {
    get driver() {
      return held.driver;
    },
    get isLive() {
      return !isLost && !isClosed;
    },
    get rateHz() {
      return poller?.rateHz ?? 0;
    },
    get missed() {
      return missedBefore + (poller?.missed ?? 0);
    },
    async close() {
      isClosed = true;
      stopRetry?.();
      const stopped = poller?.stop();
      await held.session.close();
      await stopped;
    },
  };
}

function lostError(where: string): WakelineError {
  return new WakelineError({
    code: 'port-lost',
    what: 'The connection to the instrument is gone',
    where,
    todo: 'Plug it in again: it is looked for until it is back.',
  });
}
