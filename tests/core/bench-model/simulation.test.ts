import { describe, expect, it } from 'vitest';
import type { BoardPlan } from '../../../core/bench-model/board-plan.ts';
import { BOARD_SHELF } from '../../../core/bench-model/board-shelf.ts';
import { createSeededRandom } from '../../../core/bench-model/seeded-random.ts';
import { createSimulation } from '../../../core/bench-model/simulation.ts';
import { createSupplyStage, retune } from '../../../core/bench-model/supply-stage.ts';
import {
  boardNetlist,
  hasNgspice,
  runTransient,
  type Wave,
  waveAt,
} from '../../support/ngspice.ts';

const boardOf = (key: string) => BOARD_SHELF.find((board) => board.shelf.key === key)!;

function powered(board: BoardPlan, feed: { setV: number; limitA: number }) {
  const stage = createSupplyStage();
  const simulation = createSimulation({
    stage,
    board,
    health: { mended: new Set(), melted: new Set() },
    random: createSeededRandom(1, 'test'),
    leadsAt: null,
    startS: 0,
    terminalV: 0,
    onStep: () => {},
    onMelted: () => {},
  });
  retune(stage, 0, { ...feed, on: true });
  simulation.disturb();
  return simulation;
}

/** Runs both and gives the largest difference over the times, for each net and for the leads' current. */
function compare(board: BoardPlan, feed: { setV: number; limitA: number }, timesS: number[]) {
  const simulation = powered(board, feed);
  const names = [...simulation.network.names.map((name) => `v(${name})`), 'i(Vsense)'];
  const rows = timesS.map((t) => {
    simulation.advanceTo(t);
    return [...simulation.volts, simulation.inputA];
  });
  const ours = Object.fromEntries(names.map((name, i) => [name, rows.map((row) => row[i]!)]));
  // Comparators and timers decide when a converter starts; ngspice is told when, and checks the rest.
  const starts = simulation.network.converters.flatMap((converter) =>
    converter.phase === 'on' ? [[converter.plan.part, converter.sinceS] as const] : [],
  );
  const netlist = boardNetlist(board, feed, Object.fromEntries(starts));
  const waves = runTransient(netlist, { stepS: 5e-6, endS: timesS.at(-1)!, waves: names });
  const worst = names.map((name, i) => {
    const gaps = timesS.map((t, k) => Math.abs(ours[name]![k]! - waveAt(waves[i] as Wave, t)));
    return [name, Math.max(...gaps)] as const;
  });
  return { worst: new Map(worst), ours, starts: new Map(starts) };
}

const every = (fromS: number, toS: number, n: number) =>
  Array.from({ length: n }, (_, i) => fromS + ((toS - fromS) * i) / (n - 1));

const spice = hasNgspice();
if (!spice) console.log('simulation.test: ngspice is not installed, so its checks are skipped');

// Reference: the open-source circuit simulator ngspice, as Debian packages it, on a netlist
// written from the same figures by code of its own.
describe.skipIf(!spice)('the circuit against ngspice', () => {
  it('settles at the same volts and current with a shorted capacitor on the main rail', () => {
    const board = boardOf('tern-main-short');
    const { worst, ours } = compare(board, { setV: 19, limitA: 2.5 }, [0.2, 0.25, 0.3]);
    for (const [name, gap] of worst) expect(gap, name).toBeLessThan(name[0] === 'v' ? 1e-5 : 1e-6);
    expect(ours['v(MAIN_8V6)']!.at(-1)).toBeCloseTo(2.94, 2);
    expect(ours['i(Vsense)']!.at(-1)).toBeCloseTo(0.26, 3);
  });

  it('takes the same inrush of a 24 V controller through the current limit', () => {
    const board = boardOf('plover-healthy');
    const times = every(0.0002, 0.02, 100);
    const { worst, ours } = compare(board, { setV: 24, limitA: 1.5 }, times);
    expect(Math.max(...ours['i(Vsense)']!)).toBeGreaterThan(0.8);
    expect(worst.get('v(BULK_24V)')!).toBeLessThan(1e-3);
    expect(worst.get('v(supply)')!).toBeLessThan(1e-3);
    expect(worst.get('i(Vsense)')!).toBeLessThan(3e-3);
  });

  it('ramps the front converter and what hangs on it the same way', () => {
    const board = boardOf('tern-no-enable');
    const times = every(0.08, 0.11, 120);
    const { worst, ours, starts } = compare(board, { setV: 19, limitA: 2.5 }, times);
    expect([...starts.keys()]).toEqual(['U1', 'U2']);
    expect(Math.max(...ours['i(Vsense)']!)).toBeGreaterThan(0.1);
    for (const [name, gap] of worst) expect(gap, name).toBeLessThan(1e-3);
  });
});

describe('createSimulation', () => {
  it('gives the same volts however the time is cut into calls', () => {
    const once = powered(boardOf('tern-healthy'), { setV: 19, limitA: 2.5 });
    const often = powered(boardOf('tern-healthy'), { setV: 19, limitA: 2.5 });
    once.advanceTo(6);
    for (const t of every(0.013, 6, 431)) often.advanceTo(t);
    for (const [i, volts] of once.volts.entries()) expect(often.volts[i]).toBeCloseTo(volts, 2);
    expect(often.supplyA).toBeCloseTo(once.supplyA, 2);
  });

  it('conserves power from the supply to the loads', () => {
    const simulation = powered(boardOf('plover-healthy'), { setV: 24, limitA: 1.5 });
    simulation.advanceTo(5);
    const { network, volts } = simulation;
    let usedW = simulation.network.links.reduce(
      (sum, { from, to, plan }) => sum + (volts[from]! - volts[to]!) ** 2 / plan.ohms,
      0,
    );
    for (const load of network.loads) usedW += load.amps * volts[load.net]!;
    for (const [i, siemens] of network.siemensToGround.entries()) usedW += siemens * volts[i]! ** 2;
    for (const { from, to, inA, outA } of network.converters) {
      const lostW = volts[from]! * inA - volts[to]! * outA;
      expect(lostW).toBeGreaterThan(0);
      usedW += lostW;
    }
    expect(usedW / (volts[0]! * simulation.supplyA)).toBeCloseTo(1, 4);
  });

  it('melts a fuse that carries far more than its rating, and opens the path', () => {
    const simulation = powered(boardOf('tern-input-short'), { setV: 19, limitA: 10 });
    simulation.advanceTo(1);
    expect(simulation.network.links.find((link) => link.plan.part === 'F1')!.open).toBe(true);
    expect(simulation.limited).toBe(false);
    expect(simulation.supplyA).toBeLessThan(0.002);
  });

  it('restarts again and again when the supply limit is too low for its start-up', () => {
    const simulation = powered(boardOf('tern-healthy'), { setV: 19, limitA: 0.3 });
    let falls = 0;
    let wasUp = false;
    for (const t of every(0.05, 30, 600)) {
      simulation.advanceTo(t);
      const up = simulation.isGood('U1');
      if (wasUp && !up) falls += 1;
      wasUp = up;
    }
    expect(falls).toBeGreaterThan(2);
  });
});
