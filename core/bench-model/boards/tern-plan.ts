import type { BoardFault, BoardPlan, ConverterPlan } from '../board-plan.ts';

/** Invented parts of the Tern that a technician may replace. */
const TERN_PARTS = ['F1', 'C7', 'C112', 'U1', 'U3', 'U4', 'U6', 'R41', 'U20', 'FAN1'] as const;

const core: Omit<ConverterPlan, 'part' | 'to' | 'setV' | 'limitA' | 'softStartS'> = {
  kind: 'buck',
  from: 'MAIN_8V6',
  startDelayS: 0.0004,
  efficiency: 0.88,
  idleW: 0.012,
  lossOhms: 0.02,
  starts: { aboveV: 6, stopsBelowV: 4.5 },
};

/**
 * The Tern 14, an invented notebook mainboard: 19 V in, a front converter to a main rail of
 * 8.6 V, two always-on rails, then six rails in sequence and a processor that gets to work.
 * Level of detail and figures: common practice, no source; the draw at rest, 0.3 to 0.5 A at
 * start-up and the 8.6 V main rail are those of one small-notebook class.
 */
export function ternPlan(
  shelf: { key: string; letter: string; story: string },
  faults: readonly BoardFault[],
): BoardPlan {
  return {
    shelf: {
      key: shelf.key,
      name: `Tern 14 notebook mainboard ${shelf.letter} (invented)`,
      story: shelf.story,
      statedInputV: 19,
      statedLimitA: 2.5,
      points: [
        'GND',
        'F1 connector side',
        'F1 board side',
        'MAIN_8V6',
        'ALW_3V3',
        'SYS_5V',
        'SYS_3V3',
        'MEM_1V1',
        'IO_1V8',
        'CORE_0V9',
      ],
      parts: TERN_PARTS,
    },
    inputNet: 'DC_IN',
    nets: [
      { name: 'DC_IN', farads: 4.7e-6, offOhms: 220_000, diodeV: 0.52 },
      { name: 'DC_FUSED', farads: 22e-6, offOhms: 150_000, diodeV: 0.51 },
      { name: 'MAIN_8V6', farads: 330e-6, offOhms: 8200, diodeV: 0.44, railV: 8.6 },
      { name: 'ALW_3V3', farads: 100e-6, offOhms: 2700, diodeV: 0.39, railV: 3.3 },
      { name: 'SYS_5V', farads: 220e-6, offOhms: 900, diodeV: 0.41, railV: 5 },
      { name: 'SYS_3V3', farads: 220e-6, offOhms: 420, diodeV: 0.37, railV: 3.3 },
      { name: 'MEM_1V1', farads: 330e-6, offOhms: 38, diodeV: 0.3, railV: 1.1 },
      { name: 'IO_1V8', farads: 47e-6, offOhms: 180, diodeV: 0.34, railV: 1.8 },
      { name: 'CORE_0V9', farads: 880e-6, offOhms: 4.2, diodeV: 0.2, railV: 0.9 },
    ],
    links: [
      {
        part: 'F1',
        from: 'DC_IN',
        to: 'DC_FUSED',
        ohms: 0.012,
        fuse: { ratedA: 5, meltA2s: 8 },
      },
    ],
    converters: [
      {
        ...core,
        part: 'U1',
        from: 'DC_FUSED',
        to: 'MAIN_8V6',
        setV: 8.6,
        limitA: 3.6,
        lowLimitA: 1.4,
        softStartS: 0.008,
        startDelayS: 0.08,
        efficiency: 0.9,
        idleW: 0.06,
        lossOhms: 0.15,
        starts: { aboveV: 13.5, stopsBelowV: 11 },
        alwaysOn: true,
      },
      {
        ...core,
        part: 'U2',
        to: 'ALW_3V3',
        setV: 3.3,
        limitA: 0.5,
        softStartS: 0.002,
        alwaysOn: true,
      },
      { ...core, part: 'U3', to: 'SYS_5V', setV: 5, limitA: 4, softStartS: 0.003 },
      { ...core, part: 'U4', to: 'SYS_3V3', setV: 3.3, limitA: 4, softStartS: 0.003 },
      { ...core, part: 'U5', to: 'MEM_1V1', setV: 1.1, limitA: 6, softStartS: 0.002 },
      {
        ...core,
        part: 'U6',
        kind: 'linear',
        from: 'SYS_3V3',
        to: 'IO_1V8',
        setV: 1.8,
        limitA: 0.8,
        softStartS: 0.001,
        starts: { aboveV: 2.5, stopsBelowV: 2.2 },
      },
      { ...core, part: 'U7', to: 'CORE_0V9', setV: 0.9, limitA: 14, softStartS: 0.001 },
    ],
    loads: [
      { name: 'controller', net: 'ALW_3V3', fullAboveV: 2.5, amps: 0.045 },
      { name: 'ports', net: 'SYS_5V', fullAboveV: 4, amps: 0.05 },
      { name: 'logic', net: 'SYS_3V3', fullAboveV: 2.6, amps: 0.09 },
      { name: 'io', net: 'IO_1V8', fullAboveV: 1.4, amps: 0.05 },
      { name: 'memory', net: 'MEM_1V1', fullAboveV: 0.9, amps: 0.15 },
      { name: 'processor', net: 'CORE_0V9', fullAboveV: 0.7, amps: 0.3 },
    ],
    sequence: {
      poweredBy: 'U2',
      watches: ['U1', 'U3', 'U4', 'U5', 'U6', 'U7'],
      restartAfterS: 1.1,
      steps: [
        { do: 'load', load: 'controller', amps: 0.06 },
        { do: 'wait', s: 1.3 },
        { do: 'enable', converter: 'U3' },
        { do: 'await-good', converter: 'U3', withinS: 0.1, orElse: 'hold' },
        { do: 'wait', s: 0.25 },
        { do: 'load', load: 'ports', amps: 0.18 },
        { do: 'wait', s: 0.3 },
        { do: 'enable', converter: 'U4' },
        { do: 'await-good', converter: 'U4', withinS: 0.1, orElse: 'hold' },
        { do: 'wait', s: 0.15 },
        { do: 'load', load: 'logic', amps: 0.38 },
        { do: 'wait', s: 0.4 },
        { do: 'enable', converter: 'U6' },
        { do: 'await-good', converter: 'U6', withinS: 0.05, orElse: 'hold' },
        { do: 'enable', converter: 'U5' },
        { do: 'await-good', converter: 'U5', withinS: 0.05, orElse: 'hold' },
        { do: 'load', load: 'memory', amps: 0.5 },
        { do: 'wait', s: 0.45 },
        { do: 'enable', converter: 'U7' },
        { do: 'await-good', converter: 'U7', withinS: 0.05, orElse: 'hold' },
        { do: 'load', load: 'processor', amps: 1.5 },
        { do: 'wait', s: 0.5 },
        { do: 'verify', part: 'U20', orElse: 'restart' },
        { do: 'load', load: 'memory', amps: 0.9 },
        { do: 'busy', load: 'processor', fromA: 3, toA: 5.2, dwellS: [0.05, 0.25] },
        { do: 'wait', s: 3.5 },
        { do: 'verify', part: 'FAN1', orElse: 'off' },
        { do: 'busy', load: 'processor', fromA: 2, toA: 5, dwellS: [0.06, 0.5] },
        { do: 'busy', load: 'ports', fromA: 0.18, toA: 0.24, dwellS: [0.3, 1.5] },
      ],
    },
    faults,
    touchPoints: { 'F1 connector side': 'DC_IN', 'F1 board side': 'DC_FUSED' },
  };
}
