import { scaleLinear, scaleLog } from 'd3-scale';
import { line } from 'd3-shape';

/** How long a change of one size goes unseen, for each rate of false alarms. */
export interface LatencyCurve {
  readonly words: string;
  readonly points: readonly { readonly alarmsAnHour: number; readonly delayS: number }[];
}

const WIDTH = 640;
const HEIGHT = 400;
const EDGE = { left: 64, right: 130, top: 40, bottom: 56 } as const;
const DASHES = ['none', '8 3', '4 4', '1 4'];

/** Delay of detection against false alarms an hour as SVG: the dearer a miss, the further right. */
export function latencyPicture(curves: readonly LatencyCurve[]): string {
  const all = curves.flatMap((curve) => curve.points);
  const rates = all.map((p) => p.alarmsAnHour);
  const x = scaleLog([Math.min(...rates), Math.max(...rates)], [EDGE.left, WIDTH - EDGE.right]);
  const y = scaleLinear(
    [0, Math.max(...all.map((p) => p.delayS))],
    [HEIGHT - EDGE.bottom, EDGE.top],
  );
  const path = line<LatencyCurve['points'][number]>()
    .x((p) => x(p.alarmsAnHour))
    .y((p) => y(p.delayS));
  const drawn = curves.map((curve, k) => {
    const first = curve.points[0]!;
    return (
      `<path d="${path([...curve.points])}" fill="none" stroke="#15211f" stroke-width="2" stroke-dasharray="${DASHES[k] ?? 'none'}"/>` +
      `<text x="${x(first.alarmsAnHour) + 8}" y="${y(first.delayS) + 4}">${curve.words}</text>`
    );
  });
  const across = x
    .ticks(5)
    .filter((tick) => Number.isInteger(Math.log10(tick)))
    .map(
      (t) => `<text x="${x(t)}" y="${HEIGHT - EDGE.bottom + 18}" text-anchor="middle">${t}</text>`,
    );
  const up = y
    .ticks(5)
    .map((t) => `<text x="${EDGE.left - 8}" y="${y(t) + 4}" text-anchor="end">${t}</text>`);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="sans-serif" font-size="12" fill="#15211f">`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>`,
    `<text x="${EDGE.left}" y="20" font-size="14" font-weight="600">Seconds until a step is seen, over false alarms an hour (20 Hz, the CUSUM's limit varied)</text>`,
    `<path d="M${EDGE.left} ${EDGE.top}V${HEIGHT - EDGE.bottom}H${WIDTH - EDGE.right}" fill="none" stroke="#7c8a84"/>`,
    ...across,
    ...up,
    `<text x="${(EDGE.left + WIDTH - EDGE.right) / 2}" y="${HEIGHT - 14}" text-anchor="middle">false alarms an hour</text>`,
    ...drawn,
    '</svg>\n',
  ].join('\n');
}
