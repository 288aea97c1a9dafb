import { createContext, useContext, useId, useRef } from 'react';
import {
  CartesianGrid,
  ComposedChart,
  ReferenceLine,
  usePlotArea,
  XAxis,
  YAxis,
  ZIndexLayer,
} from 'recharts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { clockWords, timeTicks } from '../trace/time-ticks.ts';
import { tracePaths } from '../trace/trace-paths.ts';
import type { TickRange } from '../trace/trace-view.ts';
import { axisTicks, tickDecimals, type ValueAxis } from '../trace/value-axis.ts';
import type { CommonTime } from './common-time.ts';
import { RUN_DASHES } from './run-letters.ts';
import type { ComparedWindows } from './use-compared-windows.ts';

/** Pixels about the plot. */
export const COMPARE_PLOT = { left: 64, right: 16, top: 16, bottom: 28 } as const;
const ABOVE = 500;

interface Curves {
  readonly time: CommonTime;
  readonly windows: ComparedWindows;
}
const CurvesContext = createContext<Curves | null>(null);

interface Props extends Curves {
  readonly width: number;
  readonly height: number;
  readonly range: TickRange;
  readonly axis: ValueAxis;
}

/** Up to six draws over one another on one pair of axes. */
export function ComparePlot({ time, windows, width, height, range, axis }: Props) {
  const ends = useRef([{ tick: 0 }]);
  const ticks = axisTicks(axis, Math.max(2, Math.floor(height / 80)));
  const decimals = tickDecimals(ticks);
  // Ticks lie at round times from the common moment, not from where the axis begins.
  const shifted = {
    fromTick: range.fromTick - time.zeroTick,
    toTick: range.toTick - time.zeroTick,
  };
  const times = timeTicks(shifted, Math.max(3, Math.floor(width / 120)));
  const timeDecimals = (times[1] ?? TICKS_PER_SECOND) - (times[0] ?? 0) < TICKS_PER_SECOND ? 2 : 0;
  const words = (tick: number) => {
    const from = tick - time.zeroTick;
    return from < 0 ? `−${clockWords(-from, timeDecimals)}` : clockWords(from, timeDecimals);
  };
  return (
    <CurvesContext value={{ time, windows }}>
      <ComposedChart
        width={width}
        height={height}
        data={ends.current}
        margin={{ top: COMPARE_PLOT.top, right: COMPARE_PLOT.right, bottom: 0, left: 0 }}
        accessibilityLayer={false}
      >
        <CartesianGrid stroke="var(--hairline)" />
        <XAxis
          dataKey="tick"
          type="number"
          domain={[range.fromTick, range.toTick]}
          ticks={times.map((tick) => tick + time.zeroTick)}
          interval={0}
          allowDataOverflow
          height={COMPARE_PLOT.bottom}
          tickFormatter={words}
          tick={{ fontSize: 13, fill: 'var(--quiet)' }}
          tickLine={false}
          axisLine={{ stroke: 'var(--edge)' }}
        />
        <YAxis
          type="number"
          width={COMPARE_PLOT.left}
          domain={[axis.low, axis.high]}
          ticks={ticks}
          interval={0}
          allowDataOverflow
          tickFormatter={(value: number) => formatQuantity(value, 'A', decimals, { prefix: 0 })}
          tick={{ fontSize: 13, fill: 'var(--quiet)' }}
          tickLine={false}
          axisLine={false}
        />
        {time.zeroTick > range.fromTick && time.zeroTick < range.toTick && (
          <ReferenceLine x={time.zeroTick} stroke="var(--ink)" strokeDasharray="3 3" />
        )}
        <ZIndexLayer zIndex={ABOVE}>
          <ComparedLines range={range} axis={axis} />
        </ZIndexLayer>
      </ComposedChart>
    </CurvesContext>
  );
}

function ComparedLines({ range, axis }: { range: TickRange; axis: ValueAxis }) {
  const curves = useContext(CurvesContext);
  const area = usePlotArea();
  const clip = useId();
  if (area === undefined || curves === null) return null;
  const across = area.width / (range.toTick - range.fromTick);
  const up = area.height / (axis.high - axis.low);
  const y = (amps: number) => area.y + (axis.high - amps) * up;
  return (
    <g>
      <clipPath id={clip}>
        <rect x={area.x} y={area.y - 2} width={area.width} height={area.height + 4} />
      </clipPath>
      <g clipPath={`url(#${clip})`} strokeLinejoin="round">
        {curves.time.runs.map(({ id, shiftTicks }, i) => {
          const window = curves.windows.get(id);
          if (window === undefined) return null;
          const x = (tick: number) => area.x + (tick + shiftTicks - range.fromTick) * across;
          const columns = { min: window.ampsMin, max: window.ampsMax, mean: window.ampsMean };
          const { line, band } = tracePaths(window, columns, { x, y });
          return (
            <g key={id} className={`compared compared-${i}`} data-testid="compared-run">
              <path d={band} className="compared-band" />
              <path d={line} className="compared-line" strokeDasharray={RUN_DASHES[i]} />
            </g>
          );
        })}
      </g>
    </g>
  );
}
