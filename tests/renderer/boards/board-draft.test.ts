import { describe, expect, it } from 'vitest';
import { RAIL_COLUMNS } from '../../../core/rails/rail-columns.ts';
import { readRailTable, writeRailTable } from '../../../core/rails/rail-table.ts';
import {
  EMPTY_DRAFT,
  factsIn,
  isDraftEmpty,
  placeOf,
  tableText,
  withBlock,
  withCell,
  withoutRow,
} from '../../../renderer/boards/board-draft.ts';

describe('a board being typed', () => {
  it('begins with five empty rows, and is never without one', () => {
    expect(EMPTY_DRAFT.rows).toHaveLength(5);
    expect(isDraftEmpty(EMPTY_DRAFT)).toBe(true);
    let draft = EMPTY_DRAFT;
    for (let i = 0; i < 9; i++) draft = withoutRow(draft, 0);
    expect(draft.rows).toHaveLength(1);
  });

  it('takes a block over its cells and grows for it, cutting what lies beyond the last column', () => {
    const draft = withBlock(EMPTY_DRAFT, 4, 9, [
      ['0.4', 'no', 'lost'],
      ['0.3', 'yes', 'lost'],
    ]);
    expect(draft.rows).toHaveLength(6);
    expect(draft.rows[4]?.slice(9)).toEqual(['0.4', 'no']);
    expect(draft.rows[5]).toHaveLength(RAIL_COLUMNS.length);
  });

  it('is read with row n of the table on line n, also over empty rows and quotes', () => {
    let draft = withCell(EMPTY_DRAFT, 0, 0, 'VIN');
    draft = withCell(draft, 0, 1, '19');
    draft = withCell(draft, 3, 0, 'The "main" rail');
    draft = withCell(draft, 3, 1, '8.6');
    draft = withCell(draft, 3, 3, 'NOBODY');
    const read = () => readRailTable(tableText(draft), 'Wren');
    expect(read).toThrow(/row 4, rail The "main" rail/);
    draft = withCell(draft, 3, 3, 'VIN');
    expect(read().board.rails.map(({ name }) => name)).toEqual(['VIN', 'The "main" rail']);
  });

  it('carries its facts below the rows, and finds them in a text', () => {
    const facts = {
      statedInputV: '19',
      statedLimitA: '2.5',
      runningA: '',
      runsFlat: 'yes',
    } as const;
    const draft = withCell(withCell({ ...EMPTY_DRAFT, facts }, 0, 0, 'VIN'), 0, 1, '19');
    const { board } = readRailTable(tableText(draft), 'Wren');
    expect(board).toMatchObject({
      statedInputV: 19,
      statedLimitA: 2.5,
      runningA: null,
      runsFlat: true,
    });
    expect(factsIn(writeRailTable(board), EMPTY_DRAFT.facts)).toEqual(facts);
    expect(factsIn('VIN\t19', facts)).toEqual(facts);
  });
});

describe('where a message points', () => {
  it.each([
    ['row 3, column fed by', { row: 2, column: 'fed by' }],
    ['row 12, rail CORE', { row: 11, column: null }],
    ['row 1, the heading', { row: 0, column: null }],
    ['board Wren', null],
  ])('"%s"', (where, place) => {
    expect(placeOf(where)).toEqual(place);
  });
});
