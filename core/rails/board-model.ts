/**
 * Where a rail can be touched: its output, the input of what makes it, or its enable.
 * `cost` is the effort of getting there: 1 is in plain reach, 3 is under a shield. Null = cannot
 * be reached.
 */
export interface ProbePoint {
  readonly name: string;
  readonly role: 'output' | 'input' | 'enable';
  readonly cost: number | null;
  /** Volts that belong there, for enables; null when not known. */
  readonly volts: number | null;
}

/** A figure learned from known-good boards. `spread` is one standard deviation. */
export interface KnownGood {
  readonly median: number;
  readonly spread: number;
  readonly count: number;
}

/**
 * What lies between a rail and what feeds it. A link (fuse, coil, sense resistor, jumper) joins the
 * two for ohms and volts; a switch joins them only when on; regulators and converters never do.
 */
export const FEED_THROUGH = ['converter', 'regulator', 'switch', 'link'] as const;
export type FeedThrough = (typeof FEED_THROUGH)[number];

export interface Rail {
  readonly name: string;
  /** Volts to ground; negative for a negative rail. */
  readonly nominalV: number;
  /** Allowed share either side: 0.05 is 5 %. */
  readonly tolerance: number;
  readonly points: readonly ProbePoint[];
  /** Rails that feed it, any one of which is enough; empty for an input of the board. */
  readonly fedBy: readonly string[];
  readonly through: FeedThrough;
  /** Rails or signals that must all be there before it starts. Loops are allowed. */
  readonly enabledBy: readonly string[];
  /** States in which it is up, by the shop's names; empty = whenever it is fed. */
  readonly states: readonly string[];
  /** Ohms to ground, board off. */
  readonly expectedOhms: KnownGood | null;
  /** Diode reading with the red lead on ground, volts. */
  readonly expectedDiodeV: KnownGood | null;
  /** True for processor, graphics and other cores whose healthy ohms are tiny. */
  readonly isCore: boolean;
}

/** A board model: its rails from the input on, and what is stated of the whole. */
export interface BoardModel {
  readonly name: string;
  readonly rails: readonly Rail[];
  readonly statedInputV: number | null;
  readonly statedLimitA: number | null;
  readonly runningA: number | null;
  readonly runsFlat: boolean | null;
}

/** At or below this nominal a rail counts as a core unless its row says otherwise (common practice, no source). */
export const CORE_MOST_V = 1.35;
export const DEFAULT_TOLERANCE = 0.05;
/** Effort of a point that nobody has rated. */
export const PLAIN_COST = 1;

/** What lies between when the table does not say: equal volts are a switch, others a converter. */
export function usualThrough(nominalV: number, feedV: readonly number[]): FeedThrough {
  const isEqual = feedV.some((volts) => Math.abs(volts - nominalV) <= 0.03 * Math.abs(nominalV));
  return isEqual ? 'switch' : 'converter';
}

/** The cheapest reachable point of a role; null when the rail has none listed or none in reach. */
export function pointOf(rail: Rail, role: ProbePoint['role']): ProbePoint | null {
  const reachable = rail.points.filter((point) => point.role === role && point.cost !== null);
  return reachable.reduce<ProbePoint | null>(
    (best, point) => (best === null || Number(point.cost) < Number(best.cost) ? point : best),
    null,
  );
}

/** Whether the rail belongs up in a state; a null state is one that nobody named. */
export function isUpIn(rail: Rail, state: string | null): boolean {
  if (state === null || rail.states.length === 0) return true;
  return rail.states.some((name) => name.toLowerCase() === state.toLowerCase());
}

/** All states that the board's rails name, in the order they appear. */
export function statesOf(board: BoardModel): readonly string[] {
  return [...new Set(board.rails.flatMap(({ states }) => states))];
}
