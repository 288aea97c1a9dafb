import type { BoardPlan } from '../board-plan.ts';
import { withCopper } from '../with-copper.ts';
import { PLOVER_BUS_COPPER } from './copper-plans.ts';
import { ploverPlan } from './plover-plan.ts';

/** The Plovers on the shelf: one sound, three with one fault each. */
export const PLOVER_BOARDS: readonly BoardPlan[] = [
  ploverPlan(
    {
      key: 'plover-healthy',
      letter: 'A',
      story:
        'Back from a packing line for a yearly check. Field outputs, motors and valves are disconnected.',
    },
    [],
  ),
  withCopper(
    ploverPlan(
      {
        key: 'plover-hiccup',
        letter: 'B',
        story:
          'Its lamp winks about every second and a half. A sensor was wired wrongly before it stopped.',
      },
      [{ kind: 'short', part: 'C8', net: 'BUS_5V', ohms: 0.479 }],
    ),
    PLOVER_BUS_COPPER,
  ),
  ploverPlan(
    {
      key: 'plover-creep',
      letter: 'C',
      story:
        'Works, but trips the cabinet fuse after some minutes. Smells of varnish near the terminals when warm.',
    },
    [
      {
        kind: 'warming-leak',
        part: 'D2',
        net: 'BULK_24V',
        coldOhms: 4000,
        hotOhms: 75,
        warmS: 70,
      },
    ],
  ),
  ploverPlan(
    {
      key: 'plover-open',
      letter: 'D',
      story:
        'Dead in the cabinet and on the bench: no lamp, no sound. It stopped during a thunderstorm.',
    },
    [{ kind: 'open-link', part: 'F1' }],
  ),
];
