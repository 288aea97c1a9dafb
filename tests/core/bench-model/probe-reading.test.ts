import { describe, expect, it } from 'vitest';
import { BOARD_SHELF } from '../../../core/bench-model/board-shelf.ts';
import { createNetwork } from '../../../core/bench-model/network.ts';
import { ohmsToGround, probeReading } from '../../../core/bench-model/probe-reading.ts';
import { createSupplyStage } from '../../../core/bench-model/supply-stage.ts';

const dead = (ohms: number, diodeV = 0.45) => ({ volts: 0, ohms, diodeV });

describe('ohmsToGround', () => {
  it('adds links in series and leaks in parallel', () => {
    const board = BOARD_SHELF.find((plan) => plan.shelf.key === 'tern-input-short')!;
    const health = { mended: new Set<string>(), melted: new Set<string>() };
    const network = createNetwork(createSupplyStage(), board, health);
    const beyond = 1 / (1 / 0.08 + 1 / 150_000);
    const supply = 0.06 + 220_000;
    const input = 1 / (1 / (0.012 + beyond) + 1 / 220_000 + 1 / supply);
    expect(ohmsToGround(network, network.netOf('DC_IN'))).toBeCloseTo(input, 9);
  });

  it('is open beyond a molten fuse', () => {
    const board = BOARD_SHELF.find((plan) => plan.shelf.key === 'tern-input-short')!;
    const health = { mended: new Set<string>(), melted: new Set(['F1']) };
    const network = createNetwork(createSupplyStage(), board, health);
    expect(ohmsToGround(network, network.netOf('DC_IN'))).toBeGreaterThan(100_000);
    expect(ohmsToGround(network, network.netOf('DC_FUSED'))).toBeCloseTo(0.08, 4);
  });
});

// What a reading means with the board off, and on a live rail: common practice, no source.
describe('probeReading', () => {
  it('reads resistance with its leads on two wires and without on four', () => {
    expect(probeReading('FRES', dead(0.5))).toBe(0.5);
    expect(probeReading('RES', dead(0.5))).toBeCloseTo(0.64, 9);
  });

  it('reads the lesser of a diode and a resistance at a milliampere in diode mode', () => {
    expect(probeReading('DIOD', dead(1e6))).toBeCloseTo(0.45, 2);
    expect(probeReading('DIOD', dead(100))).toBeCloseTo(0.1, 2);
    expect(probeReading('DIOD', dead(0.5))).toBeLessThan(0.001);
  });

  it('is overloaded in the air but for volts', () => {
    expect(probeReading('VOLT', null)).toBe(0);
    for (const as of ['RES', 'FRES', 'DIOD', 'CONT'] as const) {
      expect(probeReading(as, null)).toBeNull();
    }
  });

  it('is pushed off by volts that are present', () => {
    const live = { volts: 1.1, ohms: 38, diodeV: 0.3 };
    expect(Math.abs(probeReading('RES', live)! - 38)).toBeGreaterThan(1000);
    expect(probeReading('RES', { ...live, volts: 12 })).toBeNull();
    expect(probeReading('DIOD', { ...live, volts: 12 })).toBeNull();
    expect(probeReading('CONT', live)).not.toBeCloseTo(38, 0);
  });
});
