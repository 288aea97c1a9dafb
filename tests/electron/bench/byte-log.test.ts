import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { byteLog } from '../../../electron/bench/byte-log.ts';

const bytes = (text: string) => Uint8Array.from([...text].map((c) => c.charCodeAt(0)));
const START = Date.UTC(2024, 4, 1, 10);
const log = () => byteLog('the supply', (atMs) => START + atMs);

describe('the byte log', () => {
  it('shows every byte both ways with its time', () => {
    const kept = log();
    kept.hear('out', bytes('*IDN?\n'), 0);
    kept.hear('in', bytes('\x00A\\\xff\r\n'), 12.4);
    expect(kept.lines()).toEqual([
      '2024-05-01T10:00:00.000Z > *IDN?\\n',
      '2024-05-01T10:00:00.012Z < \\x00A\\\\\\xff\\r\\n',
    ]);
  });

  it('keeps the newest when it is full, and never half a piece', () => {
    const kept = log();
    for (let i = 0; i < 100_000; i += 1) {
      kept.hear(i % 2 === 0 ? 'out' : 'in', bytes(`piece ${i} of a day;`), i);
    }
    const lines = kept.lines();
    expect(lines.length).toBeGreaterThan(20_000);
    expect(lines.at(-1)).toContain('< piece 99999 of a day;');
    for (const line of lines) expect(line).toMatch(/ [<>] piece \d+ of a day;$/);
    const numbers = lines.map((line) => Number(/piece (\d+)/.exec(line)?.[1]));
    expect(numbers).toEqual(numbers.map((_, i) => numbers[0]! + i));
  });

  it('keeps a piece larger than itself from breaking it', () => {
    const kept = log();
    kept.hear('in', new Uint8Array(3 << 20), 1);
    kept.hear('out', bytes('after'), 2);
    expect(kept.lines()).toEqual(['2024-05-01T10:00:00.002Z > after']);
  });

  it('is saved as a file that says what it is, or says why not', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'wakeline-log-'));
    const kept = log();
    kept.hear('out', bytes('OUTP OFF\n'), 0);
    await kept.save(join(folder, 'log.txt'));
    expect(readFileSync(join(folder, 'log.txt'), 'utf8')).toBe(
      'Byte log of the supply. > sent to the instrument, < came from it. Times are UTC.\n' +
        '2024-05-01T10:00:00.000Z > OUTP OFF\\n\n',
    );
    await expect(kept.save(join(folder, 'no', 'log.txt'))).rejects.toThrow(WakelineError);
    rmSync(folder, { recursive: true });
  });
});
