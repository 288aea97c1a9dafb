import { luFactor, luSolve } from './lu-solve.ts';
import type { Network } from './network.ts';

/** What the meter is set to do. */
export type MeterFunction = 'VOLT' | 'RES' | 'FRES' | 'DIOD' | 'CONT';

/** What the meter's tips see: volts present, resistance to ground, and the diode behind it. */
export interface ProbedNet {
  readonly volts: number;
  readonly ohms: number;
  readonly diodeV: number;
}

/** Resistance of the test leads that a two-wire reading adds (common practice, no source). */
export const TEST_LEAD_OHMS = 0.14;

const OHM_RANGES = [
  { fullOhms: 1e3, testA: 1e-3 },
  { fullOhms: 1e4, testA: 1e-4 },
  { fullOhms: 1e5, testA: 1e-5 },
  { fullOhms: 1e6, testA: 5e-6 },
  { fullOhms: 1e7, testA: 5e-7 },
] as const;
const CONTINUITY_FULL_OHMS = 1200;
const DIODE_TEST_A = 1e-3;
const DIODE_FULL_V = 3;

/**
 * Resistance of a net to ground with every converter idle: links and resistances alone, by
 * nodal analysis with one ampere put into the net.
 */
export function ohmsToGround(network: Network, net: number): number {
  const { n, siemensToGround, links } = network;
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) matrix[i * n + i] = siemensToGround[i]!;
  for (const { plan, from, to, open } of links) {
    if (open) continue;
    const siemens = 1 / plan.ohms;
    matrix[from * n + from]! += siemens;
    matrix[to * n + to]! += siemens;
    matrix[from * n + to]! -= siemens;
    matrix[to * n + from]! -= siemens;
  }
  const volts = new Float64Array(n);
  volts[net] = 1;
  const pivots = new Int32Array(n);
  luFactor(matrix, n, pivots);
  luSolve(matrix, n, pivots, volts);
  return volts[net]!;
}

/**
 * What an ideal meter reads at a net, `null` = overload. Volts that are present push ohms and
 * diode readings off, as they do on a bench: a powered rail gives nonsense or overload.
 */
export function probeReading(as: MeterFunction, net: ProbedNet | null): number | null {
  if (as === 'VOLT') return net?.volts ?? 0;
  if (!net) return null;
  if (as === 'DIOD') {
    const volts = diodeVolts(net.ohms + TEST_LEAD_OHMS, net.diodeV) - net.volts;
    return Math.abs(volts) > DIODE_FULL_V ? null : volts;
  }
  const ohms = net.ohms + (as === 'FRES' ? 0 : TEST_LEAD_OHMS);
  if (as === 'CONT') {
    const seen = ohms + net.volts / OHM_RANGES[0].testA;
    return Math.abs(seen) > CONTINUITY_FULL_OHMS ? null : seen;
  }
  for (const { fullOhms, testA } of OHM_RANGES) {
    const seen = ohms + net.volts / testA;
    if (Math.abs(seen) <= 1.2 * fullOhms) return seen;
  }
  return null;
}

/** Volts at which a resistance and a diode beside it share the test current (by bisection). */
function diodeVolts(ohms: number, diodeV: number): number {
  let low = 0;
  let high = DIODE_TEST_A * ohms;
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    const amps = middle / ohms + DIODE_TEST_A * Math.exp((middle - diodeV) / 0.052);
    if (amps > DIODE_TEST_A) high = middle;
    else low = middle;
  }
  return low;
}
