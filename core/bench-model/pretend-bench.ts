import { WakelineError } from '../errors.ts';
import type { ByteDevice } from '../scpi/byte-link.ts';
import { createBenchReadings } from './bench-readings.ts';
import type { BoardPlan } from './board-plan.ts';
import { BOARD_SHELF } from './board-shelf.ts';
import { LEADS_TOGETHER } from './leads-together.ts';
import { createLowPass } from './low-pass.ts';
import type { LeadsAt } from './network.ts';
import { createPretendMeter } from './pretend-meter.ts';
import { createPretendSupply } from './pretend-supply.ts';
import { ohmsToGround, type ProbedNet, probeReading } from './probe-reading.ts';
import { createSeededRandom } from './seeded-random.ts';
import type { ShelfBoard } from './shelf-board.ts';
import { createSimulation, type Simulation } from './simulation.ts';
import { createSupplyStage, referenceV } from './supply-stage.ts';

/** A rail as it really is. */
export interface RailTruth {
  readonly name: string;
  readonly volts: number;
  readonly up: boolean;
}

/** What is really going on, for tests and labelled recordings: truth, not reading. */
export interface BenchTruth {
  readonly atS: number;
  readonly inputV: number;
  readonly inputA: number;
  readonly rails: readonly RailTruth[];
  /** Whether the supply's current limit holds the output. */
  readonly limited: boolean;
}

/** A command that changed a state, as it was carried out. */
export interface LoggedCommand {
  readonly atS: number;
  readonly instrument: 'supply' | 'meter';
  readonly command: string;
}

/** A supply, a meter and a shelf of invented boards behind one clock. */
export interface PretendBench {
  readonly supply: ByteDevice;
  readonly meter: ByteDevice;
  readonly shelf: readonly ShelfBoard[];
  /** Every state-changing command that was carried out, oldest first; the last 10,000. */
  readonly log: readonly LoggedCommand[];
  /**
   * Runs the electrical model up to this time. Also done by itself when bytes arrive, but after
   * ten minutes of silence the model stands still until then.
   */
  advanceTo(nowS: number): void;
  /** Puts a board on the supply's leads, or takes it off. Throws `bad-input` for unknown keys. */
  putBoard(key: string | null): void;
  /** Puts the meter's tip on a point, or lifts it. Throws `bad-input` for unknown points. */
  probe(point: string | null): void;
  /**
   * Moves the supply's leads: to a point of the board, to each other (`LEADS_TOGETHER`), or back to
   * the board's input (null). Throws `bad-input` for unknown points and while the output is on.
   */
  clip(at: string | null): void;
  /** Presses the board's own button. */
  pressWake(): void;
  /**
   * Replaces a part. Throws `bad-input` for unknown parts, without a board, and while the
   * output is on.
   */
  replacePart(part: string): void;
  state(): {
    board: string | null;
    probeAt: string | null;
    clippedAt: string | null;
    partsReplaced: readonly string[];
  };
  truth(): BenchTruth;
}

/** What has been done to one board since the bench was made. */
interface BoardCare {
  readonly mended: Set<string>;
  readonly melted: Set<string>;
  readonly replaced: string[];
}

/** Time constants of the instruments' averaging, in seconds. */
const SUPPLY_AVERAGE_S = 0.01;
const METER_AVERAGE_S = 0.02;
const LONGEST_LOG = 10_000;
/** A bench that nobody spoke to for longer stands still for the rest: no answer waits for hours of model. */
const LONGEST_SILENCE_S = 600;

/**
 * Makes a pretend bench. `nowS` is its clock in seconds; the same seed and the same commands at
 * the same times give the same answers. `noiseScale` 1 = a usual bench, 0 = no noise, no error.
 */
