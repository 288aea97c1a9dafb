import { formatQuantity } from '../units/format.ts';
import type { Rail } from './board-model.ts';
import type { JudgedReading } from './rail-reading.ts';

/** Volts that stand on a rail above this make its ohms mean nothing (common practice, no source). */
const CHARGED_V = 0.1;
/** A rail this far above all that feeds it gets its volts from elsewhere (common practice, no source). */
const ABOVE_FEED_V = 0.2;
/** Ohms of a charging rail have settled within this time, and have risen by this much at least. */
const SETTLES_WITHIN_MS = 180_000;
const ROSE_TIMES = 3;

/**
 * What a reading turns into in the light of the others: ohms taken on a charged rail or before they
 * had settled say nothing, and volts that no feed can give come from elsewhere.
 */
export function judgeTogether(
  judged: readonly JudgedReading[],
  byName: ReadonlyMap<string, Rail>,
): readonly JudgedReading[] {
  const first = judged.map((each, at) => {
    if (each.reading.quantity !== 'volts') return notSettled(each, at, judged);
    return backFed(each, judged, byName);
  });
  return first.map((each) => heldUp(each, first, byName));
}

/** A feed that is low while what it feeds stands above it is held up from there, not by its source. */
function heldUp(
  one: JudgedReading,
  all: readonly JudgedReading[],
  byName: ReadonlyMap<string, Rail>,
): JudgedReading {
  const { reading, verdict } = one;
  if (verdict !== 'low' || reading.point !== 'output' || reading.quantity !== 'volts') return one;
  const from = all.find(
    ({ reading: other, verdict: above }) =>
      above === 'back-fed' &&
      other.powered &&
      other.state === reading.state &&
      other.point === 'output' &&
      byName.get(other.rail)?.fedBy.includes(reading.rail) === true,
  );
  if (from === undefined) return one;
  return {
    ...one,
    verdict: 'back-fed',
    reason: `${reading.rail} may be held up from ${from.reading.rail}, which stands above it: what its own source gives cannot be seen. ${UNPLUG}`,
  };
}

function notSettled(one: JudgedReading, at: number, all: readonly JudgedReading[]): JudgedReading {
  const { reading } = one;
  if (reading.powered || one.verdict === 'not-measured') return one;
  const volts = all
    .slice(0, at)
    .findLast(
      ({ reading: { rail, quantity, point } }) =>
        rail === reading.rail && quantity === 'volts' && point === 'output',
    )?.reading;
  if (volts?.powered === false && Math.abs(volts.value ?? 0) > CHARGED_V) {
    return mute(
      one,
      `${say(volts.value ?? 0, 'V')} still stood on ${reading.rail} when it was last looked at: discharge it, check its volts, then read again.`,
    );
  }
  const later = all
    .slice(at + 1)
    .find(
      ({ reading: next, isOdd }) =>
        next.rail === reading.rail &&
        next.quantity === 'ohms' &&
        next.against === reading.against &&
        !isOdd &&
        next.value !== null &&
        next.at - reading.at <= SETTLES_WITHIN_MS &&
        next.value > ROSE_TIMES * (reading.value ?? Number.POSITIVE_INFINITY),
    );
  if (reading.quantity !== 'ohms' || !one.isOdd || later === undefined) return one;
  return mute(
    one,
    `It went on rising to ${say(later.reading.value ?? 0, 'Ω')}: capacitors were charging. The settled reading counts; a third one tells whether it comes and goes.`,
  );
}

function mute(one: JudgedReading, reason: string): JudgedReading {
  return { ...one, verdict: 'cannot-tell', isOdd: false, reason };
}

function backFed(
  judged: JudgedReading,
  all: readonly JudgedReading[],
  byName: ReadonlyMap<string, Rail>,
): JudgedReading {
  const { reading, verdict } = judged;
  const isVolts = reading.point === 'output' && reading.powered;
  const rail = byName.get(reading.rail);
  if (rail === undefined || !isVolts) return judged;
  if (verdict !== 'low' && verdict !== 'present' && verdict !== 'high') return judged;
  const feedVolts = (feed: string) =>
    all.findLast(
      ({ reading: other }) =>
        other.rail === feed &&
        other.quantity === 'volts' &&
        other.point === 'output' &&
        other.powered &&
        other.state === reading.state,
    );
  const feeds = rail.fedBy.map(feedVolts);
  if (feeds.length === 0 || feeds.some((feed) => feed === undefined)) return judged;
  const isMissing = (feed: JudgedReading | undefined) => feed?.verdict === 'missing' && feed.isOdd;
  const names = rail.fedBy.join(' and ');
  if (verdict !== 'high' && feeds.every(isMissing)) {
    return {
      ...judged,
      verdict: 'back-fed',
      isOdd: true,
      reason: `There are volts here while ${names}, which ${rail.fedBy.length === 1 ? 'feeds' : 'feed'} it, ${rail.fedBy.length === 1 ? 'has' : 'have'} none: fed from somewhere else, or one of the readings is wrong. ${UNPLUG}`,
    };
  }
  const size = Math.abs(reading.value ?? 0);
  // A step-up may stand above its feed; a pass element, regulator or step-down cannot.
  const isAbove = feeds.every((feed) => {
    const feedV = Math.abs(feed?.reading.value ?? Number.POSITIVE_INFINITY);
    const nominalV = Math.abs(byName.get(feed?.reading.rail ?? '')?.nominalV ?? 0);
    const isStepUp = Math.abs(rail.nominalV) > nominalV * 1.03;
    return !isStepUp && feed?.isOdd === true && size > feedV + ABOVE_FEED_V;
  });
  if (!isAbove) return judged;
  return {
    ...judged,
    verdict: 'back-fed',
    isOdd: true,
    reason: `${rail.name} stands above ${names}, which ${rail.fedBy.length === 1 ? 'feeds' : 'feed'} it: its volts come from elsewhere and run back. ${UNPLUG}`,
  };
}

const UNPLUG = 'Unplug what is plugged in and read both again.';

function say(value: number, unit: 'V' | 'Ω'): string {
  return formatQuantity(
    Number(value.toPrecision(4)),
    unit,
    null,
    unit === 'V' ? { prefix: 0 } : {},
  );
}
