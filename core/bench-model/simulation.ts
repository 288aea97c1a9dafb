import type { BoardPlan } from './board-plan.ts';
import type { Converter } from './converter.ts';
import { isFed, moveConverter } from './converter-phase.ts';
import { type BoardHealth, createNetwork, type LeadsAt, type Network } from './network.ts';
import { createRosenbrockStep } from './rosenbrock-step.ts';
import type { SeededRandom } from './seeded-random.ts';
import { createSequencer } from './sequencer.ts';
import { protect } from './supply-protection.ts';
import { createStageCurrent, rampEndS, regulate, type SupplyStage } from './supply-stage.ts';

/** The circuit moving through time. */
export interface Simulation {
  readonly network: Network;
  readonly volts: Float64Array;
  readonly nowS: number;
  /** Current that the supply's regulator gives now. */
  readonly supplyA: number;
  readonly limited: boolean;
  /** Current into the board's input now. */
  readonly inputA: number;
  advanceTo(t: number): void;
  /** Tells that something was changed from outside: the next step starts small. */
  disturb(): void;
  pressWake(): void;
  isGood(converter: string): boolean;
}

/** What the simulation is told of and tells. */
export interface SimulationParts {
  readonly stage: SupplyStage;
  readonly board: BoardPlan | null;
  readonly health: BoardHealth;
  /** Null = the board's input. */
  readonly leadsAt: LeadsAt | null;
  readonly random: SeededRandom;
  readonly startS: number;
  readonly terminalV: number;
  /** Called after each step with its length and the state at its end. */
  readonly onStep: (simulation: Simulation, stepS: number) => void;
  readonly onMelted: (part: string) => void;
}

const SMALLEST_STEP_S = 1e-7;
/** A step across a threshold is cut back until it is no longer than this. */
const THRESHOLD_STEP_S = 20e-6;
const LONGEST_STEP_S = 2;
/** A leak's warmth is carried on from step to step, so that they must stay short beside it. */
const LONGEST_LEAK_STEP_S = 0.2;

/** Starts a circuit at rest, but for the supply's own terminals. */
export function createSimulation(parts: SimulationParts): Simulation {
  const { stage, board, health } = parts;
  const network = createNetwork(stage, board, health, parts.leadsAt);
  const solver = createRosenbrockStep(network, 2e-5, 1e-5);
  const { n, converters } = network;
  let volts = new Float64Array(n);
  let end = new Float64Array(n);
  for (const [i, name] of network.names.entries()) {
    volts[i] = board?.nets.find((net) => net.name === name)?.startV ?? 0;
  }
  volts[0] = parts.terminalV;
  let nowS = parts.startS;
  let tryS = SMALLEST_STEP_S;
  const source = createStageCurrent();

  const byPart = new Map(converters.map((converter) => [converter.plan.part, converter]));
  const goodAt = (converter: Converter, at: Float64Array) =>
    converter.phase === 'on' && at[converter.to]! > 0.92 * converter.plan.setV;
  const isGood = (part: string) => {
    const converter = byPart.get(part);
    return converter !== undefined && goodAt(converter, volts);
  };
  const isFaulty = (part: string) =>
    board?.faults.some((f) => f.part === part && !health.mended.has(part)) ?? false;
  const sequencer = board
    ? createSequencer(board.sequence, { network, random: parts.random, isGood, isFaulty })
    : null;

  /** Where every threshold stands at these volts: a step that changes it must be short. */
  function thresholds(at: Float64Array): number {
    let word = 0;
    for (const converter of converters) {
      const fed = isFed(converter, at[converter.from]!);
      word = (word * 4 + (fed ? 1 : 0) + (goodAt(converter, at) ? 2 : 0)) % 0x1f_ffff_ffff_ffff;
    }
    return word * 2 + (stage.overV.enabled && at[0]! > stage.overV.level ? 1 : 0);
  }

  function nextEventS(): number {
    let soonest = sequencer?.nextS() ?? Infinity;
    if (rampEndS(stage) > nowS) soonest = Math.min(soonest, rampEndS(stage));
    for (const converter of converters) {
      if (converter.phase === 'waiting') soonest = Math.min(soonest, converter.untilS);
      if (converter.phase === 'on') {
        const rampEnd = converter.sinceS + converter.plan.softStartS;
        if (rampEnd > nowS) soonest = Math.min(soonest, rampEnd);
        const { hiccup } = converter.plan;
        if (hiccup) soonest = Math.min(soonest, converter.limitedSinceS + hiccup.tripS);
      }
    }
    if (stage.overA.enabled) soonest = Math.min(soonest, stage.overA.sinceS + stage.overA.delayS);
    return soonest;
  }

  /** Moves converters, fuses, protections and the sequence on. True when the circuit changed. */
  function settle(stepS: number): boolean {
    let changed = false;
    for (const converter of converters) {
      if (moveConverter(converter, nowS, volts[converter.from]!)) changed = true;
    }
    for (const link of network.links) {
      const { fuse } = link.plan;
      if (!fuse || link.open) continue;
      const amps = (volts[link.from]! - volts[link.to]!) / link.plan.ohms;
      link.heat = Math.max(0, link.heat + (amps * amps - fuse.ratedA ** 2) * stepS);
      if (link.heat > fuse.meltA2s) {
        link.open = true;
        parts.onMelted(link.plan.part);
        changed = true;
      }
    }
    network.leaks.warm(volts, stepS);
    const { amps } = regulate(stage, nowS, volts[0]!, source);
    if (protect(stage, nowS, volts[0]!, amps)) changed = true;
    if (sequencer?.run(nowS)) changed = true;
    return changed;
  }

  const simulation: Simulation = {
    network,
    get volts() {
      return volts;
    },
    get nowS() {
      return nowS;
    },
    get supplyA() {
      return regulate(stage, nowS, volts[0]!, source).amps;
    },
    get limited() {
      return regulate(stage, nowS, volts[0]!, source).limited;
    },
    get inputA() {
      const lead = network.links.find(({ plan }) => plan.part === 'leads');
      return lead && !lead.open ? (volts[0]! - volts[lead.to]!) / lead.plan.ohms : 0;
    },
    advanceTo(t) {
      while (nowS < t) {
        const eventS = nextEventS();
        const untilS = Math.min(t, Math.max(eventS, nowS + SMALLEST_STEP_S));
        const longestS = network.leaks.count > 0 ? LONGEST_LEAK_STEP_S : LONGEST_STEP_S;
        let h = Math.min(tryS, untilS - nowS, longestS);
        const before = thresholds(volts);
        for (;;) {
          const error = solver.attempt(nowS, volts, h, end);
          if (error > 1 && h > SMALLEST_STEP_S) {
            h = Math.max(SMALLEST_STEP_S, h * Math.max(0.1, 0.8 * error ** (-1 / 3)));
          } else if (h > THRESHOLD_STEP_S && thresholds(end) !== before) {
            h = Math.max(THRESHOLD_STEP_S, 0.25 * h);
          } else {
            tryS = Math.max(
              tryS > h ? h : 0,
              h * Math.min(5, 0.8 * Math.max(error, 1e-4) ** (-1 / 3)),
            );
            break;
          }
        }
        [volts, end] = [end, volts];
        nowS = untilS - nowS - h < 1e-9 ? untilS : nowS + h;
        if (settle(h)) tryS = Math.min(tryS, 2e-6);
        parts.onStep(simulation, h);
      }
    },
    disturb() {
      settle(0);
      tryS = SMALLEST_STEP_S * 10;
    },
    pressWake() {
      sequencer?.pressWake();
    },
    isGood,
  };
  return simulation;
}
