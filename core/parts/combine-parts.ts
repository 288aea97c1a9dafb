import { WakelineError } from '../errors.ts';
import type { PartPlace } from './equivalence.ts';
import type { PartKind, PartSpec } from './part-spec.ts';
import { sayFigure, sayPartValue } from './say-part-value.ts';
import { percentTolerance, toleranceBand } from './tolerance-letters.ts';

/** Two to four parts that together would do for one. */
export interface Combination {
  readonly how: 'parallel' | 'series';
  /** Indexes into the stock that was offered; the same part several times when it is there. */
  readonly parts: readonly number[];
  /** Together, in the kind's unit. */
  readonly value: number;
  readonly ratedV: number | null;
  readonly ratedA: number | null;
  readonly ratedW: number | null;
  readonly esrOhm: number | null;
  /** Share that the value is off nominal. */
  readonly off: number;
  /** `22 µF + 22 µF in parallel = 44 µF (within ±20 % of 47 µF); rated 6.3 V, the lower of the two`. */
  readonly arithmetic: string;
  readonly cautions: readonly string[];
}

/** What is at hand: a part and how many of it. */
export interface StockedPart {
  readonly spec: PartSpec;
  readonly count: number;
}

const COMBINABLE: readonly PartKind[] = ['resistor', 'capacitor', 'inductor'];
const MOST_PARTS = 4;

/**
 * Parallel and series combinations of parts at hand that give the original's value within its
 * tolerance (20 % when none is known) at a rating that is enough, nearest first, fewest parts first
 * among equals. Capacitors add in parallel, resistors and uncoupled coils in series (Ohm's and
 * Kirchhoff's laws). Mixed kinds are never combined.
 * @throws WakelineError `bad-input` for a kind that cannot be combined or an unknown value.
 */
export function combineParts(
  original: PartSpec,
  stock: readonly StockedPart[],
  place: PartPlace,
): readonly Combination[] {
  const { kind, value } = original;
  if (kind === null || value === null || value <= 0 || !COMBINABLE.includes(kind)) {
    throw new WakelineError({
      code: 'bad-input',
      what: 'Only resistors, capacitors and inductors of known value can be combined',
      where: `parts, ${original.designator ?? kind ?? 'unknown part'}`,
      todo: "Type the original's kind and value first.",
    });
  }
  const [low, high] = toleranceBand(value, original.tolerance ?? percentTolerance(20));
  const found: Combination[] = [];
  for (const parts of picks(stock, kind)) {
    const specs = parts.map((index) => stock[index]?.spec).filter((spec) => spec !== undefined);
    for (const how of ['parallel', 'series'] as const) {
      const combination = combine(how, parts, specs, original, place);
      const fits = combination.value >= low * (1 - 1e-9) && combination.value <= high * (1 + 1e-9);
      if (fits && isRatedEnough(combination, original, place)) found.push(combination);
    }
  }
  const byNearness = (a: Combination, b: Combination) =>
    Math.abs(a.off) - Math.abs(b.off) || a.parts.length - b.parts.length;
  return found.sort(byNearness).slice(0, 12);
}

/** Every pair of what is at hand, and three or four of the same. */
function picks(stock: readonly StockedPart[], kind: PartKind): number[][] {
  const usable = stock.flatMap(({ spec, count }, index) =>
    spec.kind === kind && spec.value !== null && spec.value > 0 && count > 0 ? [index] : [],
  );
  const found: number[][] = [];
  for (const [i, first] of usable.entries()) {
    const count = stock[first]?.count ?? 0;
    for (let same = 2; same <= Math.min(count, MOST_PARTS); same++) {
      found.push(Array.from({ length: same }, () => first));
    }
    for (const second of usable.slice(i + 1)) found.push([first, second]);
  }
  return found;
}

