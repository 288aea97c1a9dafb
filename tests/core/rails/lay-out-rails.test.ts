import { describe, expect, it } from 'vitest';
import { layOutRails } from '../../../core/rails/lay-out-rails.ts';
import { randomBoard } from './random-board.ts';
import { sampleBoard } from './sample-board.ts';

describe('layOutRails', () => {
  it('puts the input first and every rail right of all that feeds it', () => {
    for (const board of [sampleBoard, randomBoard(60, 4)]) {
      const places = new Map(layOutRails(board).map((place) => [place.rail, place]));
      for (const { name, fedBy } of board.rails) {
        const column = places.get(name)?.column ?? -1;
        if (fedBy.length === 0) expect(column).toBe(0);
        for (const feed of fedBy) expect(column).toBeGreaterThan(places.get(feed)?.column ?? 99);
      }
    }
  });

  it('gives no two rails one place', () => {
    const places = layOutRails(randomBoard(80, 9)).map(({ column, row }) => `${column}/${row}`);
    expect(new Set(places).size).toBe(places.length);
  });

  it('keeps children of one feed together, so that lines do not cross', () => {
    const rail = (name: string, fedBy: string[]) => ({ ...sampleBoard.rails[0]!, name, fedBy });
    const rails = [rail('IN', []), rail('A', ['IN']), rail('B', ['IN'])];
    rails.push(rail('b1', ['B']), rail('a1', ['A']), rail('b2', ['B']), rail('a2', ['A']));
    const rows = layOutRails({ ...sampleBoard, rails })
      .filter(({ column }) => column === 2)
      .sort((x, y) => x.row - y.row)
      .map((place) => place.rail[0]);
    expect(rows.join('')).toBe('aabb');
  });
});
