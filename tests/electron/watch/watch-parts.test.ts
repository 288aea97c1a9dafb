import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { ByteLink } from '../../../core/scpi/byte-link.ts';
import { offLoop } from '../../../electron/watch/off-loop.ts';
import { otherPortNames } from '../../../electron/watch/port-names.ts';
import { SILENT_TICKS, silence } from '../../../electron/watch/silence.ts';
import type { Way } from '../../../electron/watch/try-off.ts';
import {
  lineOf,
  readLines,
  type ToWatcher,
  toWatcher,
  type WatchOrder,
} from '../../../electron/watch/watch-lines.ts';
import { readWatchNote, watchNoteFile } from '../../../electron/watch/watch-note-file.ts';
import { watchSocket } from '../../../electron/watch/watch-socket.ts';
import { watchNoteTrouble } from '../../../electron/watch/watch-words.ts';
import { feeding, scpiTable } from '../../support/odd-supplies.ts';
import { tableLink } from '../../support/table-link.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-watch-parts-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ORDER: WatchOrder = {
  policy: 'off',
  runId: null,
  supplies: [
    {
      address: { by: 'serial', path: '/dev/old', baud: 9600 },
      also: ['/dev/serial/by-id/it'],
      how: {
        identity: 'BENCHWORKS,ODD-ONE,000021,2.0',
        select: null,
        off: 'OUTP OFF',
        takeRemote: null,
        askOutput: 'OUTP?',
        pauseMs: 0,
        messageEnd: '\n',
        replyEnd: 'lf',
      },
      isOn: true,
    },
  ],
};

describe('lines between main and watcher', () => {
  it('come through whole however they are cut', () => {
    const lines: ToWatcher[] = [
      { say: 'order', sequence: 3, order: ORDER },
      { say: 'beat' },
      { say: 'goodbye' },
    ];
    const heard: ToWatcher[] = [];
    const take = readLines(toWatcher, (line) => heard.push(line));
    for (const letter of lines.map(lineOf).join('')) take(letter);
    expect(heard).toEqual(lines);
  });

  it('are dropped when they do not fit, and the next one is heard', () => {
    const heard: ToWatcher[] = [];
    const take = readLines(toWatcher, (line) => heard.push(line));
    take('{"say":"on"}\nrubbish\n{"say":"beat","more":1}\n{"say":"beat"}\n');
    expect(heard).toEqual([{ say: 'beat' }]);
  });

  it('hold no message that could switch on: an order has one for off and no value', () => {
    const how = { ...ORDER.supplies[0]!.how, on: 'OUTP ON' };
    const order = { ...ORDER, supplies: [{ ...ORDER.supplies[0]!, how }] };
    expect(toWatcher.safeParse({ say: 'order', sequence: 1, order }).success).toBe(false);
  });
});

describe('silence', () => {
  it('is noticed once, after its ticks, and never while main beats', () => {
    const quiet = silence();
    for (let i = 0; i < 100; i += 1) {
      if (i % 3 === 0) quiet.beat();
      expect(quiet.tick()).toBe(false);
    }
    quiet.beat();
    const ticks = Array.from({ length: SILENT_TICKS + 5 }, () => quiet.tick());
    expect(ticks.filter(Boolean)).toHaveLength(1);
    expect(ticks.indexOf(true)).toBe(SILENT_TICKS - 1);
    expect(quiet.isTooLong).toBe(true);
  });
});

describe('where main and watcher meet', () => {
  it('is in the data folder, and elsewhere where its path is too long for a socket', () => {
    expect(watchSocket('/home/x/data', 'linux')).toBe('/home/x/data/watch.sock');
    const long = watchSocket(`/home/${'x'.repeat(100)}/data`, 'darwin');
    expect(Buffer.byteLength(long)).toBeLessThan(104);
    expect(watchSocket('C:\\data', 'win32')).toMatch(/^\\\\\.\\pipe\\wakeline-watch-[0-9a-f]{24}$/);
  });
});

