import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createPretendBench, type PretendBench } from '../../../core/bench-model/pretend-bench.ts';
import type { WakelineError } from '../../../core/errors.ts';
import type { ByteDevice } from '../../../core/scpi/byte-link.ts';

function benchAt(options: { seed?: number; noiseScale?: number } = {}) {
  let nowS = 0;
  const bench = createPretendBench({
    seed: options.seed ?? 1,
    nowS: () => nowS,
    ...(options.noiseScale === undefined ? {} : { noiseScale: options.noiseScale }),
  });
  const ask = (device: ByteDevice, text: string) => {
    let heard = '';
    const stop = device.onBytes((bytes) => {
      heard += String.fromCharCode(...bytes);
    });
    device.receive(Uint8Array.from(`${text}\n`, (c) => c.charCodeAt(0)));
    stop();
    return heard.trim();
  };
  return {
    bench,
    supply: (text: string) => ask(bench.supply, text),
    meter: (text: string) => Number(ask(bench.meter, text)),
    meterText: (text: string) => ask(bench.meter, text),
    wait(s: number) {
      nowS += s;
      bench.advanceTo(nowS);
    },
  };
}
type Desk = ReturnType<typeof benchAt>;

/** Puts a board on and feeds it as stated; the currents of the seconds after. */
function feed(desk: Desk, key: string, forS: number): number[] {
  const shelf = desk.bench.shelf.find((board) => board.key === key)!;
  desk.bench.putBoard(key);
  return switchOn(desk, shelf, forS);
}

function switchOn(desk: Desk, shelf: PretendBench['shelf'][number], forS: number): number[] {
  desk.supply(`VOLT ${shelf.statedInputV};CURR ${shelf.statedLimitA};:OUTP ON`);
  return Array.from({ length: forS * 20 }, () => {
    desk.wait(0.05);
    return Number(desk.supply('MEAS:CURR?'));
  });
}

const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
const spread = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
const railsUp = (bench: PretendBench) =>
  bench.truth().rails.flatMap(({ name, up }) => (up ? [name] : []));

