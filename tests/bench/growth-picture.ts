import { scaleLog } from 'd3-scale';
import { line } from 'd3-shape';
import { type Measure, short } from './measure.ts';

/** A figure at one size of what it was measured on. */
export interface GrowthPoint {
  readonly size: number;
  readonly measure: Measure;
}

const WIDTH = 640;
const HEIGHT = 400;
const EDGE = { left: 72, right: 200, top: 40, bottom: 48 } as const;

/** Figures whose names differ only in a count (`five nearest among 10,000 runs`), by name. */
export function growthCurves(
  measures: readonly Measure[],
): ReadonlyMap<string, readonly GrowthPoint[]> {
  const curves = new Map<string, GrowthPoint[]>();
  for (const one of measures) {
    const count = /\d{1,3}(?:,\d{3})+|\d+(?= (?:samples|runs|rails|hours))/.exec(one.name);
    if (count === null) continue;
    const name = one.name.replace(count[0], 'N');
    const size = Number(count[0].replaceAll(',', ''));
    curves.set(name, [...(curves.get(name) ?? []), { size, measure: one }]);
  }
  return new Map([...curves].filter(([, points]) => points.length >= 3));
}

/** How a figure grows with size, and its baseline, on logarithmic axes: a picture as SVG. */
export function growthPicture(name: string, points: readonly GrowthPoint[]): string {
  const sorted = [...points].sort((a, b) => a.size - b.size);
  const ours = sorted.map((one) => [one.size, one.measure.value] as const);
  const baseline = sorted.flatMap((one) =>
    one.measure.baseline === null ? [] : [[one.size, one.measure.baseline.value] as const],
  );
  const values = [...ours, ...baseline].map(([, value]) => value).filter((value) => value > 0);
  const sizes = sorted.map((one) => one.size);
  const x = scaleLog([sizes[0]!, sizes.at(-1)!], [EDGE.left, WIDTH - EDGE.right]);
  const low = Math.min(...values) / 1.5;
  const y = scaleLog([low, Math.max(...values) * 1.5], [HEIGHT - EDGE.bottom, EDGE.top]);
  const path = line<readonly [number, number]>()
    .x(([size]) => x(size))
    .y(([, value]) => y(Math.max(low, value)));
  const { unit, baseline: first } = sorted[0]!.measure;
  const curve = (data: readonly (readonly [number, number])[], words: string, dash: string) => {
    if (data.length === 0) return '';
    const [lastSize, lastValue] = data.at(-1)!;
    const dots = data.map(
      ([size, value]) =>
        `<circle cx="${x(size)}" cy="${y(Math.max(low, value))}" r="3"/>` +
        `<text x="${x(size)}" y="${y(Math.max(low, value)) - 8}" text-anchor="middle">${short(value)}</text>`,
    );
    return (
      `<path d="${path([...data])}" fill="none" stroke="#15211f" stroke-width="2" stroke-dasharray="${dash}"/>` +
      `${dots.join('')}<text x="${x(lastSize) + 10}" y="${y(Math.max(low, lastValue)) + 4}">${escaped(words)}</text>`
    );
  };
  const ticks = sizes.map(
    (size) =>
      `<text x="${x(size)}" y="${HEIGHT - EDGE.bottom + 20}" text-anchor="middle">${size.toLocaleString('en')}</text>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="sans-serif" font-size="12" fill="#15211f">`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>`,
    `<text x="${EDGE.left}" y="20" font-size="14" font-weight="600">${escaped(`${name}, ${unit}`)}</text>`,
    `<path d="M${EDGE.left} ${EDGE.top}V${HEIGHT - EDGE.bottom}H${WIDTH - EDGE.right}" fill="none" stroke="#7c8a84"/>`,
    ...ticks,
    curve(ours, 'this', 'none'),
    curve(baseline, first?.name ?? '', '6 4'),
    '</svg>\n',
  ].join('\n');
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
