import type { BoardPlan } from '../board-plan.ts';
import { wrenPlan } from './wren-plan.ts';

/** The Wrens on the shelf: one ready to be fed, one whose cell was left plugged in. */
export const WREN_BOARDS: readonly BoardPlan[] = [
  wrenPlan(
    {
      key: 'wren-waits',
      letter: 'A',
      story:
        'Data wanted off it; the screen is broken. Cell unplugged, fed on the battery line; it starts when the side button is pressed.',
    },
    null,
  ),
  wrenPlan(
    {
      key: 'wren-cell-in',
      letter: 'B',
      story:
        'Data wanted off it. The cell is glued over its own plug and was left plugged in: unplug it before bench power.',
    },
    4.12,
  ),
];