export function createPretendBench(options: {
  seed: number;
  nowS: () => number;
  noiseScale?: number;
}): PretendBench {
  const stage = createSupplyStage();
  const readings = createBenchReadings(options.seed, options.noiseScale ?? 1);
  stage.limitGain = readings.limitGain;
  const supplyV = createLowPass(SUPPLY_AVERAGE_S);
  const supplyA = createLowPass(SUPPLY_AVERAGE_S);
  const probedV = createLowPass(METER_AVERAGE_S);
  const cares = new Map<string, BoardCare>();
  const log: LoggedCommand[] = [];
  let board: BoardPlan | null = null;
  let probeAt: string | null = null;
  let probedNet = -1;
  let clippedAt: string | null = null;
  let boardsPut = 0;
  let seenConditions = 0;
  let simulation = start(options.nowS(), 0);

  function start(startS: number, terminalV: number): Simulation {
    boardsPut += 1;
    const none = { mended: new Set<string>(), melted: new Set<string>() };
    const care = careOf(board);
    return createSimulation({
      stage,
      board,
      health: care ?? none,
      leadsAt: leadsAt(),
      random: createSeededRandom(options.seed, `board ${boardsPut}`),
      startS,
      terminalV,
      onMelted: (part) => care?.melted.add(part),
      onStep(running, stepS) {
        supplyV.follow(running.volts[0]!, stepS);
        supplyA.follow(running.supplyA, stepS);
        probedV.follow(probedNet < 0 ? 0 : running.volts[probedNet]!, stepS);
        seenConditions |= condition(running);
      },
    });
  }

  function leadsAt(): LeadsAt | null {
    if (clippedAt === null || board === null) return null;
    if (clippedAt === LEADS_TOGETHER) return LEADS_TOGETHER;
    return { net: board.touchPoints[clippedAt] ?? clippedAt };
  }

  /** Throws `bad-input` while the output is on. */
  function mustBeOff(what: string): void {
    if (!stage.on) return;
    throw new WakelineError({
      code: 'bad-input',
      what: `${what} while the output is on`,
      where: 'pretend bench',
      todo: 'Switch the output off first.',
    });
  }

  function careOf(of: BoardPlan | null): BoardCare | null {
    if (!of) return null;
    const known = cares.get(of.shelf.key);
    if (known) return known;
    const care: BoardCare = { mended: new Set(), melted: new Set(), replaced: [] };
    cares.set(of.shelf.key, care);
    return care;
  }

  /** The questionable condition of the supply. */
  function condition(running: Simulation): number {
    const trips = (stage.overV.tripped ? 512 : 0) | (stage.overA.tripped ? 1024 : 0);
    if (!stage.on) return trips;
    if (running.limited) return trips | 1;
    const backFed = running.volts[0]! > referenceV(stage, running.nowS) + 0.05;
    return backFed ? trips : trips | 2;
  }

  /** How far the model's time is behind the clock. */
  let behindS = 0;
  function advance(): void {
    const gapS = options.nowS() - behindS - simulation.nowS;
    if (gapS > LONGEST_SILENCE_S) behindS += gapS - LONGEST_SILENCE_S;
    simulation.advanceTo(options.nowS() - behindS);
  }

  function note(instrument: 'supply' | 'meter', command: string): void {
    log.push({ atS: simulation.nowS + behindS, instrument, command });
    if (log.length > LONGEST_LOG) log.splice(0, log.length - LONGEST_LOG);
  }

  function probed(): ProbedNet | null {
    if (probeAt === null || !board) return null;
    if (probedNet < 0) return { volts: 0, ohms: 0, diodeV: 1 };
    const name = simulation.network.names[probedNet];
    const plan = board.nets.find((net) => net.name === name);
    const ohms = ohmsToGround(simulation.network, probedNet);
    return { volts: probedV.value, ohms, diodeV: plan?.diodeV ?? 0.5 };
  }

  const supply = createPretendSupply({
    stage,
    nowS: () => simulation.nowS,
    refresh() {
      advance();
      const now = condition(simulation);
      const since = seenConditions;
      seenConditions = now;
      return { condition: now, since };
    },
    measureV: () => readings.supplyV(supplyV.value),
    measureA: () => readings.supplyA(supplyA.value),
    changed: () => simulation.disturb(),
    log: (command) => note('supply', command),
  });
  const meter = createPretendMeter({
    refresh: advance,
    measure(as) {
      const value = probeReading(as, probed());
      return value === null ? null : readings.meter(as, value);
    },
    log: (command) => note('meter', command),
  });

  return {
    supply,
    meter,
    shelf: BOARD_SHELF.map((plan) => plan.shelf),
    log,
    advanceTo: (nowS) => simulation.advanceTo(nowS - behindS),
    putBoard(key) {
      const next = key === null ? null : BOARD_SHELF.find((plan) => plan.shelf.key === key);
      if (next === undefined) {
        throw unknown(
          'board',
          key ?? '',
          BOARD_SHELF.map((plan) => plan.shelf.key),
        );
      }
      advance();
      board = next;
      probeAt = null;
      probedNet = -1;
      clippedAt = null;
      probedV.restart(0);
      simulation = start(simulation.nowS, simulation.volts[0]!);
    },
    probe(point) {
      const points = board?.shelf.points ?? [];
      if (point !== null && !points.includes(point)) throw unknown('point', point, points);
      advance();
      probeAt = point;
      probedNet =
        point === null ? -1 : simulation.network.netOf(board?.touchPoints[point] ?? point);
      probedV.restart(probedNet < 0 ? 0 : simulation.volts[probedNet]!);
    },
    clip(at) {
      const points = board?.shelf.points.filter((point) => point !== 'GND') ?? [];
      if (at !== null && !(board && [LEADS_TOGETHER, ...points].includes(at))) {
        throw unknown('point to clip to', at, board ? [LEADS_TOGETHER, ...points] : []);
      }
      advance();
      mustBeOff('The leads cannot be moved');
      clippedAt = at;
      // The board holds its charge only in the model that ends here: moved leads find it discharged.
      simulation = start(simulation.nowS, simulation.volts[0]!);
      probedV.restart(0);
    },
    pressWake() {
      advance();
      simulation.pressWake();
      simulation.disturb();
    },
    replacePart(part) {
      const parts = board?.shelf.parts ?? [];
      const care = careOf(board);
      if (!care || !parts.includes(part)) throw unknown('part', part, parts);
      advance();
      mustBeOff(`Part ${part} cannot be replaced`);
      care.mended.add(part);
      care.melted.delete(part);
      care.replaced.push(part);
      simulation = start(simulation.nowS, simulation.volts[0]!);
    },
    state: () => ({
      board: board?.shelf.key ?? null,
      probeAt,
      clippedAt,
      partsReplaced: [...(careOf(board)?.replaced ?? [])],
    }),
    truth() {
      advance();
      return {
        atS: simulation.nowS + behindS,
        inputV: simulation.volts[board ? 1 : 0]!,
        inputA: simulation.inputA,
        rails: (board?.nets ?? []).flatMap(({ name, railV }) => {
          if (railV === undefined) return [];
          const volts = simulation.volts[simulation.network.netOf(name)]!;
          return [{ name, volts, up: volts > 0.92 * railV }];
        }),
        limited: simulation.limited,
      };
    },
  };
}

function unknown(kind: string, name: string, known: readonly string[]): WakelineError {
  return new WakelineError({
    code: 'bad-input',
    what: `No ${kind} "${name}" here`,
    where: 'pretend bench',
    todo: known.length > 0 ? `Choose one of: ${known.join(', ')}.` : 'Put a board on first.',
  });
}
