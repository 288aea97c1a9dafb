import { describe, expect, it } from 'vitest';
import type { Stage } from '../../../core/stages/stage.ts';
import { placeStages } from '../../../renderer/strip/place-stages.ts';

const S = 10_000;
const stage = (startS: number, endS: number, final = true) => ({ startS, endS, final }) as Stage;

describe('stages on the strip', () => {
  it('lie where the trace above shows their times', () => {
    const placed = placeStages([stage(0, 10), stage(10, 20)], { fromTick: 0, toTick: 20 * S }, 20);
    expect(placed).toEqual([
      { index: 0, left: 0, width: 50 },
      { index: 1, left: 50, width: 50 },
    ]);
  });

  it('are cut at the window and left out beyond it', () => {
    const placed = placeStages(
      [stage(0, 10), stage(10, 30), stage(30, 40)],
      { fromTick: 5 * S, toTick: 25 * S },
      40,
    );
    expect(placed).toEqual([
      { index: 0, left: 0, width: 25 },
      { index: 1, left: 25, width: 75 },
    ]);
  });

  it('carry the newest on to the newest sample until it is settled', () => {
    const range = { fromTick: 0, toTick: 40 * S };
    expect(placeStages([stage(0, 10, false)], range, 20)[0]!.width).toBe(50);
    expect(placeStages([stage(0, 10, true)], range, 20)[0]!.width).toBe(25);
  });
});
