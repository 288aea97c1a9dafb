import { formatQuantity } from '../../core/units/format.ts';
import { PLOT } from './grid-lines.ts';
import { clockWords } from './time-ticks.ts';
import type { TraceDrawing } from './trace-drawing.ts';
import type { TickRange } from './trace-view.ts';

interface Props {
  /** Pixels from the left edge of the plot. */
  readonly at: number;
  readonly range: TickRange;
  readonly width: number;
  readonly drawing: TraceDrawing;
  readonly voltsDecimals: number;
  readonly ampsDecimals: number;
}

/** The readings at the pointer, large enough for half a metre. */
export function PointReadout({ at, range, width, drawing, voltsDecimals, ampsDecimals }: Props) {
  const tick = range.fromTick + (at / width) * (range.toTick - range.fromTick);
  const { window } = drawing;
  const nearest = nearestEntry(
    window.tick,
    window.count,
    tick,
    (range.toTick - range.fromTick) / 40,
  );
  const isLate = at > width / 2;
  const amps = nearest < 0 ? null : window.ampsMean[nearest]!;
  const volts = nearest < 0 ? null : window.voltsMean[nearest]!;
  return (
    <>
      <div className="point-line" style={{ left: PLOT.left + at }} />
      <div
        className="point-readout"
        style={isLate ? { right: PLOT.right + width - at + 12 } : { left: PLOT.left + at + 12 }}
      >
        <span className="point-time">{clockWords(Math.max(0, tick), 2)}</span>
        <span className="point-amps">{formatQuantity(amps, 'A', ampsDecimals, { prefix: 0 })}</span>
        <span className="point-volts">
          {formatQuantity(volts, 'V', voltsDecimals, { prefix: 0 })}
        </span>
      </div>
    </>
  );
}

/** Index of the entry with samples nearest to `tick`, -1 when none lies within `reach`. */
export function nearestEntry(
  ticks: Float64Array,
  counts: Float64Array,
  tick: number,
  reach: number,
): number {
  let best = -1;
  let bestDistance = reach;
  for (let i = 0; i < ticks.length; i += 1) {
    if (counts[i] === 0) continue;
    const distance = Math.abs(ticks[i]! - tick);
    if (distance <= bestDistance) {
      best = i;
      bestDistance = distance;
    }
  }
  return best;
}
