import type { BoardFault, BoardPlan } from '../../core/bench-model/board-plan.ts';
import { ploverPlan } from '../../core/bench-model/boards/plover-plan.ts';
import { ternPlan } from '../../core/bench-model/boards/tern-plan.ts';
import { wrenPlan } from '../../core/bench-model/boards/wren-plan.ts';
import { createSeededRandom } from '../../core/bench-model/seeded-random.ts';
import { createSimulation } from '../../core/bench-model/simulation.ts';
import { createSupplyStage, retune } from '../../core/bench-model/supply-stage.ts';
import { type StageId, UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import type { CorpusDraw } from './drawn-corpus.ts';
import { Dice, onSamples } from './drawn-draws.ts';

/** What the model is doing at one moment: its rails and loads, and what flows. */
interface Moment {
  readonly amps: number;
  readonly volts: number;
  readonly fed: boolean;
  readonly limited: boolean;
  /** Converters that are on, and loads by their level, as one text: changes when anything steps. */
  readonly state: string;
  /** Whether anything beyond the always-on converters is on. */
  readonly awake: boolean;
  readonly busy: boolean;
  /** Whether an always-on converter gives up and waits, or holds its own limit. */
  readonly retrying: boolean;
  readonly pulledDown: boolean;
  readonly standby: boolean;
}

interface Recipe {
  readonly name: string;
  readonly plan: BoardPlan;
  readonly limitA: number;
  readonly runA: number;
  readonly runsFlat: boolean;
  readonly hot: boolean;
  readonly creeps: boolean;
}

const HZ = 100;
const ON_S = 2;

/** A board with a fault or none, drawn by the dice. */
function recipe(dice: Dice): Recipe {
  const shelf = { key: 'corpus', letter: 'X', story: 'Of the corpus.' };
  const kind = dice.pick(['tern', 'tern', 'tern', 'plover', 'wren'] as const);
  const plain = { runsFlat: false, hot: false, creeps: false };
  if (kind === 'wren') {
    return { name: 'wren', plan: wrenPlan(shelf, null), limitA: 3, runA: 0.5, ...plain };
  }
  if (kind === 'plover') {
    const [name, faults] = dice.pick<[string, BoardFault[]]>([
      ['plover', []],
      ['plover open', [{ kind: 'open-link', part: 'F1' }]],
      [
        'plover hiccup',
        [{ kind: 'short', part: 'C8', net: 'BUS_5V', ohms: dice.between(0.3, 0.55) }],
      ],
      [
        'plover creep',
        [
          {
            kind: 'warming-leak',
            part: 'D2',
            net: 'BULK_24V',
            coldOhms: 4000,
            hotOhms: dice.between(60, 100),
            warmS: dice.between(40, 70),
          },
        ],
      ],
    ]);
    const creeps = name === 'plover creep';
    return {
      name,
      plan: ploverPlan(shelf, faults),
      limitA: 1.5,
      runA: 0.1715,
      runsFlat: true,
      hot: false,
      creeps,
    };
  }
  const part = dice.pick(['U3', 'U4', 'U5', 'U6', 'U7']);
  const [name, faults] = dice.pick<[string, BoardFault[]]>([
    ['tern', []],
    ['tern, weak limit', []],
    [
      'tern main short',
      [{ kind: 'short', part: 'C112', net: 'MAIN_8V6', ohms: dice.between(1.7, 2.4) }],
    ],
    [
      'tern input short',
      [{ kind: 'short', part: 'C7', net: 'DC_FUSED', ohms: dice.between(0.05, 0.3) }],
    ],
    ['tern no enable', [{ kind: 'no-enable', part: 'R41', converter: part }]],
    ['tern dead converter', [{ kind: 'dead-converter', part, converter: part }]],
    ['tern loop', [{ kind: 'fails-check', part: 'U20' }]],
    ['tern falls', [{ kind: 'fails-check', part: 'FAN1' }]],
    ['tern warm', [{ kind: 'short', part: 'U4', net: 'SYS_3V3', ohms: dice.between(1.3, 1.8) }]],
  ]);
  const limitA = name === 'tern, weak limit' ? dice.between(0.2, 0.3) : 2.5;
  const hot = name === 'tern warm';
  return {
    name,
    plan: ternPlan(shelf, faults),
    limitA,
    runA: 0.47,
    runsFlat: false,
    hot,
    creeps: false,
  };
}

/** Runs the model for `seconds` and keeps what it did, 100 moments a second. */
function runModel(of: Recipe, seed: number, seconds: number, wakeS: number): Moment[] {
  const stage = createSupplyStage();
  const sim = createSimulation({
    stage,
    board: of.plan,
    health: { mended: new Set(), melted: new Set() },
    random: createSeededRandom(seed, 'corpus'),
    leadsAt: null,
    startS: 0,
    terminalV: 0,
    onStep: () => {},
    onMelted: () => {},
  });
  const { statedInputV } = of.plan.shelf;
  const moments: Moment[] = [];
  for (let k = 0; k < seconds * HZ; k++) {
    if (k === ON_S * HZ) {
      retune(stage, ON_S, { setV: statedInputV, limitA: of.limitA, on: true });
      sim.disturb();
    }
    if (k === Math.round(wakeS * HZ)) sim.pressWake();
    sim.advanceTo((k + 1) / HZ);
    const { converters, loads } = sim.network;
    const on = converters.filter((c) => c.phase === 'on');
    const always = converters.filter((c) => c.plan.alwaysOn === true);
    moments.push({
      amps: sim.inputA,
      volts: sim.volts[1]!,
      fed: k >= ON_S * HZ,
      limited: sim.limited,
      state: `${on.map((c) => c.plan.part)}|${loads.map((l) => (l.busy === null ? l.amps : 'busy'))}`,
      awake: on.some((c) => c.plan.alwaysOn !== true),
      busy: loads.some((l) => l.busy !== null),
      retrying: always.some((c) => c.plan.hiccup !== undefined && c.phase === 'waiting'),
      pulledDown: always.some((c) => c.phase === 'on' && c.limited),
      standby: always.some((c) => c.phase === 'on'),
    });
  }
  return moments;
}

/** Rises and falls of what is awake (or retries), as moments from the first rise on. */
function falls(moments: readonly Moment[], up: (m: Moment) => boolean): number[] {
  const at: number[] = [];
  for (let k = 1; k < moments.length; k++) {
    if (up(moments[k - 1]!) && !up(moments[k]!)) at.push(k);
  }
  return at;
}

/** Labels each moment by what the model's rails, loads and limit do, never by its current. */
export function labelMoments(of: Recipe, moments: readonly Moment[]): StageId[] {
  const n = moments.length;
  const on = moments.findIndex((m) => m.fed);
  // What an always-on rail takes may lie within the zero floor of any ammeter (up to some 6 mA).
  const rest = moments.filter((m) => m.standby && !m.awake);
  const restA = rest.reduce((sum, m) => sum + m.amps, 0) / Math.max(1, rest.length);
  const low = rest.length > 0 && restA < 0.003 ? 'no-draw' : 'flat-low';
  // A converter that starts a tenth of a second after the feed makes no stage of that tenth.
  const wakesUp = moments.some((m) => m.standby);
  const labels: StageId[] = moments.map((m) => (m.fed ? (wakesUp ? low : 'no-draw') : 'off'));
  const hiccups = falls(moments, (m) => m.standby && !m.retrying);
  if (hiccups.length >= 2) {
    return labels.fill('cycling', on);
  }
  const drops = falls(moments, (m) => m.awake);
  const firstAwake = moments.findIndex((m) => m.awake);
  if (drops.length >= 2) {
    const plateauEnd = firstPlateauEnd(moments, on);
    return labels.fill('cycling', plateauEnd - on < 0.3 * HZ ? on : plateauEnd);
  }
  const end = drops[0] ?? n;
  if (firstAwake >= 0) labelClimb(of, moments, labels, on, end);
  if (drops.length === 1) labels.fill('fell-back', end);
  if (firstAwake < 0 && moments.slice(on + 50).every((m) => m.pulledDown))
    labels.fill('stalled', on);
  for (let k = on; k < n; k++) {
    let to = k;
    while (to < n && moments[to]!.limited) to++;
    // A moment at the limit is an inrush and no stage.
    if (to - k > 0.5 * HZ) labels.fill('limited', k, to);
    k = Math.max(k, to);
  }
  return labels;
}

/** Where the first state that holds for half a second ends: the first step off the first plateau. */
function firstPlateauEnd(moments: readonly Moment[], on: number): number {
  let from = on;
  for (let k = on + 1; k < moments.length; k++) {
    if (moments[k]!.state === moments[k - 1]!.state) continue;
    if (k - from >= 0.5 * HZ && moments[k - 1]!.standby) return k;
    from = k;
  }
  return moments.length;
}

function labelClimb(
  of: Recipe,
  moments: readonly Moment[],
  labels: StageId[],
  on: number,
  end: number,
): void {
  const first = firstPlateauEnd(moments, on);
  let settles = moments.findIndex((m) => m.busy);
  const runs = settles >= 0 || of.runsFlat;
  if (settles < 0 || settles > end) {
    settles = first;
    for (let k = first; k < end; k++) if (moments[k]!.state !== moments[k - 1]!.state) settles = k;
  }
  labels.fill('stepping', first, settles);
  const settled = of.creeps ? 'creeping' : !runs ? 'stalled' : of.hot ? 'flat-high' : 'running';
  labels.fill(settled, settles, end);
}

export const PRETEND_RATES = [2, 5, 20, 100];

/**
 * Runs of the pretend bench's model with labels from its rails: boards and faults by seed, each
 * logged at 2, 5, 20 and 100 Hz with noise x1, x3 or x10, 1 or 10 mA, dropouts and gaps. `seen` is
 * false where a stage is too short or too small for that log to show it.
 */
export function* pretendCorpus(
  from: number,
  seeds: number,
  volts = true,
): Generator<CorpusDraw & { seen: boolean }> {
  for (let seed = from; seed < from + seeds; seed++) {
    const dice = new Dice(seed * 9176 + 17);
    const of = recipe(dice);
    const seconds = of.creeps ? 60 : dice.whole(22, 40);
    const moments = runModel(of, seed, seconds, dice.between(4, 8));
    const labels = labelMoments(of, moments);
    for (const hz of PRETEND_RATES) {
      const noise = dice.pick([1, 3, 10]);
      const countA = dice.pick([0.001, 0.01]);
      const log = {
        hz,
        countA,
        noiseA: noise * dice.between(0.0003, 0.0008),
        zeroA: dice.between(-0.00015, 0.0015),
      };
      const gap =
        dice.next() < 0.2
          ? { fromS: dice.between(0.8, 0.9) * seconds, s: dice.between(1.8, 2.6) }
          : null;
      const { columns, stretches, ticks } = logMoments(moments, labels, log, dice, gap, volts);
      yield {
        maker: of.name,
        seed,
        hz,
        noise,
        countA,
        draw: { columns, labels: onSamples(stretches, ticks), settings: {} },
        settings: {
          ...UNKNOWN_BOARD,
          runningA: of.runA,
          setV: of.plan.shelf.statedInputV,
          limitA: of.limitA,
          runsFlat: of.runsFlat,
        },
        seen: canBeSeen(of, moments, log),
      };
    }
  }
}

interface Log {
  readonly hz: number;
  readonly countA: number;
  readonly noiseA: number;
  readonly zeroA: number;
}

function logMoments(
  moments: readonly Moment[],
  labels: readonly StageId[],
  log: Log,
  dice: Dice,
  gap: { fromS: number; s: number } | null,
  volts: boolean,
) {
  const ticks: number[] = [];
  const amps: number[] = [];
  const volt: number[] = [];
  const lost = dice.pick([0, 0, 0.02]);
  for (let i = 0; i < (moments.length * log.hz) / HZ; i++) {
    const t = (i + 0.2 * dice.between(-0.5, 0.5)) / log.hz;
    const k = Math.min(moments.length - 1, Math.max(0, Math.floor(t * HZ)));
    const m = moments[k]!;
    const read = m.amps + log.zeroA + log.noiseA * dice.normal();
    const tick = Math.max((ticks.at(-1) ?? -1) + 1, Math.round(t * 10_000));
    const missing = gap !== null && t > gap.fromS && t < gap.fromS + gap.s;
    if (missing || dice.next() < lost) continue;
    ticks.push(tick);
    amps.push(Math.round(read / log.countA) * log.countA);
    volt.push(volts ? Math.round((m.volts + 0.002 * dice.normal()) * 100) / 100 : Number.NaN);
  }
  const stretches: { stage: StageId; startS: number; endS: number }[] = [];
  for (const [k, stage] of labels.entries()) {
    const last = stretches.at(-1);
    if (last?.stage === stage) last.endS = (k + 1) / HZ;
    else stretches.push({ stage, startS: k / HZ, endS: (k + 1) / HZ });
  }
  return {
    ticks,
    stretches,
    columns: {
      ticks: Float64Array.from(ticks),
      amps: Float64Array.from(amps),
      volts: Float64Array.from(volt),
      regulation: new Uint8Array(ticks.length),
    },
  };
}

/** Whether a log is fine and fast enough for what happens: else nobody could label it. */
function canBeSeen(of: Recipe, moments: readonly Moment[], log: Log): boolean {
  // A converter that retries is on for 0.12 s: 20 readings a second show it.
  if (of.name === 'plover hiccup') return log.hz >= 20;
  // A level has to stand clear of the last digit and of the noise to be told from nothing.
  const standby = moments.filter((m) => m.fed && m.standby && !m.awake).map((m) => m.amps);
  const lowest = standby.length === 0 ? 1 : standby.reduce((a, b) => a + b, 0) / standby.length;
  const clear = 2.5 * log.noiseA + 0.6 * log.countA;
  return (lowest > clear || lowest < 0.001) && firstStepA(moments) > clear;
}

/** Amps of the first step off the first plateau; Infinity without one. */
function firstStepA(moments: readonly Moment[]): number {
  const at = firstPlateauEnd(
    moments,
    moments.findIndex((m) => m.fed),
  );
  if (at >= moments.length) return Number.POSITIVE_INFINITY;
  let to = at + 1;
  while (to < moments.length && moments[to]!.state === moments[at]!.state) to++;
  return moments[to - 1]!.amps - moments[at - 1]!.amps;
}
