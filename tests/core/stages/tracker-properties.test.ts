import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type StageReport, UNKNOWN_BOARD } from '../../../core/stages/stage.ts';
import { classifyTrace, createTracker } from '../../../core/stages/tracker.ts';
import { REGULATION_CODES, type TraceColumns } from '../../../core/trace/sample.ts';
import { MAKERS } from '../../support/drawn-boards.ts';
import { Dice, logDraw, PLAIN_LOGGING } from '../../support/drawn-draws.ts';
import { namesOf } from '../../support/read-draw.ts';

const makers = Object.keys(MAKERS);
const anyMaker = fc.constantFrom(...makers);
const anySeed = fc.integer({ min: 0, max: 100_000 });
const anyRate = fc.constantFrom(1, 3, 20, 100, 500);

function drawn(maker: string, seed: number, hz: number) {
  const dice = new Dice(seed);
  const board = MAKERS[maker]!(dice);
  const logging = { ...PLAIN_LOGGING, hz, dropouts: 0.01, regulation: seed % 2 === 0 };
  const { columns } = logDraw(board.stretches, logging, dice);
  return { columns, settings: { ...UNKNOWN_BOARD, ...board.settings } };
}

function samplesOf(columns: TraceColumns) {
  return Array.from(columns.ticks, (tick, i) => ({
    tick,
    volts: columns.volts[i]!,
    amps: columns.amps[i]!,
    regulation: REGULATION_CODES[columns.regulation[i]!] ?? null,
    outputOn: null,
  }));
}

describe('the tracker is deterministic', () => {
  it('gives from a file exactly what it gives live, whoever asks for reports and when', () => {
    fc.assert(
      fc.property(
        anyMaker,
        anySeed,
        anyRate,
        fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 1, maxLength: 30 }),
        (maker, seed, hz, chunks) => {
          const { columns, settings } = drawn(maker, seed, hz);
          const live = createTracker(settings);
          let next = chunks[0]!;
          let chunk = 0;
          samplesOf(columns).forEach((sample, i) => {
            live.push(sample);
            if (i < next) return;
            live.report();
            chunk++;
            next += chunks[chunk % chunks.length]!;
          });
          expect(live.finish()).toEqual(classifyTrace(columns, settings));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('says the same again when it is asked again', () => {
    const { columns, settings } = drawn('boot loop', 4, 20);
    const live = createTracker(settings);
    for (const sample of samplesOf(columns)) live.push(sample);
    expect(live.report()).toEqual(live.report());
    expect(live.finish()).toEqual(live.finish());
  });

  it('never renames a stage that it has called final, nor moves it', () => {
    fc.assert(
      fc.property(anyMaker, anySeed, fc.constantFrom(2, 20), (maker, seed, hz) => {
        const first = drawn(maker, seed, hz);
        const second = drawn(makers[seed % makers.length]!, seed + 1, hz);
        const live = createTracker(first.settings);
        const kept: string[] = [];
        let offset = 0;
        for (const part of [first, second, first, second]) {
          const samples = samplesOf(part.columns);
          for (const [i, sample] of samples.entries()) {
            live.push({ ...sample, tick: sample.tick + offset });
            if (i % (hz * 5) !== 0) continue;
            const now = live.report().stages.filter((s) => s.final);
            expect(now.slice(0, kept.length).map((s) => JSON.stringify(s))).toEqual(kept);
            kept.splice(0, kept.length, ...now.map((s) => JSON.stringify(s)));
          }
          offset += samples.at(-1)!.tick + 600;
        }
        const last = live.finish().stages;
        expect(last.slice(0, kept.length).map((s) => JSON.stringify(s))).toEqual(kept);
      }),
      { numRuns: 25 },
    );
  });
});

/** What no noise and no clock should change: names, and borders within `roomS`. */
function expectAlike(a: StageReport, b: StageReport, roomS: number, scale = 1) {
  expect(namesOf(b)).toEqual(namesOf(a));
  a.stages.forEach((stage, i) => {
    expect(Math.abs(b.stages[i]!.startS - scale * stage.startS)).toBeLessThan(roomS);
  });
}

/** Draws whose names rest on no length near a limit: plateaus of 1.5 s and more, no loops. */
const PLAIN = [
  'healthy cold start',
  'fed before, woken by the button',
  'never leaves flat low draw',
  'stalls after a staircase',
  'flat at a fraction from the start',
  'dead short',
  'falls back',
  'controller that runs flat',
];

describe('what does not rename a stage', () => {
  // The limits: plateaus between 0.6 s and 9 s in a climb, at least 6 s where it settles, and at
  // least ten readings on each of them.
  it('time stretched or shrunk by a third', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PLAIN),
        anySeed,
        fc.double({ min: 0.75, max: 1.33, noNaN: true }),
        (maker, seed, scale) => {
          const dice = new Dice(seed);
          const board = MAKERS[maker]!(dice);
          const stretches = board.stretches.map((s) => ({
            ...s,
            seconds: s.seconds < 0.05 ? s.seconds : s.seconds < 3 ? 1.2 : Math.max(9, s.seconds),
          }));
          const { columns } = logDraw(stretches, { ...PLAIN_LOGGING, hz: 20, jitter: 0 }, dice);
          const settings = { ...UNKNOWN_BOARD, ...board.settings };
          const scaled = { ...columns, ticks: columns.ticks.map((t) => Math.round(t * scale)) };
          const plain = classifyTrace(columns, settings);
          expectAlike(plain, classifyTrace(scaled, settings), 0.15, scale);
        },
      ),
      { numRuns: 80 },
    );
  });

  it('noise below the floor of half a milliamp', () => {
    fc.assert(
      fc.property(fc.constantFrom(...PLAIN), anySeed, (maker, seed) => {
        const read = (noiseA: number) => {
          const dice = new Dice(seed);
          const board = MAKERS[maker]!(dice);
          const settings = { ...UNKNOWN_BOARD, ...board.settings };
          const logging = { ...PLAIN_LOGGING, noiseA, jitter: 0, zeroA: 0.001 };
          return classifyTrace(logDraw(board.stretches, logging, dice).columns, settings);
        };
        expectAlike(read(0.0001), read(0.0005), 0.2);
      }),
      { numRuns: 80 },
    );
  });

  it('the instrument’s resolution, 0.1 or 1 mA', () => {
    fc.assert(
      fc.property(fc.constantFrom(...PLAIN), anySeed, (maker, seed) => {
        const read = (countA: number) => {
          const dice = new Dice(seed);
          const board = MAKERS[maker]!(dice);
          const settings = { ...UNKNOWN_BOARD, ...board.settings };
          const logging = { ...PLAIN_LOGGING, countA, jitter: 0, zeroA: 0.001 };
          return classifyTrace(logDraw(board.stretches, logging, dice).columns, settings);
        };
        expectAlike(read(0.0001), read(0.001), 0.2);
      }),
      { numRuns: 80 },
    );
  });
});
