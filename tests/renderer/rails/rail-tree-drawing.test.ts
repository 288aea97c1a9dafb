import { describe, expect, it } from 'vitest';
import { layOutRails } from '../../../core/rails/lay-out-rails.ts';
import { readRailTable } from '../../../core/rails/rail-table.ts';
import { drawTree, NODE_HEIGHT, NODE_WIDTH } from '../../../renderer/rails/rail-tree-drawing.ts';
import { TERN_RAILS } from '../../support/tern-rails.ts';

const drawn = (text: string) => {
  const { board } = readRailTable(text, 'Drawn');
  return drawTree(board, layOutRails(board));
};

describe('the drawing of a rail tree', () => {
  it('puts every rail right of what feeds it, and none over another', () => {
    const { rails, width, height } = drawn(TERN_RAILS);
    const at = (name: string) => rails.find((rail) => rail.name === name)!;
    expect(at('MAIN_8V6').x).toBeGreaterThanOrEqual(at('DC_FUSED').x + NODE_WIDTH);
    expect(at('SYS_5V').x).toBeGreaterThanOrEqual(at('MAIN_8V6').x + NODE_WIDTH);
    for (const a of rails) {
      expect(a.x + NODE_WIDTH).toBeLessThanOrEqual(width);
      expect(a.y + NODE_HEIGHT).toBeLessThanOrEqual(height);
      for (const b of rails) {
        const isApart =
          a === b || Math.abs(a.x - b.x) >= NODE_WIDTH || Math.abs(a.y - b.y) >= NODE_HEIGHT;
        expect(isApart, `${a.name} and ${b.name}`).toBe(true);
      }
    }
  });

  it('draws one line a feed with the sign of what lies between, and dashes for enables', () => {
    const { feeds, enables } = drawn(
      'A\t12\nB\t12\t\tA\tlink\nC\t5\t\tA + B\tconverter\tB\nD\t3.3\t\tC\tregulator\tC + PG',
    );
    expect(feeds.map(({ key, through }) => [key, through])).toEqual([
      ['A>B', 'link'],
      ['A>C', 'converter'],
      ['B>C', 'converter'],
      ['C>D', 'regulator'],
    ]);
    // B and C feed what they enable: one line says both. PG is a signal and no rail.
    expect(enables).toEqual([]);
    expect(drawn(TERN_RAILS).enables.map(({ key }) => key)).toEqual([
      'ALW_3V3:SYS_5V',
      'ALW_3V3:SYS_3V3',
    ]);
  });

  it('draws enables that go round in a loop', () => {
    const { enables } = drawn('IN\t12\nA\t5\t\tIN\t\tB\nB\t3.3\t\tIN\t\tA');
    expect(enables).toHaveLength(2);
  });
});
