import { describe, expect, it } from 'vitest';
import { type FigureCase, shopFigures } from '../../../core/figures/shop-figures.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** Invented jobs; times in days from an invented day 0, written out so that each figure can be counted by hand. */
function job(number: number, takenInDay: number, fields: Partial<FigureCase> = {}): FigureCase {
  return {
    jobId: `job-${number}`,
    number,
    boardKey: 'tern-2',
    boardName: 'Tern 2',
    serialKey: `sn-${number}`,
    takenInAt: takenInDay * DAY,
    firstClosedAt: null,
    closedAt: null,
    isClosed: false,
    verdict: null,
    cause: null,
    proof: 'unsolved',
    firstPartAt: null,
    closings: 0,
    comebackOf: null,
    ...fields,
  };
}

function closed(
  number: number,
  takenInDay: number,
  closedDay: number,
  fields: Partial<FigureCase> = {},
): FigureCase {
  return job(number, takenInDay, {
    firstClosedAt: closedDay * DAY,
    closedAt: closedDay * DAY,
    isClosed: true,
    verdict: 'wakes',
    cause: 'A shorted capacitor',
    proof: 'proved',
    closings: 1,
    firstPartAt: takenInDay * DAY + 2 * HOUR,
    ...fields,
  });
}

const CASES: readonly FigureCase[] = [
  // Held: 2 h to the first part.
  closed(1, 0, 3),
  // Did not hold: job 6 is the same board 40 days after; 6 h to the first part.
  closed(2, 1, 5, { serialKey: 'same', firstPartAt: DAY + 6 * HOUR }),
  // Closed, opened again, closed: did not hold.
  closed(3, 2, 30, { firstClosedAt: 4 * DAY, closings: 2, proof: 'guessed' }),
  // No part touched: diagnosed when it was closed, 24 h after.
  closed(4, 3, 4, { firstPartAt: null, verdict: 'not-repaired', cause: null, proof: 'unsolved' }),
  // Went back untouched: no diagnosis.
  closed(5, 4, 5, {
    verdict: 'returned-untouched',
    cause: null,
    proof: 'unsolved',
    firstPartAt: null,
  }),
  // The comeback of 2, 40 days after its closing; still open.
  job(6, 45, { serialKey: 'same', comebackOf: 'job-2' }),
  // Held, another board, no serial number.
  closed(7, 6, 8, { serialKey: '', boardKey: null, boardName: null, cause: 'Bench lead' }),
  // Too young: closed 60 days before now.
  closed(8, 130, 140),
  // Outside of the period.
  closed(9, 400, 401),
];

const figures = shopFigures({
  cases: CASES,
  donors: [
    { boardModel: 'Tern 2', parts: 1, boards: 1 },
    { boardModel: 'Curlew', parts: 4, boards: 2 },
  ],
  fromMs: 0,
  toMs: 180 * DAY,
  nowMs: 200 * DAY,
});

describe('the figures of a shop, counted by hand', () => {
  it('count what came in and what was closed', () => {
    expect(figures.takenIn).toBe(8);
    expect(figures.closed).toBe(7);
    expect(figures.verdicts).toEqual({
      wakes: 5,
      partly: 0,
      'not-repaired': 1,
      'returned-untouched': 1,
    });
  });

  it('take the time to diagnosis to the first part, else to the closing', () => {
    // Hours: 2, 6, 2, 24, 2, 2 (jobs 1, 2, 3, 4, 7, 8).
    expect(figures.diagnosisH).toMatchObject({ count: 6, median: 2, low: 2, high: 5, most: 24 });
    expect(figures.diagnosedWithoutPart).toBe(1);
  });

  it('count causes by board, proved apart from guessed, and the unsolved beside', () => {
    expect(figures.boards).toEqual([
      {
        boardName: 'Tern 2',
        jobs: 6,
        unsolved: 2,
        causes: [{ cause: 'A shorted capacitor', proved: 3, guessed: 1 }],
      },
      {
        boardName: null,
        jobs: 1,
        unsolved: 0,
        causes: [{ cause: 'Bench lead', proved: 1, guessed: 0 }],
      },
    ]);
  });

  it('judge only repairs that are old enough and can be seen to come back', () => {
    expect(figures.firstPass).toMatchObject({ count: 3, held: 1, tooYoung: 1, withoutSerial: 1 });
    // Wilson 95 % for 1 of 3: 0.0615 to 0.7923 (Newcombe 1998, method 3).
    expect(figures.firstPass.interval?.low).toBeCloseTo(0.0615, 3);
    expect(figures.firstPass.interval?.high).toBeCloseTo(0.7923, 3);
  });

  it('count comebacks where they were taken in, with the days since the closing before', () => {
    expect(figures.comebacks.count).toBe(1);
    expect(figures.comebacks.daysBetween).toMatchObject({ count: 1, median: 40 });
  });

  it('put the donor first that gave most', () => {
    expect(figures.donors.map(({ boardModel }) => boardModel)).toEqual(['Curlew', 'Tern 2']);
  });

  it('are nothing, not noughts, in a period without jobs', () => {
    const empty = shopFigures({ cases: [], donors: [], fromMs: 0, toMs: 1, nowMs: 1 });
    expect(empty.diagnosisH).toBeNull();
    expect(empty.firstPass.interval).toBeNull();
    expect(empty.comebacks.daysBetween).toBeNull();
    expect(empty.boards).toEqual([]);
  });
});
