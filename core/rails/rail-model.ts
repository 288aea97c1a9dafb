import { type BoardModel, isUpIn } from './board-model.ts';
import type { BridgePair } from './bridge-pairs.ts';
import type { Fault, FaultPrior } from './fault.ts';
import { listFaults } from './list-faults.ts';
import { conditionsUnder } from './rail-effects.ts';
import { listMeasurements, type RailMeasurement } from './rail-measurement.ts';

/** The tree as indexes, for one state of the board. */
export interface RailGraph {
  readonly count: number;
  readonly feeds: readonly (readonly number[])[];
  readonly children: readonly (readonly number[])[];
  readonly enablers: readonly (readonly number[])[];
  readonly dependants: readonly (readonly number[])[];
  readonly isLink: readonly boolean[];
  /** Whether its volts give way with those of what feeds it: links, switches, and what has little to spare. */
  readonly follows: readonly boolean[];
  /** Whether the board asks for it by itself: in states of its own, or by a signal that is no rail. */
  readonly isSequenced: readonly boolean[];
  /** Whether the rail belongs up in this state. */
  readonly isExpected: readonly boolean[];
  /** Ohms by which two joined rails are compared: known-good, else the usual order for its volts. */
  readonly usualOhms: readonly number[];
  /** Index of each rail's measurements; -1 when it cannot be taken. */
  readonly volts: Int32Array;
  readonly input: Int32Array;
  readonly enable: Int32Array;
  readonly ohms: Int32Array;
  /** Indexes of `between` measurements by rail. */
  readonly between: readonly (readonly { readonly other: number; readonly at: number }[])[];
}

/** One way in which a fault shows, in indexes. */
export interface IndexedFault {
  readonly kind: Fault['kind'];
  readonly rail: number;
  readonly other: number;
  /** Whether it drags down what feeds it; of a source, whether it limps at low volts. */
  readonly pulls: boolean;
  /**
   * Whether it gives way under load only: a weak source, an ohmic link; of a short, a leak. A source
   * that does both is stuck in a low mode.
   */
  readonly sags: boolean;
}

/** One way in which a fault shows, and how often it shows so. */
export interface FaultVariant extends IndexedFault {
  /** Index of the fault. */
  readonly fault: number;
  readonly share: number;
}

/** A board prepared for diagnosis in one state: what can be wrong, measured, and how each shows. */
export interface RailModel {
  readonly board: BoardModel;
  readonly state: string | null;
  readonly prior: FaultPrior;
  readonly faults: readonly Fault[];
  /** Each fault once for every way in which it shows. */
  readonly variants: readonly FaultVariant[];
  readonly faultAt: ReadonlyMap<string, number>;
  readonly measurements: readonly RailMeasurement[];
  readonly measurementAt: ReadonlyMap<string, number>;
  readonly graph: RailGraph;
  /** Whether a fault shows nowhere in this state, so that no measurement can speak of it. */
  readonly isHidden: readonly boolean[];
  /** Equal for faults that show the same at every measurement. */
  readonly signatures: Float64Array;
  /** Conditions of a healthy board, one a measurement. */
  readonly healthy: Uint8Array;
  /** Conditions under each variant, one a measurement. */
  readonly conditions: readonly Uint8Array[];
}

/**
 * Prepares a board for diagnosis in one of its states (null = everything that is fed is up). Takes
 * a few milliseconds at 200 rails; keep it while the board, state and prior stay the same.
 */
