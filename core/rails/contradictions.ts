import type { FaultPosterior } from './fault-posterior.ts';
import { BELOW_GROUND } from './judge-volts.ts';
import { type Observation, oddsOf } from './observations.ts';
import { findOtherState } from './other-state.ts';
import type { RailModel } from './rail-model.ts';
import { type JudgedReading, sayVerdict } from './rail-reading.ts';
import { findSlips } from './reading-slips.ts';

/** Readings that do not go together, in a sentence, with the readings. */
export interface Contradiction {
  readonly text: string;
  readonly readings: readonly string[];
}

/** A reading less likely than this under everything that is left does not fit the rest. */
const UNEXPLAINED = 0.04;

/** What contradicts what, for a technician to look at; it is said and never in the way. */
export function findContradictions(
  model: RailModel,
  posterior: FaultPosterior,
  judged: readonly JudgedReading[],
): readonly Contradiction[] {
  return [
    ...findOtherState(model, judged),
    ...findSlips(model.board, judged),
    ...saidByThemselves(judged),
    ...sameMeasurementTwice(model, posterior),
    ...enabledByNothing(model, posterior),
    ...unexplained(model, posterior),
  ];
}

function sameMeasurementTwice(model: RailModel, { observations }: FaultPosterior): Contradiction[] {
  return observations.flatMap((first, at) =>
    observations.slice(at + 1).flatMap((second) => {
      if (first.measurement !== second.measurement || !isSameKind(first, second)) return [];
      if (first.verdict === second.verdict) return [];
      const key = model.measurements[first.measurement];
      return [
        {
          text: `${key?.rail} was read ${lower(first.judged)} and ${lower(second.judged)}: it comes and goes, or one of the two is wrong. Measure it again.`,
          readings: [first.judged.reading.id, second.judged.reading.id],
        },
      ];
    }),
  );
}

const isSameKind = (a: Observation, b: Observation) =>
  a.judged.reading.quantity === b.judged.reading.quantity;

/** Readings whose own verdict is that something does not go together. */
function saidByThemselves(judged: readonly JudgedReading[]): Contradiction[] {
  return judged.flatMap(({ reading, verdict, isOdd, reason, share }) => {
    const isBackFed = verdict === 'back-fed' && reading.powered && reading.point === 'output';
    const isVolts = reading.quantity === 'volts' && reading.point === 'output';
    const isBelow = isVolts && isOdd && verdict === 'missing' && reason.includes(BELOW_GROUND);
    const isStrange =
      (verdict === 'cannot-tell' && isOdd && isVolts && (share ?? -1) < 0) || isBelow;
    if (!isBackFed && !isStrange) return [];
    const text = reason.startsWith(reading.rail) ? reason : `${reading.rail}: ${reason}`;
    return [{ text, readings: [reading.id] }];
  });
}

/** A rail that is up while a rail that enables it is down: the table or a reading is wrong. */
function enabledByNothing(model: RailModel, { observations }: FaultPosterior): Contradiction[] {
  const volts = observations.filter(
    ({ measurement }) => model.measurements[measurement]?.what === 'volts',
  );
  const railOf = (name: string) => model.board.rails.find((rail) => rail.name === name);
  return volts.flatMap(({ judged }) => {
    if (judged.verdict !== 'present') return [];
    const missing = volts.filter(
      ({ judged: other }) =>
        other.verdict === 'missing' &&
        railOf(judged.reading.rail)?.enabledBy.includes(other.reading.rail),
    );
    return missing.map(({ judged: other }) => ({
      text: `${judged.reading.rail} is present though ${other.reading.rail}, which enables it, is missing: a reading or the table's "enabled by" is wrong.`,
      readings: [judged.reading.id, other.reading.id],
    }));
  });
}

function unexplained(model: RailModel, posterior: FaultPosterior): Contradiction[] {
  return posterior.observations.flatMap(({ measurement, verdict, odds, judged }) => {
    if (judged.verdict === 'back-fed' && judged.reading.point === 'output') return [];
    let likely = 0;
    for (const { probability, conditions } of posterior.hypotheses) {
      likely += probability * oddsOf(odds, conditions[measurement] ?? 0, verdict);
    }
    if (likely >= UNEXPLAINED) return [];
    const { rail } = judged.reading;
    const what = model.measurements[measurement]?.what ?? 'volts';
    const place = what === 'volts' || what === 'ohms' ? rail : `${what} of ${rail}`;
    return [
      {
        text: `Nothing that explains the other readings explains that ${place} reads ${lower(judged)} (${judged.arithmetic}). Measure it again, or look for a second fault there.`,
        readings: [judged.reading.id],
      },
    ];
  });
}

function lower({ verdict, isOdd, reading }: JudgedReading): string {
  const words = sayVerdict(verdict, { isOdd, against: reading.against });
  return words.charAt(0).toLowerCase() + words.slice(1);
}
