import { WakelineError } from '../errors.ts';
import { formatQuantity } from '../units/format.ts';
import { findKnee } from './find-knee.ts';
import type { Gradient, GradientInput, GradientPoint, RankedPoint } from './gradient.ts';

/** Differences below this many standard deviations are not told apart. */
const SIGMAS = 3;

/**
 * Ranks points of a shorted rail by what the injected current drops at them: the zero-current reading
 * is taken off each, the lowest is nearest to where the current goes to ground, points within three
 * sigma of it are ties, and when everything is within three sigma it cannot be told. Ohm's law; the
 * three sigma are this project's rule.
 * @throws WakelineError `bad-input` without a current, with a negative sigma or a double point.
 */
export function rankGradient(input: GradientInput): Gradient {
  check(input);
  const { points, firstA, rail, reference } = input;
  if (points.length < 2) {
    return cannot([], `One point has nothing to be compared with: take more along ${rail}.`, []);
  }
  const ranked = points.map((point) => rankPoint(point, input)).sort((a, b) => a.netV - b.netV);
  const lowest = ranked[0];
  const highest = ranked.at(-1);
  if (lowest === undefined || highest === undefined) return cannot([], 'No points.', []);
  const isApart = (a: RankedPoint, b: RankedPoint) =>
    Math.abs(a.netV - b.netV) > SIGMAS * Math.hypot(a.sigmaV, b.sigmaV);
  const marked = ranked.map((point) => ({ ...point, isTied: !isApart(point, lowest) }));
  const notes = notesOf(input, marked);
  const tied = marked.filter(({ isTied }) => isTied);
  const micro = (volts: number) => formatQuantity(volts, 'V', null, { digits: 3 });
  if (!isApart(lowest, highest)) {
    const spread = highest.netV - lowest.netV;
    const text = `It cannot be told: all points lie within ${micro(spread)}, and the meter tells ${micro(SIGMAS * Math.hypot(lowest.sigmaV, highest.sigmaV))} apart.`;
    return { ...cannot(marked, text, notes), neededA: neededCurrent(lowest, highest, firstA) };
  }
  const names = tied.map(({ name }) => name);
  const next = marked.find(({ isTied }) => !isTied);
  const gap = next === undefined ? 0 : next.netV - lowest.netV;
  const text =
    tied.length === 1
      ? `${lowest.name} is nearest: ${micro(lowest.netV)} against ${reference}, ${micro(gap)} below ${next?.name}.`
      : `${names.join(', ')} tie at ${micro(lowest.netV)} against ${reference}: the short is at one of them, and the others are side branches or lie beyond it.`;
  const second = tied[1];
  return {
    verdict: tied.length === 1 ? 'nearest' : 'tie',
    ranked: marked,
    nearest: names,
    kneeMm: findKnee(
      points.flatMap(({ name, alongMm }) => {
        const point = marked.find((each) => each.name === name);
        return alongMm === null || point === undefined
          ? []
          : [{ alongMm, volts: point.netV, sigmaV: point.sigmaV }];
      }),
    ),
    neededA: second === undefined ? null : neededCurrent(lowest, second, firstA),
    text,
    notes,
  };
}

function rankPoint(point: GradientPoint, input: GradientInput): RankedPoint {
  const { firstA, secondA, meterSigmaV } = input;
  const zero = point.atZeroV ?? 0;
  const readings = point.atZeroV === null ? 1 : 2;
  const netV = point.atFirstV - zero;
  const sigmaV = meterSigmaV * Math.sqrt(readings);
  const micro = (volts: number) => formatQuantity(volts, 'V', null, { digits: 4 });
  return {
    name: point.name,
    netV,
    sigmaV,
    ohm: netV / firstA,
    isTied: false,
    isLinear: point.atSecondV === null || secondA === null ? null : isLinear(point, input),
    arithmetic:
      point.atZeroV === null
        ? `${micro(point.atFirstV)} at ${firstA} A, zero not taken`
        : `${micro(point.atFirstV)} \u2212 ${micro(zero)} at no current = ${micro(netV)} at ${firstA} A`,
  };
}

/** Whether the drop grew as the current did, within three sigma of the readings and the currents. */
function isLinear(point: GradientPoint, input: GradientInput): boolean {
  const { firstA, secondA, meterSigmaV, ampsSigmaA } = input;
  const ratio = (secondA ?? firstA) / firstA;
  const zero = point.atZeroV ?? 0;
  const expected = (point.atFirstV - zero) * ratio;
  const found = (point.atSecondV ?? 0) - zero;
  // Zero is shared by both, so its part in the difference is (ratio - 1).
  const readings = meterSigmaV * Math.hypot(1, ratio, point.atZeroV === null ? 0 : ratio - 1);
  const currents = expected * Math.hypot(ampsSigmaA / firstA, ampsSigmaA / (secondA ?? firstA));
  return Math.abs(found - expected) <= SIGMAS * Math.hypot(readings, currents);
}

function neededCurrent(a: RankedPoint, b: RankedPoint, firstA: number): number | null {
  const gap = Math.abs(a.netV - b.netV);
  const wanted = SIGMAS * Math.hypot(a.sigmaV, b.sigmaV);
  return gap === 0 || gap >= wanted ? null : (firstA * wanted) / gap;
}

function notesOf(input: GradientInput, ranked: readonly RankedPoint[]): string[] {
  const notes: string[] = [];
  if (input.points.some(({ atZeroV }) => atZeroV === null)) {
    notes.push(
      'Not every point has a zero-current reading: contacts of two metals add microvolts that do not come from the current.',
    );
  }
  if (ranked.every(({ isLinear: linear }) => linear === null)) {
    notes.push('No second current was tried: doubling it has to double every drop.');
  }
  const bent = ranked.filter(({ isLinear: linear }) => linear === false).map(({ name }) => name);
  if (bent.length > 0) {
    notes.push(
      `The drop did not follow the current at ${bent.join(', ')}: a bad contact, a junction in the way, or something that heats. Measure there again.`,
    );
  }
  const negative = ranked
    .filter(({ netV, sigmaV }) => netV < -SIGMAS * sigmaV)
    .map(({ name }) => name);
  if (negative.length > 0) {
    notes.push(
      `${negative.join(', ')} read below the reference: right where it lies on the rail itself; else the probes are swapped, and the order is turned around.`,
    );
  }
  return notes;
}

function cannot(ranked: readonly RankedPoint[], text: string, notes: readonly string[]): Gradient {
  return { verdict: 'cannot-tell', ranked, nearest: [], kneeMm: null, neededA: null, text, notes };
}

function check(input: GradientInput): void {
  const { rail, firstA, secondA, meterSigmaV, ampsSigmaA, points } = input;
  const refuse = (what: string, todo: string): never => {
    throw new WakelineError({ code: 'bad-input', what, where: `gradient along ${rail}`, todo });
  };
  if (!(firstA > 0))
    refuse('Without current there is no drop to rank', 'Type the current that flowed.');
  if (secondA !== null && !(secondA > 0 && secondA !== firstA)) {
    refuse(
      'The second current has to differ from the first',
      'Type the current that flowed, or leave it out.',
    );
  }
  if (!(meterSigmaV >= 0 && ampsSigmaA >= 0)) {
    refuse('A noise cannot be negative', 'Type one standard deviation of the readings.');
  }
  const names = points.map(({ name }) => name);
  const double = names.find((name, at) => names.indexOf(name) !== at);
  if (double !== undefined) refuse(`${double} is there twice`, 'Keep one reading a point.');
}