export function prepareRails(
  board: BoardModel,
  state: string | null,
  prior: FaultPrior,
  bridges: readonly BridgePair[] = [],
): RailModel {
  const faults = listFaults(board, prior, bridges);
  const measurements = listMeasurements(board, bridges);
  const indexOf = new Map(board.rails.map(({ name }, index) => [name, index]));
  const graph = graphOf(board, state, measurements, indexOf);
  const width = measurements.length;
  const healthy = new Uint8Array(width);
  conditionsUnder(graph, [], null, healthy);
  const variants: FaultVariant[] = [];
  const conditions: Uint8Array[] = [];
  const signatures = new Float64Array(faults.length);
  const isHidden: boolean[] = [];
  const healthyHash = hashOf(healthy);
  for (const [fault, each] of faults.entries()) {
    const own: { variant: FaultVariant; row: Uint8Array; hash: number }[] = [];
    for (const variant of variantsOf(each, fault, board, indexOf)) {
      const row = new Uint8Array(width);
      conditionsUnder(graph, [variant], healthy, row);
      const hash = hashOf(row);
      // Two ways that show the same are one way.
      const same = own.findIndex((other) => other.hash === hash);
      const before = own[same];
      if (before === undefined) own.push({ variant, row, hash });
      else {
        const share = before.variant.share + variant.share;
        // Beside another fault they may differ: the usual way stands for both.
        const usual = variant.share > before.variant.share ? variant : before.variant;
        own[same] = { ...before, variant: { ...usual, share } };
      }
    }
    for (const { variant, row } of own) {
      variants.push(variant);
      conditions.push(row);
    }
    isHidden.push(own.every(({ hash }) => hash === healthyHash));
    signatures[fault] = own.reduce((sum, { hash }) => (sum + hash) % 2 ** 52, 0);
  }
  const measurementAt = new Map(measurements.map(({ key }, index) => [key, index]));
  return {
    board,
    state,
    prior,
    faults,
    variants,
    faultAt: new Map(faults.map(({ key }, index) => [key, index])),
    measurements,
    measurementAt,
    graph,
    isHidden,
    signatures,
    healthy,
    conditions,
  };
}

/** How often a short pulls down what feeds it, by what lies between (common practice, no source). */
const SHORT_PULLS = { converter: 0.1, regulator: 0.15, switch: 0.3, link: 0.3 } as const;
/** How often a source that is ill gives a fraction of its volts rather than none. */
const SOURCE_LIMPS = 0.09;
/** How often it is stuck in a low mode, in which what the board does not sequence goes on. */
const SOURCE_LOW_MODE = 0.07;
/** A step-up that does not switch passes its feed through, a diode below it. */
const STEP_UP_PASSES = 0.65;
/** How often a source or a link is merely weak, and a short merely a leak. */
const WEAK = { source: 0.12, link: 0.12, short: 0.04, joined: 0, enable: 0 } as const;
/** A feed with less than this to spare is followed down by what it feeds. */
const SPARE_SHARE = 0.7;
/** How often a rail joined to its feed pulls it down rather than being driven up by it. */
const JOINED_PULLS = 0.6;

function variantsOf(
  { kind, rail, other }: Fault,
  fault: number,
  board: BoardModel,
  indexOf: ReadonlyMap<string, number>,
): FaultVariant[] {
  const at = indexOf.get(rail) ?? -1;
  const second = other === null ? -1 : (indexOf.get(other) ?? -1);
  const one = { fault, kind, rail: at, other: second };
  const { through, fedBy } = board.rails[at] ?? { through: 'link' as const, fedBy: [] };
  const pulling = {
    joined: JOINED_PULLS,
    short: fedBy.length > 0 ? SHORT_PULLS[through] : 0,
    source: isStepUp(board, at) ? STEP_UP_PASSES : SOURCE_LIMPS,
    enable: isStepUp(board, at) ? STEP_UP_PASSES : 0,
    link: 0,
  }[kind];
  const lowMode = kind === 'source' && !isStepUp(board, at) ? SOURCE_LOW_MODE : 0;
  // A converter behind an ohmic link runs on with what is left to it.
  const weak = kind === 'link' && !isFollower(board, at) ? 0 : WEAK[kind];
  return [
    { ...one, pulls: true, sags: false, share: pulling },
    { ...one, pulls: true, sags: true, share: lowMode },
    { ...one, pulls: false, sags: true, share: weak },
    { ...one, pulls: false, sags: false, share: 1 - pulling - lowMode - weak },
  ].filter(({ share }) => share > 0);
}

/** Whether a converter makes more volts than what feeds it has. */
export function isStepUp({ rails }: BoardModel, at: number): boolean {
  const rail = rails[at];
  if (rail === undefined || rail.through !== 'converter' || rail.fedBy.length === 0) return false;
  const feeds = rails.filter(({ name }) => rail.fedBy.includes(name));
  return feeds.every(
    ({ nominalV }) =>
      Math.sign(nominalV) === Math.sign(rail.nominalV) &&
      Math.abs(nominalV) * (1 + rail.tolerance) < Math.abs(rail.nominalV),
  );
}

