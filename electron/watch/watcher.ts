import { connect, type Socket } from 'node:net';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import { monotonicClock } from '../bench/monotonic-clock.ts';
import { openSerialLink } from '../bench/serial-link.ts';
import { openTcpLink } from '../bench/tcp-link.ts';
import { offLoop } from './off-loop.ts';
import { silence, TICK_MS } from './silence.ts';
import type { OpenWay } from './try-off.ts';
import {
  lineOf,
  readLines,
  type ToMain,
  toWatcher,
  type WatchNote,
  type WatchOrder,
} from './watch-lines.ts';
import { writeWatchNote } from './watch-note-file.ts';

export interface WatcherOptions {
  readonly socketPath: string;
  /** Shows main that this is the watcher that it started. */
  readonly token: string;
  readonly noteFile: string;
  readonly mainPid: number;
}

/**
 * The watcher's whole life: it connects to main, keeps the newest order, and when main dies (end
 * of file) or hangs (no beat) switches off what the order says. It opens no port before that,
 * never switches on and never sets a number. Resolves when there is nothing left to watch.
 */
export function runWatcher(options: WatcherOptions): Promise<void> {
  return new Promise((resolve) => {
    let order: WatchOrder | null = null;
    let isActing = false;
    let isGone = false;
    let isBeating = true;
    const quiet = silence();
    const links = new Set<ByteLink>();
    const socket = connect(options.socketPath);
    const tell = (line: ToMain) => {
      if (!isGone && socket.writable) socket.write(lineOf(line));
    };

    const end = () => {
      clearInterval(ticks);
      socket.destroy();
      resolve();
    };

    const open: OpenWay = async (address) => {
      const link =
        address.by === 'tcp'
          ? await openTcpLink(address.host, address.port)
          : await openSerialLink(address.path, address.baud, true);
      links.add(link);
      link.onClosed(() => links.delete(link));
      return link;
    };

    /** Two readers on one line steal each other's replies: main, when it is back, has the line. */
    const letGo = () => {
      for (const link of [...links]) void link.close();
      links.clear();
    };

    const isDue = (to: WatchOrder | null): to is WatchOrder =>
      to !== null && to.policy === 'off' && to.supplies.some((supply) => supply.isOn);

    async function act(why: WatchNote['why']): Promise<void> {
      if (isActing || !isDue(order)) {
        if (isGone && !isActing) end();
        return;
      }
      isActing = true;
      isBeating = false;
      const note = await offLoop(why, order, {
        clock: monotonicClock,
        wallMs: Date.now,
        open,
        noted: (so) => keep(so),
        isTakenOver: () =>
          isGone ? somebodyListens(options.socketPath) : Promise.resolve(isBeating),
        endMain: () => endProcess(options.mainPid),
      });
      isActing = false;
      tell({ say: 'acted', note });
      if (isGone) end();
    }

    function keep(note: WatchNote): void {
      try {
        writeWatchNote(options.noteFile, note);
      } catch {
        // A full disk must not keep the output on.
      }
    }

    const ticks = setInterval(() => {
      if (!quiet.tick()) return;
      // What arrived while this process itself got no time is read before it is believed.
      setImmediate(() => {
        if (!isGone && quiet.isTooLong) void act('main-hung');
      });
    }, TICK_MS);

    const take = readLines(toWatcher, (line) => {
      quiet.beat();
      isBeating = true;
      if (isActing) letGo();
      if (line.say === 'order') {
        order = line.order;
        tell({ say: 'ready', sequence: line.sequence });
      } else if (line.say === 'beat') tell({ say: 'beat' });
      else {
        order = null;
        if (!isActing) end();
      }
    });
    socket.setNoDelay(true);
    socket.on('connect', () => tell({ say: 'hello', token: options.token }));
    socket.on('data', take);
    socket.on('error', () => {});
    socket.on('close', () => {
      isGone = true;
      void act('main-died');
    });
  });
}

/** Whether a main listens there: the one that this watcher knew is gone, so it is a new one. */
function somebodyListens(socketPath: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket: Socket = connect(socketPath);
    socket.on('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.on('error', () => resolve(false));
  });
}

function endProcess(pid: number): boolean {
  try {
    process.kill(pid, 'SIGKILL');
    return true;
  } catch {
    return false;
  }
}
