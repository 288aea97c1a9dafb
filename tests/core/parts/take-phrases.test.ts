import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePart } from '../../../core/parts/parse-part.ts';
import type { PartSpec } from '../../../core/parts/part-spec.ts';

// How the trade types parts is common practice, no source; marks are IEC 60062 and EIA-198.
const TYPED: readonly (readonly [string, Partial<PartSpec>])[] = [
  ['4u7', { kind: 'capacitor', value: 4.7e-6 }],
  ['0R005', { kind: 'resistor', value: 0.005 }],
  ['10k 1% 0603in', { kind: 'resistor', value: 1e4 }],
  ['22uF 6.3V X5R 0402in', { value: 22e-6, ratedV: 6.3, dielectric: 'X5R' }],
  ['3p3 C0G', { value: 3.3e-12, dielectric: 'C0G' }],
  ['6.8pF C', { value: 6.8e-12, tolerance: { low: -0.25e-12, high: 0.25e-12, in: 'farads' } }],
  ['12pF ±0.5pF C0G', { tolerance: { low: -0.5e-12, high: 0.5e-12, in: 'farads' } }],
  ['47uF 16V tant B case', { technology: 'tantalum', otherCase: '3528-21', tolerance: null }],
  ['D case 330u 2.5V 9m', { otherCase: '7343-31', esrOhm: 0.009, tolerance: null }],
  ['case C 100u 10V tantalum', { otherCase: '6032-28', ratedV: 10 }],
  ['330uF 6V 9mohm polymer', { technology: 'polymer', esrOhm: 0.009 }],
  ['9mohm 330uF 2.5V', { kind: 'capacitor', value: 330e-6, esrOhm: 0.009 }],
  ['220u 6.3V 15mR', { kind: 'capacitor', value: 220e-6, esrOhm: 0.015 }],
  ['1000uF 16V low ESR 105C 10x20', { value: 1e-3, esrOhm: null, otherCase: '10X20' }],
  ['2200uF 16V 20mR 105C 2000h', { value: 2.2e-3, esrOhm: 0.02 }],
  ['X2 100n 275VAC', { kind: 'capacitor', value: 100e-9, ratedV: 275, designator: null }],
  ['120R@100MHz bead', { kind: 'bead', value: 120 }],
  ['600R 100MHz 0.5A', { kind: 'bead', value: 600, ratedA: 0.5 }],
  ['600Z 1A bead', { kind: 'bead', value: 600 }],
  ['FB 30R 5A', { kind: 'bead', value: 30, ratedA: 5 }],
  ['2.2uH 3A', { kind: 'inductor', value: 2.2e-6, ratedA: 3 }],
  ['2R2uH 5A shielded', { kind: 'inductor', value: 2.2e-6 }],
  ['3R3 uH', { kind: 'inductor', value: 3.3e-6 }],
  ['1u5H', { kind: 'inductor', value: 1.5e-6 }],
  ['1uH 10A DCR 5mR', { kind: 'inductor', value: 1e-6, esrOhm: null }],
  ['150nH 30A 0.3m', { kind: 'inductor', value: 150e-9 }],
  ['32.768kHz 12.5pF', { kind: 'crystal', value: 32_768 }],
  ['Y1 32k768', { kind: 'crystal', value: 32_768 }],
  ['Y2 25M', { kind: 'crystal', value: 25e6 }],
  ['25MHz 10ppm 10pF', { kind: 'crystal', value: 25e6, marking: null }],
  ['osc 24MHz', { kind: 'crystal', variant: 'oscillator' }],
  ['schottky 3A 40V', { kind: 'diode', variant: 'Schottky', ratedA: 3, ratedV: 40 }],
  ['white LED 0603in', { kind: 'diode', variant: 'LED' }],
  ['1N4148', { kind: 'diode', marking: '1N4148' }],
  ['1.5KE15A', { kind: 'suppressor', marking: '1.5KE15A' }],
  ['TVS 24V 600W SMB', { kind: 'suppressor', value: 24, ratedW: 600, otherCase: 'SMB' }],
  ['zener 5V1', { kind: 'zener', value: 5.1 }],
  ['PNP 40V 200mA', { kind: 'transistor', variant: 'PNP' }],
  ['mosfet n 30V 10A 5mohm', { kind: 'transistor', variant: 'n-channel', value: null }],
  ['QX4407 30V', { kind: null, marking: 'QX4407', ratedV: 30 }],
  ['F1 5A', { kind: 'fuse', designator: 'F1', value: 5 }],
  ['polyfuse 500mA 1210', { kind: 'fuse', variant: 'resettable', value: 0.5 }],
  ['fuse 3.15A T', { kind: 'fuse', value: 3.15 }],
  ['100k NTC 1% B4250', { kind: 'thermistor', variant: 'NTC', value: 1e5 }],
  ['10k B3435', { kind: 'thermistor', value: 1e4 }],
  ['MOV 275V', { kind: 'varistor', value: 275 }],
  ['10D471K', { kind: 'varistor', value: 470 }],
  ['10k thick film 0.1% 25ppm', { kind: 'resistor', value: 1e4, technology: null }],
  ['chip resistor 4K7', { kind: 'resistor', value: 4700 }],
  ['zero ohm', { kind: 'resistor', value: 0 }],
  ['R5 R010 2512', { designator: 'R5', value: 0.01 }],
  ['LDO 3.3V SOT-23-5', { kind: 'chip', ratedV: null, otherCase: 'SOT-23-5' }],
];

describe('takePhrases, in what the trade types', () => {
  it.each(TYPED)('reads %s', (text, spec) => {
    const part = parsePart(text);
    expect(part.faults).toEqual([]);
    expect(part.spec).toMatchObject(spec);
  });

  it('guesses no kind from a lone rating', () => {
    expect(parsePart('3A').spec).toMatchObject({ kind: null, ratedA: 3 });
    expect(parsePart('5V').spec).toMatchObject({ kind: null, ratedV: 5 });
  });

  it('still points at what nobody understands', () => {
    for (const [text, at] of [
      ['22u X5R 0603in 6.3', 18],
      ['10u Hello', 4],
      ['D case 330u Zq!', 12],
    ] as const) {
      expect(parsePart(text).faults).toMatchObject([{ at }]);
    }
  });

  it('reads any text without throwing, with every place inside it', () => {
    const word = fc.constantFrom(
      ...TYPED.flatMap(([text]) => text.split(' ')),
      'case',
      'ESR',
      '±',
      '(',
      '?',
      '@',
    );
    const text = fc.oneof(
      fc.array(word, { maxLength: 7 }).map((words) => words.join(' ')),
      fc.string({ maxLength: 24 }),
    );
    fc.assert(
      fc.property(text, (typed) => {
        const part = parsePart(typed);
        for (const { at, end } of [...part.notes, ...part.questions, ...part.faults]) {
          expect(at).toBeGreaterThanOrEqual(0);
          expect(end).toBeGreaterThanOrEqual(at);
          expect(end).toBeLessThanOrEqual(Math.max(typed.length, 1));
        }
        for (const fault of part.faults) expect(fault.todo).not.toBe('');
        const { value, ratedV, ratedA, esrOhm } = part.spec;
        for (const figure of [value, ratedV, ratedA, esrOhm]) {
          if (figure !== null) expect(Number.isFinite(figure)).toBe(true);
        }
      }),
      { numRuns: 3000, seed: 11 },
    );
  });
});