/** Whether a rail's volts give way with its feed's: nothing regulates, or there is little to spare. */
function isFollower({ rails }: BoardModel, at: number): boolean {
  const rail = rails[at];
  if (rail === undefined || rail.fedBy.length === 0) return false;
  if (rail.through === 'link' || rail.through === 'switch') return true;
  const feeds = rails.filter(({ name }) => rail.fedBy.includes(name));
  return feeds.some(({ nominalV }) => {
    const share = rail.nominalV / nominalV;
    return share > SPARE_SHARE && share <= 1;
  });
}

/** What needs a sleeping rail sleeps too, until nothing more falls asleep. */
function putToSleep(
  isExpected: boolean[],
  feeds: readonly (readonly number[])[],
  enablers: readonly (readonly number[])[],
): void {
  const isAwake = (rail: number) => isExpected[rail] === true;
  for (let isChanging = true; isChanging; ) {
    isChanging = false;
    for (let rail = 0; rail < isExpected.length; rail++) {
      const own = feeds[rail] ?? [];
      const isFed = own.length === 0 || own.some(isAwake);
      if (!isAwake(rail) || (isFed && (enablers[rail] ?? []).every(isAwake))) continue;
      isExpected[rail] = false;
      isChanging = true;
    }
  }
}

function graphOf(
  board: BoardModel,
  state: string | null,
  measurements: readonly RailMeasurement[],
  indexOf: ReadonlyMap<string, number>,
): RailGraph {
  const { rails } = board;
  const toIndexes = (names: readonly string[]) =>
    names.map((name) => indexOf.get(name)).filter((index) => index !== undefined);
  const feeds = rails.map(({ fedBy }) => toIndexes(fedBy));
  const enablers = rails.map(({ enabledBy }) => toIndexes(enabledBy));
  const invert = (lists: readonly (readonly number[])[]) => {
    const inverse: number[][] = rails.map(() => []);
    for (const [index, list] of lists.entries()) for (const at of list) inverse[at]?.push(index);
    return inverse;
  };
  const isExpected = rails.map((rail) => isUpIn(rail, state));
  putToSleep(isExpected, feeds, enablers);
  const column = (what: RailMeasurement['what']) => {
    const at = new Int32Array(rails.length).fill(-1);
    for (const [index, each] of measurements.entries()) {
      if (each.what === what) at[indexOf.get(each.rail) ?? 0] = index;
    }
    return at;
  };
  const between: { other: number; at: number }[][] = rails.map(() => []);
  for (const [at, each] of measurements.entries()) {
    if (each.what !== 'between' || each.other === null) continue;
    between[indexOf.get(each.rail) ?? 0]?.push({ other: indexOf.get(each.other) ?? 0, at });
  }
  return {
    count: rails.length,
    feeds,
    children: invert(feeds),
    enablers,
    dependants: invert(enablers),
    isLink: rails.map(({ through }) => through === 'link'),
    follows: rails.map((_, at) => isFollower(board, at)),
    isSequenced: rails.map(
      ({ states, enabledBy }) => states.length > 0 || enabledBy.some((name) => !indexOf.has(name)),
    ),
    isExpected,
    // Lower volts usually mean lower ohms (common practice, no source); only the order counts here.
    usualOhms: rails.map(
      ({ expectedOhms, nominalV }) => expectedOhms?.median ?? nominalV ** 2 * 50,
    ),
    volts: column('volts'),
    input: column('input'),
    enable: column('enable'),
    ohms: column('ohms'),
    between,
  };
}

/** Hash of what shows at every measurement: 52 bits, two halves of FNV-1a. */
function hashOf(row: Uint8Array): number {
  let low = 0x811c9dc5;
  let high = 0x01234567;
  for (const value of row) {
    low = Math.imul(low ^ value, 0x01000193);
    high = Math.imul(high ^ (value + 17), 0x01000193);
  }
  return (low >>> 0) * 0x100000 + ((high >>> 0) & 0xfffff);
}
