import { describe, expect, it } from 'vitest';
import { mainRailOf } from '../../../core/rails/main-rail.ts';
import { readRailTable } from '../../../core/rails/rail-table.ts';
import { sampleBoard } from './sample-board.ts';

const railsOf = (table: string) => readRailTable(table, 'b').board.rails;

describe('mainRailOf', () => {
  it('takes the rail that is called so', () => {
    expect(mainRailOf(sampleBoard.rails)?.name).toBe('MAIN');
  });

  it('takes the rail that feeds most others where none is', () => {
    const phone = 'VBAT,4\nSYS,3.9,,VBAT\nA,1.8,,SYS\nB,1.1,,SYS\nC,0.8,,SYS\n';
    expect(mainRailOf(railsOf(phone))?.name).toBe('SYS');
  });

  it('takes the input where it feeds the loads itself', () => {
    expect(mainRailOf(railsOf('P12,12\nA,5,,P12\nB,3.3,,P12\nC,1,,P12\n'))?.name).toBe('P12');
  });

  it('finds none where there is but an input', () => {
    expect(mainRailOf(railsOf('P12,12\n'))).toBeNull();
  });
});
