import type { BoardPlan, ConverterPlan } from '../board-plan.ts';

const buck: Omit<ConverterPlan, 'part' | 'to' | 'setV' | 'limitA'> = {
  kind: 'buck',
  from: 'BATT_4V',
  softStartS: 0.001,
  startDelayS: 0.0005,
  efficiency: 0.87,
  idleW: 0.001,
  lossOhms: 0.05,
  starts: { aboveV: 3.1, stopsBelowV: 2.7 },
};

/** A cell of about 2.5 Ah over 1.2 V, as a capacitor. */
const CELL = { name: 'CELL', farads: 7500, offOhms: 1e6, diodeV: 0.5 };

/**
 * The Wren 6, an invented phone mainboard fed on its battery line: draws next to nothing until
 * its button is pressed. `cellV` = volts of a cell that is still plugged in. Figures: common practice, no source.
 */
export function wrenPlan(
  shelf: { key: string; letter: string; story: string },
  cellV: number | null,
): BoardPlan {
  return {
    shelf: {
      key: shelf.key,
      name: `Wren 6 phone mainboard ${shelf.letter} (invented)`,
      story: shelf.story,
      statedInputV: 4,
      statedLimitA: 3,
      points: ['GND', 'BATT_4V', 'AON_1V8', 'IO_1V8', 'MEM_1V1', 'CORE_0V8'],
      parts: ['U1', 'U2', 'U3', 'C40'],
    },
    inputNet: 'BATT_4V',
    nets: [
      { name: 'BATT_4V', farads: 66e-6, offOhms: 60_000, diodeV: 0.46, railV: 4 },
      { name: 'AON_1V8', farads: 10e-6, offOhms: 9000, diodeV: 0.4, railV: 1.8 },
      { name: 'IO_1V8', farads: 22e-6, offOhms: 350, diodeV: 0.36, railV: 1.8 },
      { name: 'MEM_1V1', farads: 47e-6, offOhms: 90, diodeV: 0.3, railV: 1.1 },
      { name: 'CORE_0V8', farads: 100e-6, offOhms: 12, diodeV: 0.24, railV: 0.8 },
      ...(cellV === null ? [] : [{ ...CELL, startV: cellV }]),
    ],
    links: cellV === null ? [] : [{ part: 'cell plug', from: 'CELL', to: 'BATT_4V', ohms: 0.12 }],
    converters: [
      {
        ...buck,
        part: 'U1',
        kind: 'linear',
        to: 'AON_1V8',
        setV: 1.8,
        limitA: 0.2,
        alwaysOn: true,
      },
      { ...buck, part: 'U2', to: 'IO_1V8', setV: 1.8, limitA: 1 },
      { ...buck, part: 'U3', to: 'MEM_1V1', setV: 1.1, limitA: 2 },
      { ...buck, part: 'U4', to: 'CORE_0V8', setV: 0.8, limitA: 5 },
    ],
    loads: [
      { name: 'always', net: 'AON_1V8', fullAboveV: 1.4, amps: 0.002 },
      { name: 'io', net: 'IO_1V8', fullAboveV: 1.4, amps: 0.04 },
      { name: 'memory', net: 'MEM_1V1', fullAboveV: 0.9, amps: 0.1 },
      { name: 'processor', net: 'CORE_0V8', fullAboveV: 0.6, amps: 0.2 },
    ],
    sequence: {
      poweredBy: 'U1',
      watches: ['U2', 'U3', 'U4'],
      restartAfterS: 0.8,
      steps: [
        { do: 'await-wake' },
        { do: 'wait', s: 0.2 },
        { do: 'enable', converter: 'U2' },
        { do: 'await-good', converter: 'U2', withinS: 0.05, orElse: 'off' },
        { do: 'load', load: 'io', amps: 0.11 },
        { do: 'wait', s: 0.35 },
        { do: 'enable', converter: 'U3' },
        { do: 'await-good', converter: 'U3', withinS: 0.05, orElse: 'off' },
        { do: 'wait', s: 0.3 },
        { do: 'enable', converter: 'U4' },
        { do: 'await-good', converter: 'U4', withinS: 0.05, orElse: 'off' },
        { do: 'load', load: 'processor', amps: 0.8 },
        { do: 'load', load: 'memory', amps: 0.25 },
        { do: 'wait', s: 0.8 },
        { do: 'busy', load: 'processor', fromA: 1, toA: 3.2, dwellS: [0.04, 0.3] },
        { do: 'busy', load: 'memory', fromA: 0.3, toA: 0.7, dwellS: [0.1, 0.5] },
        { do: 'wait', s: 5 },
        { do: 'busy', load: 'processor', fromA: 0.5, toA: 2.2, dwellS: [0.1, 0.8] },
      ],
    },
    faults: [],
    touchPoints: {},
  };
}
