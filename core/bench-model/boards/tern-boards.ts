import type { BoardPlan } from '../board-plan.ts';
import { withCopper } from '../with-copper.ts';
import { TERN_INPUT_COPPER, TERN_MAIN_COPPER } from './copper-plans.ts';
import { ternPlan } from './tern-plan.ts';

/** The Terns on the shelf: one sound, the others each with one fault. */
export const TERN_BOARDS: readonly BoardPlan[] = [
  ternPlan(
    {
      key: 'tern-healthy',
      letter: 'A',
      story:
        'Known good, kept for comparison. Starts by itself when fed and is at work within eight seconds.',
    },
    [],
  ),
  withCopper(
    ternPlan(
      {
        key: 'tern-main-short',
        letter: 'B',
        story:
          'Does not start after a drink was spilled near the hinge. The charger lamp stays on and nothing gets hot to the touch.',
      },
      [{ kind: 'short', part: 'C112', net: 'MAIN_8V6', ohms: 2.082 }],
    ),
    TERN_MAIN_COPPER,
  ),
  withCopper(
    ternPlan(
      {
        key: 'tern-input-short',
        letter: 'C',
        story: 'Dead. The charger clicks off the moment it is plugged in.',
      },
      [{ kind: 'short', part: 'C7', net: 'DC_FUSED', ohms: 0.068 }],
    ),
    TERN_INPUT_COPPER,
  ),
  ternPlan(
    {
      key: 'tern-no-enable',
      letter: 'D',
      story: 'No sign of life. Came from another shop with a note that the charger is fine.',
    },
    [{ kind: 'no-enable', part: 'R41', converter: 'U3' }],
  ),
  ternPlan(
    {
      key: 'tern-loop',
      letter: 'E',
      story:
        'The fan twitches every few seconds and nothing else happens. Began after an update was cut off.',
    },
    [{ kind: 'fails-check', part: 'U20' }],
  ),
  ternPlan(
    {
      key: 'tern-stall',
      letter: 'F',
      story: 'The keyboard lights up, the screen stays black. Dropped a week ago.',
    },
    [{ kind: 'dead-converter', part: 'U6', converter: 'U6' }],
  ),
  ternPlan(
    {
      key: 'tern-warm',
      letter: 'G',
      story:
        'Starts and works, but empties its battery in an hour and is warm beside the memory even at rest.',
    },
    [{ kind: 'short', part: 'U4', net: 'SYS_3V3', ohms: 1.6 }],
  ),
  ternPlan(
    {
      key: 'tern-falls',
      letter: 'H',
      story:
        'Starts, shows a picture for some seconds and goes dark. The fan has been noisy for a month.',
    },
    [{ kind: 'fails-check', part: 'FAN1' }],
  ),
];
