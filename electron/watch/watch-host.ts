import type { ChildProcess } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { chmodSync, rmSync } from 'node:fs';
import { createServer, type Socket } from 'node:net';
import { type Trouble, WakelineError } from '../../core/errors.ts';
import { BEAT_MS } from './silence.ts';
import type { WatcherStart } from './start-watcher.ts';
import {
  lineOf,
  readLines,
  type ToMain,
  toMain,
  type WatchNote,
  type WatchOrder,
} from './watch-lines.ts';

/** What main hears of its watcher. */
export interface WatchHostHooks {
  /** Ready or no longer ready. */
  changed(): void;
  /** The watcher ended or does not answer; another one is being started. */
  lost(trouble: Trouble): void;
  /** It took this main for hung and acted. */
  acted(note: WatchNote): void;
}

export interface WatchHostOptions extends WatchHostHooks {
  readonly socketPath: string;
  /** Starts a watcher process that connects to us. */
  start(start: WatcherStart): ChildProcess;
}

/** Main's end of the watcher. */
export interface WatchHost {
  /** Whether a watcher lives that has an order of ours. */
  readonly isReady: boolean;
  readonly pid: number | null;
  /** Hands it a new order; nothing is sent when nothing changed. */
  tell(order: WatchOrder): void;
  /** The same, and waits until it is ready to carry it out. Throws `gate-closed`. */
  confirm(order: WatchOrder): Promise<void>;
  /** Says goodbye: the watcher ends without acting. */
  close(): Promise<void>;
  /** Ends without goodbye, so that the watcher goes on where main could not. */
  abandon(): void;
}

const CONFIRM_MS = 1500;
const AGAIN_MS = 250;
/** Beats that may go without an answer: 2 s. The watcher answers each. */
const UNANSWERED = 20;
/** Beats from start to hello: a cold disk takes its time. */
const UNHEARD = 150;

/** Listens for the watcher and starts it; starts another whenever it is lost. */
export async function hostWatcher(options: WatchHostOptions): Promise<WatchHost> {
  const token = randomUUID();
  let order: WatchOrder | null = null;
  let orderText = '';
  let sequence = 0;
  let readySequence = -1;
  let isClosing = false;
  let unanswered = 0;
  let child: ChildProcess | null = null;
  let watcher: Socket | null = null;
  let waiting: (() => void)[] = [];

  const isReady = () => watcher !== null && readySequence > 0;
  const hasNewest = () => watcher !== null && readySequence === sequence;
  const sendOrder = () => {
    if (order !== null) watcher?.write(lineOf({ say: 'order', sequence, order }));
  };

  function hear(line: ToMain, socket: Socket): void {
    if (line.say === 'hello') {
      if (line.token !== token) {
        socket.destroy();
        return;
      }
      watcher = socket;
      unanswered = 0;
      sendOrder();
      return;
    }
    if (socket !== watcher) return;
    unanswered = 0;
    if (line.say === 'ready') {
      if (readySequence < 0) options.changed();
      readySequence = line.sequence;
      if (!hasNewest()) return;
      const done = waiting;
      waiting = [];
      for (const tell of done) tell();
    } else if (line.say === 'acted') options.acted(line.note);
  }

  function lose(): void {
    const wasWatched = watcher !== null;
    watcher?.destroy();
    watcher = null;
    readySequence = -1;
    if (isClosing) return;
    child?.kill('SIGKILL');
    if (wasWatched) {
      options.lost({
        code: 'watcher-lost',
        what: 'The watcher, which switches off when the app dies, is gone',
        where: 'watcher',
        todo: 'It is being started again. Until it is ready the output is not switched on.',
      });
    }
    options.changed();
    setTimeout(start, AGAIN_MS);
  }

  function start(): void {
    if (isClosing) return;
    unanswered = 0;
    const started = options.start({ socketPath: options.socketPath, token });
    child = started;
    let isOver = false;
    const over = () => {
      if (isOver || child !== started) return;
      isOver = true;
      lose();
    };
    started.once('exit', over);
    started.once('error', over);
  }

  const server = createServer((socket) => {
    socket.setNoDelay(true);
    socket.on('error', () => {});
    socket.on(
      'data',
      readLines(toMain, (line) => hear(line, socket)),
    );
    socket.on('close', () => {
      if (socket === watcher && !isClosing) child?.kill('SIGKILL');
    });
  });
  const isPipe = options.socketPath.startsWith('\\\\');
  if (!isPipe) rmSync(options.socketPath, { force: true });
  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause) =>
      reject(
        new WakelineError(
          {
            code: 'watcher-lost',
            what: `The watcher cannot be reached: ${cause.message}`,
            where: options.socketPath,
            todo: 'Check that the data folder may be written to, then start again.',
          },
          { cause },
        ),
      ),
    );
    server.listen(options.socketPath, resolve);
  });
  if (!isPipe) chmodSync(options.socketPath, 0o600);
  start();
  const beats = setInterval(() => {
    unanswered += 1;
    if (unanswered > (watcher === null ? UNHEARD : UNANSWERED)) {
      unanswered = 0;
      // Its end is heard of like any other, and another one is started.
      child?.kill('SIGKILL');
    }
    watcher?.write(lineOf({ say: 'beat' }));
  }, BEAT_MS);

  function tell(next: WatchOrder): void {
    const text = JSON.stringify(next);
    if (text === orderText) return;
    order = next;
    orderText = text;
    sequence += 1;
    sendOrder();
  }

  return {
    get isReady() {
      return isReady();
    },
    get pid() {
      return child?.pid ?? null;
    },
    tell,
    async confirm(next) {
      tell(next);
      if (hasNewest()) return;
      let timer: NodeJS.Timeout | undefined;
      await Promise.race([
        new Promise<void>((resolve) => waiting.push(resolve)),
        new Promise<void>((resolve) => {
          timer = setTimeout(resolve, CONFIRM_MS);
        }),
      ]);
      clearTimeout(timer);
      if (hasNewest()) return;
      throw new WakelineError({
        code: 'gate-closed',
        what: 'The watcher, which switches off when the app dies, is not ready',
        where: 'watcher',
        todo: 'Wait a moment and try again. If it stays so, start the app again.',
      });
    },
    abandon() {
      isClosing = true;
      clearInterval(beats);
      watcher?.destroy();
      server.close();
    },
    async close() {
      isClosing = true;
      clearInterval(beats);
      const gone = child;
      watcher?.write(lineOf({ say: 'goodbye' }));
      const ended = new Promise<void>((resolve) => {
        if (gone === null || gone.exitCode !== null || gone.signalCode !== null) resolve();
        else {
          gone.once('exit', () => resolve());
          setTimeout(() => {
            gone.kill('SIGKILL');
            resolve();
          }, AGAIN_MS * 4).unref();
        }
      });
      await ended;
      watcher?.destroy();
      server.close();
      if (!isPipe) rmSync(options.socketPath, { force: true });
    },
  };
}
