import { writeFile } from 'node:fs/promises';
import { WakelineError } from '../../core/errors.ts';
import type { TrafficListener } from '../../core/scpi/session-wire.ts';

/** What went over one line, both ways, in a ring that keeps the newest. */
export interface ByteLog {
  /** Hears a session's traffic; hand it to `onTraffic`. */
  readonly hear: TrafficListener;
  /** The newest lines as text, oldest first: wall-clock time, direction, bytes. */
  lines(): string[];
  /** Writes them to a file. Throws `file-not-written`. */
  save(path: string): Promise<void>;
}

/** How much is kept: at 20 polls a second of 60 bytes, the last 15 minutes. */
const KEPT_BYTES = 1 << 20;
const KEPT_PIECES = 1 << 15;

/**
 * A byte log of one line. `wallMs` gives the wall-clock time of the moment that the session's
 * clock calls `atMs`. Bytes are kept as they are and turned into text only when asked for.
 */
export function byteLog(name: string, wallMs: (atMs: number) => number): ByteLog {
  // One buffer and two columns: a log that is on all day must cost nothing to keep.
  const bytes = new Uint8Array(KEPT_BYTES);
  const starts = new Float64Array(KEPT_PIECES);
  const times = new Float64Array(KEPT_PIECES);
  let written = 0;
  let pieces = 0;

  function text(from: number, to: number): string {
    let line = '';
    for (let i = from; i < to; i += 1) {
      const code = bytes[i % KEPT_BYTES]!;
      const isPlain = code >= 32 && code < 127 && code !== 92;
      line += isPlain ? String.fromCharCode(code) : (NAMED[code] ?? hex(code));
    }
    return line;
  }

  function lines(): string[] {
    const shown: string[] = [];
    for (let i = Math.max(0, pieces - KEPT_PIECES); i < pieces; i += 1) {
      const start = starts[i % KEPT_PIECES]!;
      const from = Math.abs(start) - 1;
      const end = i + 1 < pieces ? Math.abs(starts[(i + 1) % KEPT_PIECES]!) - 1 : written;
      if (from < written - KEPT_BYTES) continue;
      const at = new Date(wallMs(times[i % KEPT_PIECES]!)).toISOString();
      shown.push(`${at} ${start > 0 ? '>' : '<'} ${text(from, end)}`);
    }
    return shown;
  }

  return {
    hear(direction, piece, atMs) {
      // The sign of a start (counted from 1) is its direction.
      starts[pieces % KEPT_PIECES] = direction === 'out' ? written + 1 : -(written + 1);
      times[pieces % KEPT_PIECES] = atMs;
      pieces += 1;
      for (let i = 0; i < piece.length; i += 1) bytes[(written + i) % KEPT_BYTES] = piece[i]!;
      written += piece.length;
    },
    lines,
    async save(path) {
      const head = `Byte log of ${name}. > sent to the instrument, < came from it. Times are UTC.`;
      try {
        await writeFile(path, `${[head, ...lines()].join('\n')}\n`);
      } catch (cause) {
        const what = cause instanceof Error ? cause.message : String(cause);
        throw new WakelineError(
          {
            code: 'file-not-written',
            what: `The byte log was not written: ${what}`,
            where: path,
            todo: 'Choose another folder; the log is still kept.',
          },
          { cause },
        );
      }
    },
  };
}

const NAMED: Readonly<Record<number, string>> = { 10: '\\n', 13: '\\r', 9: '\\t', 92: '\\\\' };
const hex = (code: number) => `\\x${code.toString(16).padStart(2, '0')}`;
