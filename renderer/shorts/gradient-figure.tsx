import type { HuntWhole } from '../../core/contract/hunt-calls.ts';
import type { Gradient } from '../../core/shorts/gradient.ts';
import { useSize } from '../parts/use-size.ts';
import { drawGradient } from './draw-gradient.ts';
import { millivolts } from './hunt-words.ts';

const HEIGHT = 200;

/** Volts along the points: the lowest lies at the bottom, three sigma of the meter as bars. */
export function GradientFigure({ whole, gradient }: { whole: HuntWhole; gradient: Gradient }) {
  const [room, size] = useSize<HTMLElement>();
  const width = Math.max(280, size.width);
  const drawn = drawGradient(whole.hunt, gradient, { width, height: HEIGHT });
  const byName = new Map(gradient.ranked.map((one) => [one.name, one]));
  return (
    <figure ref={room} className="gradient-figure" aria-label={`Volts along ${whole.hunt.rail}`}>
      <svg width={width} height={HEIGHT} role="img" aria-label={gradient.text}>
        <line className="gradient-floor" x1={0} x2={width} y1={HEIGHT - 24} y2={HEIGHT - 24} />
        {drawn.kneeX !== null && (
          <>
            <line
              className="gradient-knee"
              x1={drawn.kneeX}
              x2={drawn.kneeX}
              y1={24}
              y2={HEIGHT - 24}
            />
            <text className="gradient-note" x={drawn.kneeX + 6} y={18}>
              level from {gradient.kneeMm?.toFixed(0)} mm on
            </text>
          </>
        )}
        {drawn.line !== '' && <path className="gradient-line" d={drawn.line} />}
        {drawn.points.map((point) => (
          <g key={point.name} data-nearest={point.isNearest}>
            <line
              className="gradient-reach"
              x1={point.x}
              x2={point.x}
              y1={point.y - point.reach}
              y2={point.y + point.reach}
            />
            <path
              className="gradient-point"
              d={
                point.isNearest
                  ? `M${point.x - 8} ${point.y - 6}h16l-8 12Z`
                  : `M${point.x - 4} ${point.y}a4 4 0 1 0 8 0a4 4 0 1 0 -8 0`
              }
            />
            <text
              className="gradient-value"
              x={point.x}
              y={point.y - Math.max(12, point.reach + 4)}
            >
              {millivolts(byName.get(point.name)?.netV)}
            </text>
            <text className="gradient-name" x={point.x} y={HEIGHT - 6}>
              {point.name}
            </text>
          </g>
        ))}
      </svg>
    </figure>
  );
}