describe('the boards', () => {
  it('Tern A steps up and runs busy', () => {
    const desk = benchAt();
    const amps = feed(desk, 'tern-healthy', 30);
    expect(mean(amps.slice(10, 24))).toBeCloseTo(0.019, 2);
    const held = [0.019, 0.08, 0.16, 0.3].map((level) => amps.findIndex((a) => a > 0.9 * level));
    expect(held).toEqual(held.toSorted((a, b) => a - b));
    expect(mean(amps.slice(200))).toBeGreaterThan(0.4);
    expect(spread(amps.slice(200))).toBeGreaterThan(0.1);
    expect(railsUp(desk.bench)).toHaveLength(7);
  });

  it('Tern B sits flat with its main rail at a third, and the limit never trips', () => {
    const desk = benchAt();
    const amps = feed(desk, 'tern-main-short', 30);
    expect(spread(amps.slice(10))).toBeLessThan(0.006);
    expect(mean(amps.slice(10))).toBeCloseTo(0.26, 2);
    expect(desk.supply('STAT:QUES?')).toBe('2');
    const truth = desk.bench.truth();
    expect(truth.limited).toBe(false);
    expect(truth.rails[0]!.volts / 8.6).toBeLessThan(0.4);
    expect(truth.rails[0]!.volts / 8.6).toBeGreaterThan(0.25);
    expect(railsUp(desk.bench)).toEqual([]);
  });

  it('Tern C puts the supply in current limit with volts near nothing', () => {
    const desk = benchAt();
    const amps = feed(desk, 'tern-input-short', 5);
    expect(mean(amps.slice(10))).toBeCloseTo(2.5, 1);
    expect(Number(desk.supply('MEAS:VOLT?'))).toBeLessThan(0.7);
    expect(desk.supply('STAT:QUES:COND?')).toBe('1');
  });

  it('Tern D never leaves a flat low draw', () => {
    const desk = benchAt();
    const amps = feed(desk, 'tern-no-enable', 30);
    expect(spread(amps.slice(10))).toBeLessThan(0.006);
    expect(mean(amps.slice(10))).toBeCloseTo(0.019, 2);
    expect(railsUp(desk.bench)).toEqual(['MAIN_8V6', 'ALW_3V3']);
  });

  it('Tern E loops with a period of some seconds', () => {
    const desk = benchAt();
    const amps = feed(desk, 'tern-loop', 60);
    const rises = amps.flatMap((a, i) => (i > 0 && amps[i - 1]! < 0.2 && a >= 0.2 ? [i / 20] : []));
    const periods = rises.slice(1).map((at, i) => at - rises[i]!);
    expect(periods.length).toBeGreaterThan(8);
    expect(mean(periods)).toBeGreaterThan(3);
    expect(mean(periods)).toBeLessThan(8);
    expect(spread(periods)).toBeLessThan(0.2);
  });

  it('Tern F stalls after two of its six sequenced rails', () => {
    const desk = benchAt();
    const amps = feed(desk, 'tern-stall', 30);
    expect(spread(amps.slice(100))).toBeLessThan(0.006);
    expect(mean(amps.slice(100))).toBeCloseTo(0.168, 2);
    expect(railsUp(desk.bench)).toEqual(['MAIN_8V6', 'ALW_3V3', 'SYS_5V', 'SYS_3V3']);
  });

  it('Tern G runs, well above the level of a sound one', () => {
    const desk = benchAt();
    const warm = mean(feed(desk, 'tern-warm', 30).slice(300));
    const sound = mean(feed(benchAt(), 'tern-healthy', 30).slice(300));
    expect(warm).toBeGreaterThan(1.6 * sound);
    expect(railsUp(desk.bench)).toHaveLength(7);
  });

  it('Plover 24 runs flat after an inrush of milliseconds that a 20 Hz poll does not see', () => {
    const desk = benchAt();
    desk.bench.putBoard('plover-healthy');
    desk.supply('VOLT 24;CURR 3;:OUTP ON');
    let peakA = 0;
    for (let i = 0; i < 200; i += 1) {
      desk.wait(0.0001);
      peakA = Math.max(peakA, desk.bench.truth().inputA);
    }
    const amps = Array.from({ length: 200 }, () => {
      desk.wait(0.05);
      return Number(desk.supply('MEAS:CURR?'));
    });
    expect(peakA).toBeGreaterThan(8 * mean(amps.slice(60)));
    expect(Math.max(...amps)).toBeLessThan(0.3);
    expect(spread(amps.slice(60))).toBeLessThan(0.006);
    expect(mean(amps.slice(60))).toBeGreaterThan(0.15);
  });

  it('Tern H runs for some seconds, falls back to a flat low draw and stays there', () => {
    const desk = benchAt();
    const amps = feed(desk, 'tern-falls', 30);
    expect(mean(amps.slice(80, 120))).toBeGreaterThan(0.38);
    expect(mean(amps.slice(200))).toBeCloseTo(0.016, 2);
    expect(spread(amps.slice(200))).toBeLessThan(0.006);
  });

  it('Plover B tries again about every second and a half', () => {
    const desk = benchAt();
    const amps = feed(desk, 'plover-hiccup', 30);
    const rises = amps.flatMap((a, i) => (i > 0 && amps[i - 1]! < 0.06 && a >= 0.06 ? [i] : []));
    const periods = rises.slice(1).map((at, i) => (at - rises[i]!) / 20);
    expect(mean(periods)).toBeCloseTo(1.52, 1);
    expect(Math.min(...amps.slice(20))).toBeLessThan(0.006);
  });

  it('Plover C creeps up without a step, and cools down while off', () => {
    const desk = benchAt();
    const amps = feed(desk, 'plover-creep', 120);
    const tenths = [400, 800, 1200, 1600, 2000].map((at) => mean(amps.slice(at, at + 100)));
    expect(tenths).toEqual(tenths.toSorted((a, b) => a - b));
    expect(tenths[4]! - tenths[0]!).toBeGreaterThan(0.08);
    const steps = amps.slice(400).map((a, i) => Math.abs(a - amps[i + 395]!));
    expect(Math.max(...steps)).toBeLessThan(0.008);
    desk.supply('OUTP OFF');
    desk.wait(600);
    expect(mean(feed(desk, 'plover-creep', 10).slice(100))).toBeLessThan(tenths[0]!);
  });

  it('Plover D draws nothing, and its fuse has volts on one side only', () => {
    const desk = benchAt();
    const amps = feed(desk, 'plover-open', 5);
    expect(mean(amps)).toBeLessThan(0.005);
    desk.bench.probe('F1 connector side');
    expect(desk.meter('MEAS:VOLT?')).toBeCloseTo(24, 1);
    desk.bench.probe('F1 board side');
    expect(desk.meter('MEAS:VOLT?')).toBeCloseTo(0, 2);
    desk.supply('OUTP OFF');
    desk.bench.replacePart('F1');
    desk.supply('OUTP ON');
    desk.wait(5);
    expect(railsUp(desk.bench)).toHaveLength(4);
  });

  it('gives more than the limit for a moment when a board is put on a live supply', () => {
    const desk = benchAt();
    desk.supply('VOLT 19;CURR 1;:OUTP ON');
    desk.wait(1);
    desk.bench.putBoard('tern-input-short');
    desk.wait(20e-6);
    expect(desk.bench.truth().inputA).toBeGreaterThan(20);
    desk.wait(0.1);
    expect(desk.bench.truth().inputA).toBeCloseTo(1, 1);
  });

  it('Wren B holds its cell’s volts above the set volts and draws nothing', () => {
    const desk = benchAt();
    const amps = feed(desk, 'wren-cell-in', 5);
    expect(mean(amps)).toBeLessThan(0.004);
    expect(Number(desk.supply('MEAS:VOLT?'))).toBeGreaterThan(4.03);
    expect(desk.supply('STAT:QUES:COND?')).toBe('0');
    desk.supply('OUTP OFF');
    desk.wait(2);
    expect(Number(desk.supply('MEAS:VOLT?'))).toBeGreaterThan(4.03);
  });

  it('Wren A draws next to nothing until its button is pressed', () => {
    const desk = benchAt();
    const before = feed(desk, 'wren-waits', 20);
    expect(mean(before)).toBeLessThan(0.012);
    desk.bench.pressWake();
    desk.wait(10);
    expect(Number(desk.supply('MEAS:CURR?'))).toBeGreaterThan(0.25);
    expect(railsUp(desk.bench)).toHaveLength(5);
  });

  it.each([
    ['tern-main-short', 'C112', 'C7'],
    ['tern-input-short', 'C7', 'C112'],
    ['tern-no-enable', 'R41', 'U3'],
    ['tern-loop', 'U20', 'U1'],
    ['tern-stall', 'U6', 'U4'],
    ['tern-warm', 'U4', 'U6'],
  ])('%s is mended by %s and not by %s', (key, right, wrong) => {
    const desk = benchAt();
    const shelf = desk.bench.shelf.find((board) => board.key === key)!;
    desk.bench.putBoard(key);
    desk.bench.replacePart(wrong);
    const runs = (amps: number[]) => {
      const last = amps.slice(-100);
      return Math.min(...last) > 0.3 && mean(last) > 0.38 && mean(last) < 0.7;
    };
    expect(runs(switchOn(desk, shelf, 14))).toBe(false);
    desk.supply('OUTP OFF');
    desk.bench.replacePart(right);
    expect(runs(switchOn(desk, shelf, 14))).toBe(true);
    expect(railsUp(desk.bench)).toHaveLength(7);
    expect(desk.bench.state().partsReplaced).toEqual([wrong, right]);
  });

  it('a fuse that melted stays open until it is replaced too', () => {
    const desk = benchAt();
    desk.bench.putBoard('tern-input-short');
    desk.supply('VOLT 19;CURR 10;:OUTP ON');
    desk.wait(2);
    desk.supply('OUTP OFF');
    desk.bench.replacePart('C7');
    const shelf = desk.bench.shelf.find((board) => board.key === 'tern-input-short')!;
    switchOn(desk, shelf, 12);
    expect(railsUp(desk.bench)).toEqual([]);
    desk.supply('OUTP OFF');
    desk.bench.replacePart('F1');
    switchOn(desk, shelf, 12);
    expect(railsUp(desk.bench)).toHaveLength(7);
  });
});