describe("a port's other names", () => {
  it('are those that lead to the same device', () => {
    const byId = path.join(folder, 'by-id');
    mkdirSync(byId);
    for (const name of ['tty0', 'tty1']) writeFileSync(path.join(folder, name), '');
    symlinkSync(path.join(folder, 'tty0'), path.join(byId, 'supply'));
    symlinkSync(path.join(folder, 'tty1'), path.join(byId, 'meter'));
    expect(otherPortNames(path.join(folder, 'tty0'), [byId])).toEqual([path.join(byId, 'supply')]);
    expect(otherPortNames(path.join(byId, 'supply'), [byId])).toEqual([path.join(folder, 'tty0')]);
    expect(otherPortNames('/dev/nothing-there', [byId])).toEqual([]);
  });
});

describe('switching off until it is off', () => {
  function bench() {
    const clock = virtualClock();
    const state = feeding({ isOn: true });
    const table = scpiTable(state).table;
    return { clock, state, table };
  }
  const hooks = { wallMs: () => 0, isTakenOver: async () => false, endMain: () => false };

  it('finds a port that was renamed by its lasting name', async () => {
    const { clock, state, table } = bench();
    const open = async (way: Way): Promise<ByteLink> => {
      if (way.by === 'serial' && way.path === '/dev/old') throw new Error('ENOENT');
      return tableLink(clock, table, {});
    };
    const note = await clock.settle(
      offLoop('main-died', ORDER, { ...hooks, clock, open, noted: () => {} }),
    );
    expect(state.isOn).toBe(false);
    expect(note.isDone).toBe(true);
  });

  it('does not take another instrument under the old name for it', async () => {
    const { clock, state, table } = bench();
    const other = feeding({ isOn: true });
    const otherTable = scpiTable(other).table.map(([pattern, answer]) =>
      pattern.test('*IDN?')
        ? ([pattern, 'BENCHWORKS,OTHER,1,1'] as const)
        : ([pattern, answer] as const),
    );
    const open = async (way: Way): Promise<ByteLink> =>
      tableLink(clock, way.by === 'serial' && way.path === '/dev/old' ? otherTable : table, {});
    const note = await clock.settle(
      offLoop('main-died', ORDER, { ...hooks, clock, open, noted: () => {} }),
    );
    expect(note.supplies[0]!.result).toBe('read-back-off');
    expect(state.isOn).toBe(false);
  });

  it('tries again until the port is free, and ends a hung main that holds it', async () => {
    const { clock, state, table } = bench();
    let isHeld = true;
    const open = async (): Promise<ByteLink> => {
      if (isHeld) throw new Error('Access denied');
      return tableLink(clock, table, {});
    };
    const note = await clock.settle(
      offLoop('main-hung', ORDER, {
        ...hooks,
        clock,
        open,
        noted: () => {},
        endMain: () => {
          isHeld = false;
          return true;
        },
      }),
    );
    expect(note).toMatchObject({ isDone: true, endedMain: true });
    expect(state.isOn).toBe(false);
  });

  it('gives up when somebody has taken over, and says that it is not known to be off', async () => {
    const { clock } = bench();
    const open = async (): Promise<ByteLink> => {
      throw new Error('ENOENT');
    };
    const note = await clock.settle(
      offLoop('main-died', ORDER, {
        ...hooks,
        clock,
        open,
        noted: () => {},
        isTakenOver: async () => true,
      }),
    );
    expect(note.isDone).toBe(false);
    expect(watchNoteTrouble(note).todo).toMatch(/not known to be off: look at the supply/);
  });
});

describe("the watcher's note", () => {
  it('counts as none when the file is damaged', () => {
    const file = watchNoteFile(folder);
    writeFileSync(file, '{"at": 1, "why": "main-');
    expect(readWatchNote(file)).toBeNull();
  });
});
