import { readSync, writeSync } from 'node:fs';

/** What the serial library's Unix bindings have of an open port. */
export interface UnixPort {
  readonly fd: number | null;
  readonly poller: {
    once(
      event: 'readable',
      heard: (error: (Error & { canceled?: boolean }) | null) => void,
    ): unknown;
  };
}

const ROOM = 4096;
const NOT_NOW = new Set(['EAGAIN', 'EWOULDBLOCK', 'EINTR']);

/** The open port's own descriptor where the system has one (not on Windows); else null. */
export function unixPortOf(binding: unknown): UnixPort | null {
  const port = binding as Partial<UnixPort> | null | undefined;
  return typeof port?.fd === 'number' && typeof port.poller?.once === 'function'
    ? (port as UnixPort)
    : null;
}

/**
 * Hands on what comes, read in the turn of the loop that tells of it. The library's own stream
 * takes a thread of the pool to look and another to read, and on a busy machine each waits its
 * turn. `failed` is told once: the port is gone.
 */
export function readDirectly(
  port: UnixPort,
  hear: (bytes: Uint8Array) => void,
  failed: (cause: unknown) => void,
): void {
  const room = Buffer.alloc(ROOM);

  function readAll(): boolean {
    for (;;) {
      if (port.fd === null) return false;
      let count: number;
      try {
        count = readSync(port.fd, room, 0, ROOM, null);
      } catch (thrown) {
        if (isNotNow(thrown)) return true;
        failed(thrown);
        return false;
      }
      // A line that still stands never ends: this one was hung up.
      if (count === 0) {
        failed(new Error('the line was hung up'));
        return false;
      }
      hear(Uint8Array.from(room.subarray(0, count)));
      if (count < ROOM) return true;
    }
  }

  const wait = (): void => {
    if (port.fd === null) return;
    port.poller.once('readable', (error) => {
      if (error !== null) {
        if (error.canceled !== true) failed(error);
      } else if (readAll()) wait();
    });
  };
  wait();
}

/** Writes what the line takes now; returns what is left, for the library to write in its own time. */
export function writeDirectly(port: UnixPort, bytes: Uint8Array): Uint8Array {
  if (port.fd === null) return bytes;
  try {
    return bytes.subarray(writeSync(port.fd, bytes, 0, bytes.length, null));
  } catch {
    // A line that is full takes it later; one that is gone fails there as well, and is told there.
    return bytes;
  }
}

function isNotNow(thrown: unknown): boolean {
  const { code } = thrown as NodeJS.ErrnoException;
  return code !== undefined && NOT_NOW.has(code);
}
