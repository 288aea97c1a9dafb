import type { BoardFault, BoardPlan } from '../board-plan.ts';

/**
 * The Plover 24, an invented machine controller: 24 V in, a bulk capacitor that takes its
 * inrush in a few milliseconds, three rails, then a flat draw. Figures: common practice, no
 * source.
 */
export function ploverPlan(
  shelf: { key: string; letter: string; story: string },
  faults: readonly BoardFault[],
): BoardPlan {
  return {
    shelf: {
      key: shelf.key,
      name: `Plover 24 machine controller ${shelf.letter} (invented)`,
      story: shelf.story,
      statedInputV: 24,
      statedLimitA: 1.5,
      points: ['GND', 'F1 connector side', 'F1 board side', 'BUS_5V', 'LOGIC_3V3', 'CORE_1V2'],
      parts: ['F1', 'C1', 'C8', 'D2', 'U1', 'U2', 'U3'],
    },
    inputNet: 'FIELD_24V',
    nets: [
      { name: 'FIELD_24V', farads: 1e-6, offOhms: 47_000, diodeV: 0.62 },
      { name: 'BULK_24V', farads: 680e-6, offOhms: 15_000, diodeV: 0.58, railV: 24 },
      { name: 'BUS_5V', farads: 220e-6, offOhms: 1200, diodeV: 0.43, railV: 5 },
      { name: 'LOGIC_3V3', farads: 100e-6, offOhms: 560, diodeV: 0.38, railV: 3.3 },
      { name: 'CORE_1V2', farads: 47e-6, offOhms: 55, diodeV: 0.31, railV: 1.2 },
    ],
    links: [
      {
        part: 'F1',
        from: 'FIELD_24V',
        to: 'BULK_24V',
        ohms: 0.18,
        fuse: { ratedA: 2, meltA2s: 3 },
      },
    ],
    converters: [
      {
        part: 'U1',
        kind: 'buck',
        from: 'BULK_24V',
        to: 'BUS_5V',
        setV: 5,
        limitA: 2.5,
        softStartS: 0.004,
        startDelayS: 0.02,
        efficiency: 0.86,
        idleW: 0.1,
        lossOhms: 0.05,
        starts: { aboveV: 16, stopsBelowV: 12 },
        hiccup: { tripS: 0.12, retryS: 1.4 },
        alwaysOn: true,
      },
      {
        part: 'U2',
        kind: 'buck',
        from: 'BUS_5V',
        to: 'LOGIC_3V3',
        setV: 3.3,
        limitA: 2,
        softStartS: 0.001,
        startDelayS: 0.002,
        efficiency: 0.92,
        idleW: 0.01,
        lossOhms: 0.05,
        starts: { aboveV: 4.3, stopsBelowV: 4 },
        alwaysOn: true,
      },
      {
        part: 'U3',
        kind: 'linear',
        from: 'LOGIC_3V3',
        to: 'CORE_1V2',
        setV: 1.2,
        limitA: 0.6,
        softStartS: 0.0005,
        startDelayS: 0.001,
        efficiency: 1,
        idleW: 0.001,
        lossOhms: 0,
        starts: { aboveV: 2.9, stopsBelowV: 2.6 },
      },
    ],
    loads: [
      { name: 'bus', net: 'BUS_5V', fullAboveV: 4, amps: 0.06 },
      { name: 'logic', net: 'LOGIC_3V3', fullAboveV: 2.7, amps: 0.08 },
      { name: 'core', net: 'CORE_1V2', fullAboveV: 1, amps: 0.1 },
    ],
    sequence: {
      poweredBy: 'U2',
      watches: ['U1', 'U2', 'U3'],
      restartAfterS: 0.5,
      steps: [
        { do: 'enable', converter: 'U3' },
        { do: 'await-good', converter: 'U3', withinS: 0.05, orElse: 'restart' },
        { do: 'wait', s: 0.6 },
        { do: 'load', load: 'logic', amps: 0.22 },
        { do: 'wait', s: 0.5 },
        { do: 'load', load: 'bus', amps: 0.32 },
        { do: 'load', load: 'core', amps: 0.24 },
      ],
    },
    faults,
    touchPoints: { 'F1 connector side': 'FIELD_24V', 'F1 board side': 'BULK_24V' },
  };
}
