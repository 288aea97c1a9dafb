import { formatQuantity } from '../units/format.ts';
import type { Gradient, GradientPoint } from './gradient.ts';
import type { Hunt } from './hunt.ts';
import { type HuntColumns, huntColumns } from './hunt-columns.ts';
import { rankGradient } from './rank-gradient.ts';

/** Where a hunt stands: its readings by current, and where they say that the current goes. */
export interface HuntGradient {
  readonly columns: HuntColumns;
  /** Null until two points are read at one current. */
  readonly gradient: Gradient | null;
  /** One standard deviation that points are told apart by, volts, and where it comes from. */
  readonly sigmaV: number;
  readonly sigmaFrom: string;
  /** Points without a reading at the first current. */
  readonly unread: readonly string[];
}

/** What a bench meter's millivolts scatter by until its noise is measured (common practice, no source). */
const UNMEASURED_V = 10e-6;
const UNMEASURED_SHARE = 50e-6;
/** What a supply's amps are off by: its zero, and a share (common practice, no source). */
const AMPS_ZERO_A = 3e-3;
const AMPS_SHARE = 0.005;
const SIGMAS = 3;

/**
 * Ranks a hunt's points by their newest readings at one current. Readings are taken as they are: to
 * bring each to the same current would put the supply's own digit, a part in two hundred of the whole
 * reading, where the drops between neighbours are a part in a thousand. Whether the current moved is
 * told by reading a point again.
 */
export function huntGradient(
  hunt: Pick<Hunt, 'rail' | 'reference' | 'meterSigmaV' | 'points'>,
): HuntGradient {
  const columns = huntColumns(hunt);
  const { firstA, secondA } = columns;
  const noise = noiseOf(hunt, columns);
  const byId = new Map(hunt.points.map((point) => [point.id, point]));
  const points = columns.points.flatMap(({ pointId, zero, first, second }): GradientPoint[] => {
    const point = byId.get(pointId);
    if (point === undefined || first === null || firstA === null) return [];
    return [
      {
        name: point.name,
        atFirstV: first.volts,
        atZeroV: zero?.volts ?? null,
        atSecondV: second?.volts ?? null,
        alongMm: point.alongMm,
        onPhoto: point.onPicture,
      },
    ];
  });
  const read = new Set(points.map(({ name }) => name));
  const unread = hunt.points.filter(({ name }) => !read.has(name)).map(({ name }) => name);
  if (firstA === null || points.length < 2) {
    return { columns, gradient: null, ...noise, unread };
  }
  const { rail, reference } = hunt;
  const ranked = rankGradient({
    ...{ rail, reference, firstA, meterSigmaV: noise.sigmaV, points },
    ampsSigmaA: Math.max(AMPS_ZERO_A, AMPS_SHARE * firstA),
    secondA: points.some(({ atSecondV }) => atSecondV !== null) ? secondA : null,
  });
  const notes = [...ranked.notes, ...notesOf(hunt, columns, noise)];
  return { columns, gradient: { ...ranked, notes }, ...noise, unread };
}

function noiseOf(
  { meterSigmaV }: Pick<Hunt, 'meterSigmaV'>,
  { points }: HuntColumns,
): Pick<HuntGradient, 'sigmaV' | 'sigmaFrom'> {
  const used = points.flatMap(({ zero, first, second }) =>
    [zero, first, second].filter((one) => one !== null),
  );
  const digitV = Math.max(
    0,
    ...used.flatMap(({ decimals }) => (decimals === null ? [] : [10 ** -decimals])),
  );
  // A digit is never told apart from its neighbour better than its own rounding allows.
  const roundedV = digitV / Math.sqrt(12);
  if (meterSigmaV !== null) {
    const sigmaV = Math.max(meterSigmaV, roundedV);
    return { sigmaV, sigmaFrom: `measured, ${formatQuantity(sigmaV, 'V', null, { digits: 2 })}` };
  }
  const largestV = Math.max(0, ...used.map(({ volts }) => Math.abs(volts)));
  const sigmaV = Math.max(digitV, UNMEASURED_V, UNMEASURED_SHARE * largestV);
  const said = formatQuantity(sigmaV, 'V', null, { digits: 2 });
  return { sigmaV, sigmaFrom: `not measured, ${said} assumed` };
}

function notesOf(
  { meterSigmaV, points }: Pick<Hunt, 'meterSigmaV' | 'points'>,
  columns: HuntColumns,
  { sigmaV, sigmaFrom }: Pick<HuntGradient, 'sigmaV' | 'sigmaFrom'>,
): string[] {
  const notes: string[] = [];
  for (const { pointId, first } of columns.points) {
    const point = points.find(({ id }) => id === pointId);
    const before = columns.again.find((one) => one.pointId === pointId)?.reading;
    if (point === undefined || first === null || before === undefined) continue;
    const movedV = first.volts - before.volts;
    if (Math.abs(movedV) <= SIGMAS * Math.SQRT2 * sigmaV) continue;
    notes.push(
      `${point.name} moved by ${formatQuantity(movedV, 'V', null, { digits: 3 })} between two readings: the current or the short drifts, and differences below that say nothing. Let it cool, then read the points again.`,
    );
  }
  if (meterSigmaV === null) notes.push(`The meter’s noise was ${sigmaFrom}.`);
  if (columns.others > 0) {
    const so = columns.others === 1 ? 'reading' : 'readings';
    notes.push(
      `${columns.others} ${so} at another current stand aside: two currents are compared.`,
    );
  }
  return notes;
}