describe('the shelf', () => {
  it('says of every board that it is invented, what it was brought in with, and where to touch', () => {
    for (const board of benchAt().bench.shelf) {
      expect(board.name).toMatch(/\(invented\)/);
      expect(board.story.length).toBeGreaterThan(40);
      expect(board.points).toContain('GND');
      expect(board.parts.length).toBeGreaterThan(3);
    }
  });

  it('lets the meter touch every point of every board', () => {
    const desk = benchAt({ noiseScale: 0 });
    for (const board of desk.bench.shelf) {
      desk.bench.putBoard(board.key);
      for (const point of board.points) {
        desk.bench.probe(point);
        const ohms = desk.meter('MEAS:FRES?');
        expect(ohms, `${board.key} ${point}`).toBeLessThan(1e6);
        expect(ohms === 0, `${board.key} ${point}`).toBe(point === 'GND');
      }
    }
  });
});

describe('the hands', () => {
  const refused = (act: () => void) => {
    try {
      act();
    } catch (thrown) {
      return (thrown as WakelineError).trouble;
    }
    return null;
  };

  it('refuse unknown boards, points and parts, and say which there are', () => {
    const { bench } = benchAt();
    expect(refused(() => bench.putBoard('nope'))).toMatchObject({ code: 'bad-input' });
    expect(refused(() => bench.probe('GND'))?.todo).toContain('Put a board on');
    bench.putBoard('tern-healthy');
    expect(refused(() => bench.probe('nowhere'))?.todo).toContain('MAIN_8V6');
    expect(refused(() => bench.replacePart('Z9'))?.todo).toContain('C112');
    expect(bench.state()).toEqual({
      board: 'tern-healthy',
      probeAt: null,
      clippedAt: null,
      partsReplaced: [],
    });
  });

  it('refuse to replace a part while the output is on', () => {
    const desk = benchAt();
    feed(desk, 'tern-main-short', 1);
    expect(refused(() => desk.bench.replacePart('C112'))?.todo).toContain('output off');
    expect(desk.bench.state().partsReplaced).toEqual([]);
  });

  it('keep what was done to a board when another is put on', () => {
    const { bench } = benchAt();
    bench.putBoard('tern-main-short');
    bench.replacePart('C112');
    bench.putBoard('plover-healthy');
    expect(bench.state().partsReplaced).toEqual([]);
    bench.putBoard(null);
    bench.putBoard('tern-main-short');
    expect(bench.state().partsReplaced).toEqual(['C112']);
  });
});