function combine(
  how: Combination['how'],
  parts: readonly number[],
  specs: readonly PartSpec[],
  original: PartSpec,
  place: PartPlace,
): Combination {
  const kind = original.kind ?? 'resistor';
  const values = specs.map(({ value }) => value ?? Number.NaN);
  const adds = (kind === 'capacitor') === (how === 'parallel');
  const value = adds ? sum(values) : inverseSum(values);
  const nominal = original.value ?? value;
  const alike = specs.every(({ value: each }) => each === specs[0]?.value);
  const volts = specs.map(({ ratedV }) => ratedV);
  const ratedV = how === 'parallel' ? least(volts) : seriesVolts(kind, values, volts);
  const amps = specs.map(({ ratedA }) => ratedA);
  const ratedA =
    how === 'series' || kind !== 'inductor' ? least(amps) : shared(values, amps, value);
  const cautions = [`${parts.length} parts where one was: look for room and short leads.`];
  if (kind === 'capacitor' && how === 'series') {
    cautions.push(
      alike
        ? 'In series the volts share only as evenly as leakage does: keep well below the sum of the ratings.'
        : 'Unequal capacitors in series: the smaller takes more of the volts.',
    );
  }
  if (kind === 'inductor')
    cautions.push('Keep the coils apart or across each other: coupling changes the value.');
  if (original.technology !== null && specs.some((s) => s.technology !== original.technology)) {
    cautions.push(
      `Not all of them are ${original.technology}: compare ESR and loss under DC bias.`,
    );
  }
  if (place.critical === true) cautions.push('The place is critical: like for like only.');
  const esr = specs.map(({ esrOhm }) => esrOhm);
  const esrOhm = esr.some((each) => each === null)
    ? null
    : how === 'parallel'
      ? inverseSum(esr.map(Number))
      : sum(esr.map(Number));
  const written = values
    .map((each) => sayPartValue(each, kind))
    .join(how === 'parallel' ? ' || ' : ' + ');
  const rating =
    ratedV === null
      ? kind === 'capacitor'
        ? '; volts not known of all'
        : ''
      : `; together ${sayFigure(ratedV, 'V')}`;
  const off = value / nominal - 1;
  return {
    how,
    parts,
    value,
    ratedV,
    ratedA,
    ratedW: powerTogether(how, values, specs),
    esrOhm,
    off,
    arithmetic: `${written} in ${how} = ${sayPartValue(value, kind)}, ${signedPercent(off)} ${sayPartValue(nominal, kind)}${rating}`,
    cautions,
  };
}

function isRatedEnough(
  { ratedV, ratedA, ratedW }: Combination,
  original: PartSpec,
  place: PartPlace,
): boolean {
  const enough = (got: number | null, wanted: number | null) =>
    wanted === null || (got !== null && got >= wanted * (1 - 1e-9));
  const volts = original.kind === 'capacitor' ? (original.ratedV ?? place.railV) : original.ratedV;
  return (
    enough(ratedV, volts) && enough(ratedA, original.ratedA) && enough(ratedW, original.ratedW)
  );
}

/** Volts that a series string stands before its first part reaches its rating. */
function seriesVolts(
  kind: PartKind,
  values: readonly number[],
  volts: readonly (number | null)[],
): number | null {
  const loads = values.map((value) => (kind === 'capacitor' ? 1 / value : value));
  const total = sum(loads);
  return least(
    volts.map((rated, i) => (rated === null ? null : (rated * total) / (loads[i] ?? total))),
  );
}

/** Amps that parallel coils carry before the first reaches its rating, shared by inductance. */
function shared(
  values: readonly number[],
  amps: readonly (number | null)[],
  together: number,
): number | null {
  return least(
    amps.map((rated, i) => (rated === null ? null : (rated * (values[i] ?? 0)) / together)),
  );
}

/** Watts of a group of resistors before the first reaches its rating. */
function powerTogether(
  how: Combination['how'],
  values: readonly number[],
  specs: readonly PartSpec[],
): number | null {
  const loads = values.map((value) => (how === 'series' ? value : 1 / value));
  const total = sum(loads);
  return least(
    specs.map(({ ratedW }, i) => (ratedW === null ? null : (ratedW * total) / (loads[i] ?? total))),
  );
}

function least(values: readonly (number | null)[]): number | null {
  return values.some((value) => value === null) ? null : Math.min(...values.map(Number));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function inverseSum(values: readonly number[]): number {
  return 1 / sum(values.map((value) => 1 / value));
}

function signedPercent(share: number): string {
  const percent = Number((share * 100).toFixed(1));
  return `${percent > 0 ? '+' : percent < 0 ? '\u2212' : '±'}${Math.abs(percent)} % off the nominal`;
}
