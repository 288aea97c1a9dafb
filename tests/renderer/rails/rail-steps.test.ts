import { describe, expect, it } from 'vitest';
import { layOutRails } from '../../../core/rails/lay-out-rails.ts';
import { stepAlong } from '../../../renderer/rails/rail-steps.ts';
import { sampleBoard } from '../../core/rails/sample-board.ts';

const places = layOutRails(sampleBoard);
const step = (from: string, key: string) => stepAlong(sampleBoard, places, from, key);

describe('stepAlong', () => {
  it('goes left to what feeds a rail and right to what it feeds', () => {
    expect(step('MAIN', 'ArrowLeft')).toBe('DC_IN');
    expect(step('DC_IN', 'ArrowRight')).toBe('MAIN');
    expect(['MEM', 'CORE', 'GFX', 'AON_3V3', 'AON_5V']).toContain(step('MAIN', 'ArrowRight'));
  });

  it('goes up and down in a column and back', () => {
    const below = step('AON_5V', 'ArrowDown') ?? step('AON_5V', 'ArrowUp') ?? '';
    const back = [step(below, 'ArrowUp'), step(below, 'ArrowDown')];
    expect(back).toContain('AON_5V');
  });

  it('stops at the edges and leaves other keys alone', () => {
    expect(step('DC_IN', 'ArrowLeft')).toBeNull();
    expect(step('LCD_5V', 'ArrowRight')).toBeNull();
    expect(step('MAIN', 'a')).toBeNull();
    expect(step('nowhere', 'ArrowUp')).toBeNull();
  });

  it('goes to the first input and to the furthest load', () => {
    expect(step('CORE', 'Home')).toBe('DC_IN');
    const last = places.find(({ rail }) => rail === step('DC_IN', 'End'));
    expect(last?.column).toBe(Math.max(...places.map(({ column }) => column)));
  });
});