describe('the bench as a whole', () => {
  it('answers the same bytes for the same seed and others for another', () => {
    const record = (seed: number) => feed(benchAt({ seed }), 'tern-healthy', 10).join();
    expect(record(5)).toBe(record(5));
    expect(record(5)).not.toBe(record(6));
  });

  it('reads a floor of a few milliamperes and not zero when nothing is drawn', () => {
    const floors = [1, 2, 3, 4, 5, 6, 7, 8].map((seed) => {
      const desk = benchAt({ seed });
      desk.supply('VOLT 5;OUTP ON');
      desk.wait(1);
      return mean(Array.from({ length: 50 }, () => Number(desk.supply('MEAS:CURR?'))));
    });
    expect(Math.max(...floors)).toBeLessThan(0.006);
    expect(Math.min(...floors)).toBeGreaterThan(-0.002);
    expect(spread(floors)).toBeGreaterThan(0.0005);
  });

  it('stands still after ten minutes of silence, unless it is told to go on', () => {
    let nowS = 0;
    const bench = createPretendBench({ seed: 1, nowS: () => nowS });
    const send = (text: string) =>
      bench.supply.receive(Uint8Array.from(`${text}\n`, (c) => c.charCodeAt(0)));
    bench.putBoard('plover-creep');
    send('VOLT 24;CURR 1;:OUTP ON');
    nowS = 100_000;
    send('VOLT?');
    expect(bench.truth().atS).toBe(100_000);
    send('CURR 0.9');
    expect(bench.log.at(-1)).toMatchObject({ atS: 100_000 });
    nowS = 100_100;
    bench.advanceTo(nowS);
    expect(bench.truth().atS).toBe(100_100);
  });

  it('logs every change that was told and no query', () => {
    const desk = benchAt();
    desk.wait(2);
    desk.supply('VOLT 5;VOLT?;CURR 99;:OUTP ON');
    desk.meterText('CONF:RES');
    expect(desk.bench.log).toEqual([
      { atS: 2, instrument: 'supply', command: 'VOLT 5' },
      { atS: 2, instrument: 'supply', command: ':OUTP ON' },
      { atS: 2, instrument: 'meter', command: 'CONF:RES' },
    ]);
  });

  it('survives any bytes on both instruments at any time', () => {
    const commands = fc.constantFrom(
      'OUTP ON',
      'OUTP OFF',
      'VOLT 19',
      'VOLT 60',
      'CURR 0',
      'CURR 10',
      '*RST',
      'VOLT:PROT 5',
      'VOLT:PROT:STAT ON',
      'CURR:PROT:STAT ON',
      'MEAS:VOLT?;CURR?',
      'VOLT:PROT:CLE',
      'VOLT 1e99',
    );
    const boards = fc.constantFrom(
      null,
      'tern-healthy',
      'tern-loop',
      'plover-healthy',
      'wren-waits',
    );
    const act = fc.oneof(
      commands,
      fc.uint8Array({ maxLength: 30 }),
      boards.map((board) => ({ board })),
    );
    fc.assert(
      fc.property(
        fc.array(fc.tuple(act, fc.double({ min: 0, max: 3, noNaN: true })), { maxLength: 25 }),
        (acts) => {
          const desk = benchAt();
          for (const [what, thenS] of acts) {
            if (typeof what === 'string') desk.supply(what);
            else if (what instanceof Uint8Array) {
              desk.bench.supply.receive(what);
              desk.bench.meter.receive(what);
            } else desk.bench.putBoard(what.board);
            desk.wait(thenS);
          }
          const truth = desk.bench.truth();
          const volts = [truth.inputV, ...truth.rails.map((rail) => rail.volts)];
          for (const v of volts) expect(v > -0.01 && v < 60.1).toBe(true);
          expect(truth.inputA).toBeLessThan(700);
        },
      ),
      { numRuns: 40 },
    );
  });
});
