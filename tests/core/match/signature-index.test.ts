import { describe, expect, it } from 'vitest';
import { type CurveSignature, curveSignature } from '../../../core/match/curve-signature.ts';
import { readyQuery, signatureDistance } from '../../../core/match/signature-distance.ts';
import { createSignatureIndex } from '../../../core/match/signature-index.ts';
import {
  inventedRun,
  inventedStairs,
  type RunTwist,
  randomSource,
  type Staircase,
} from './invented-runs.ts';

const board: Staircase = [
  [0, 0.02],
  [1.2, 0.11],
  [2.5, 0.23],
  [4, 0.42],
];
const other: Staircase = [
  [0, 0.02],
  [1.2, 0.11],
];

const signature = (stairs: Staircase, twist: RunTwist = {}, feed = 'input') =>
  curveSignature(inventedRun(stairs, twist), feed)!;
const distance = (a: CurveSignature, b: CurveSignature) => signatureDistance(readyQuery(a), b);

describe('signatureDistance', () => {
  const good = signature(board);

  it('is nothing for the same run', () => {
    expect(distance(good, good)).toBe(0);
  });

  it.each([
    ['a third slower', { stretch: 1.33, seconds: 40 }],
    ['a quarter faster', { stretch: 0.75 }],
    ['20 mA drawn beside the board', { addedA: 0.02 }],
    ['fed with another voltage', { volts: 20 }],
    ['recorded from four seconds earlier', { lateS: 4, seconds: 34 }],
    ['recorded for a longer time', { seconds: 80 }],
  ] as const)('stays small for the same board %s', (_name, twist) => {
    expect(distance(good, signature(board, twist))).toBeLessThan(0.2);
    expect(distance(good, signature(other, twist))).toBeGreaterThan(0.6);
  });

  it('compares a run that goes on with only as much of another as it has reached', () => {
    const early = signature(board, { seconds: 3 });
    expect(distance(early, good)).toBeLessThan(0.2);
    expect(distance(early, signature(other))).toBeGreaterThan(0.2);
  });

  it('never compares watts with amps', () => {
    const blind = signature(board, { withVolts: false });
    expect(blind.quantity).toBe('amps');
    expect(distance(good, blind)).toBe(Number.POSITIVE_INFINITY);
    expect(distance(blind, signature(board, { withVolts: false, stretch: 1.2 }))).toBeLessThan(0.2);
  });
});

describe('curveSignature', () => {
  it('is null for a run without readings, and for one too short to have a curve', () => {
    const empty = inventedRun(board, { seconds: 0 });
    expect(curveSignature(empty, '')).toBeNull();
    const none = inventedRun(board);
    none.amps.fill(Number.NaN);
    expect(curveSignature(none, '')).toBeNull();
  });

  it('counts from a known start where there is one', () => {
    const run = inventedRun(board, { lateS: 4, seconds: 40 });
    const known = curveSignature(run, '', 40_000)!;
    expect(distance(known, signature(board))).toBeLessThan(0.05);
  });
});

describe('createSignatureIndex', () => {
  const random = randomSource(20_310_401);
  const boards = Array.from({ length: 80 }, () => inventedStairs(random));
  const twist = (): RunTwist => ({
    stretch: 0.85 + 0.3 * random(),
    addedA: random() < 0.3 ? 0.01 * random() : 0,
    volts: random() < 0.3 ? 19 : 12,
    lateS: 3 * random(),
    seconds: 20 + 30 * random(),
    noise: () => random() - 0.5,
  });
  const runs = Array.from({ length: 1200 }, (_, i) => ({
    id: `run ${i}`,
    board: i % boards.length,
    signature: signature(boards[i % boards.length]!, twist(), i % 3 === 0 ? 'cells' : 'input'),
  }));
  const index = createSignatureIndex();
  for (const run of runs) index.add(run.id, run.signature);

  it('finds exactly the runs that looking at every one finds', () => {
    expect(index.size).toBe(1200);
    for (let i = 0; i < 25; i += 1) {
      const asked = signature(boards[(i * 7) % boards.length]!, twist());
      const query = readyQuery(asked);
      const every = runs
        .map((run) => signatureDistance(query, run.signature))
        .sort((a, b) => a - b)
        .slice(0, 5);
      const found = index.nearest(asked, 5).map((near) => near.distance);
      expect(found.length).toBe(5);
      found.forEach((value, k) => {
        expect(value).toBeCloseTo(every[k]!, 9);
      });
      expect(index.compared).toBeLessThan(runs.length);
    }
  });

  it('finds runs of the same board first, most of the time', () => {
    let same = 0;
    for (let i = 0; i < boards.length; i += 1) {
      const [first] = index.nearest(signature(boards[i]!, twist()), 1);
      if (runs.find(({ id }) => id === first!.id)!.board === i) same += 1;
    }
    expect(same / boards.length).toBeGreaterThan(0.9);
  });

  it('leaves out the run that is asked about, and says which runs were fed otherwise', () => {
    const { id, signature: own } = runs[30]!;
    expect(index.nearest(own, 1)[0]!.id).toBe(id);
    const others = index.nearest(own, 20, id);
    expect(others.map((near) => near.id)).not.toContain(id);
    for (const near of others) {
      const { feed } = runs.find((run) => run.id === near.id)!.signature;
      expect(near.sameFeed).toBe(feed === own.feed);
    }
    expect(others.some(({ sameFeed }) => !sameFeed)).toBe(true);
  });

  it('takes many copies of one run, and an empty ledger', () => {
    const copies = createSignatureIndex();
    expect(copies.nearest(runs[0]!.signature, 5)).toEqual([]);
    for (let i = 0; i < 100; i += 1) copies.add(`copy ${i}`, runs[0]!.signature);
    expect(copies.nearest(runs[0]!.signature, 5).map((near) => near.distance)).toEqual([
      0, 0, 0, 0, 0,
    ]);
  });
});
