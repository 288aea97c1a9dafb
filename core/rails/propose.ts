import type { ScoredMeasurement } from './next-measurements.ts';
import { isMute, OUTCOME_ODDS, VERDICTS } from './outcome-odds.ts';
import type { RailMeasurement } from './rail-measurement.ts';
import type { RailModel } from './rail-model.ts';
import { RAIL_VERDICTS, type RailVerdict } from './rail-reading.ts';
import type { Suspect } from './suspects.ts';

/** A measurement to take next, with one sentence of why. */
export interface Proposal {
  readonly measurement: RailMeasurement;
  /** `Volts at 3V3 (C71)`. */
  readonly text: string;
  /** `If it is present, 9 of 14 suspects go; if it is missing, 5.` */
  readonly why: string;
  readonly gainBits: number;
  readonly cost: number;
  /** Suspects that each usual outcome rules out, of how many. */
  readonly rulesOut: readonly { readonly verdict: RailVerdict; readonly gone: number }[];
  readonly suspects: number;
  readonly caution: string | null;
}

/** A suspect goes when the verdict is this much less likely under it than under the one it suits best. */
const GOES_BELOW = 0.1;

const TEXT: Readonly<Record<RailMeasurement['what'], (rail: string, other: string) => string>> = {
  volts: (rail) => `Volts at ${rail}`,
  input: (rail) => `Volts at the input of ${rail}`,
  enable: (rail) => `The enable of ${rail}`,
  ohms: (rail) => `Ohms from ${rail} to ground`,
  between: (rail, other) => `Ohms between ${rail} and ${other}`,
};

const JOINED_CAUTION =
  'A rail may be joined to a higher one: measure ohms between them before any power, or the first power destroys what it feeds.';
const OHMS_CAUTION = 'Output off and the rail discharged: check the volts first, every time.';

/** Puts a scored measurement into words. */
export function propose(
  model: RailModel,
  scored: ScoredMeasurement,
  suspects: readonly Suspect[],
  isRisky: boolean,
): Proposal {
  const { measurement, at, gainBits, cost } = scored;
  const text = TEXT[measurement.what](measurement.rail, measurement.other ?? '');
  const isOhms = measurement.what === 'ohms' || measurement.what === 'between';
  const [good, bad]: readonly [RailVerdict, RailVerdict] = isOhms
    ? ['as-known-good', 'shorted']
    : ['present', 'missing'];
  const rulesOut = [good, bad].map((verdict) => ({
    verdict,
    gone: goneBy(model, at, verdict, suspects),
  }));
  const counts = rulesOut.map(({ gone }) => gone);
  return {
    measurement,
    text: measurement.place === '' ? text : `${text} (${measurement.place})`,
    why: sayWhy(measurement, counts[0] ?? 0, counts[1] ?? 0, suspects.length),
    gainBits,
    cost,
    rulesOut,
    suspects: suspects.length,
    caution: isOhms ? OHMS_CAUTION : isRisky ? JOINED_CAUTION : null,
  };
}

function goneBy(
  model: RailModel,
  at: number,
  verdict: RailVerdict,
  suspects: readonly Suspect[],
): number {
  if (isMute(verdict)) return 0;
  const column = RAIL_VERDICTS.indexOf(verdict);
  let most = 0;
  for (let row = 0; row < OUTCOME_ODDS.length / VERDICTS; row++) {
    most = Math.max(most, OUTCOME_ODDS[row * VERDICTS + column] ?? 0);
  }
  const likely = new Float64Array(model.faults.length);
  for (const [index, { fault, share }] of model.variants.entries()) {
    const condition = model.conditions[index]?.[at] ?? 0;
    const odds = OUTCOME_ODDS[condition * VERDICTS + column] ?? 0;
    likely[fault] = (likely[fault] ?? 0) + share * odds;
  }
  return suspects.filter(({ faults }) => {
    const fault = model.faultAt.get(faults[0]?.key ?? '') ?? 0;
    return (likely[fault] ?? 0) < GOES_BELOW * most;
  }).length;
}

function sayWhy(
  { what, rail, other }: RailMeasurement,
  ifGood: number,
  ifBad: number,
  all: number,
): string {
  const subject = {
    volts: ['it is present', 'it is missing'],
    input: ['volts arrive there', 'none arrive'],
    enable: ['it is asked to start', 'it is not'],
    ohms: ['they are as known-good', `${rail} is shorted`],
    between: ['the two are apart', `${rail} and ${other} are joined: do not power it`],
  }[what];
  const [good = '', bad = ''] = subject;
  const suspects = all === 1 ? 'suspect' : 'suspects';
  const isAre = (count: number) => (count === 1 ? 'goes' : 'go');
  if (ifGood > 0 && ifBad > 0) {
    const rest = ifGood + ifBad === all ? `the other ${ifBad}` : `${ifBad}`;
    return `If ${good}, ${ifGood} of ${all} ${suspects} ${isAre(ifGood)}; if ${bad}, ${rest}.`;
  }
  if (ifGood > 0) return `If ${good}, ${ifGood} of ${all} ${suspects} ${isAre(ifGood)}.`;
  if (ifBad > 0) return `If ${bad}, ${ifBad} of ${all} ${suspects} ${isAre(ifBad)}.`;
  return `It shifts the odds between ${all} ${suspects} without ruling one out.`;
}
