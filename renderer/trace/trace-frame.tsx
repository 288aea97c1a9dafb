import { memo, useRef } from 'react';
import { CartesianGrid, ComposedChart, ReferenceLine, XAxis, YAxis, ZIndexLayer } from 'recharts';
import type { Mark } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { gridLines, PLOT } from './grid-lines.ts';
import { MarkFlags } from './mark-flags.tsx';
import { SideLabel } from './side-label.tsx';
import { clockWords, timeTicks } from './time-ticks.ts';
import { TraceLines } from './trace-lines.tsx';
import { ampsDomain, axisTicks, tickDecimals, type ValueAxis, voltsDomain } from './value-axis.ts';

const ABOVE_REFERENCES = 500;
const LABEL_HEIGHT = 34;
const TICK_STYLE = { fontSize: 13, fill: 'var(--quiet)' } as const;

interface Props {
  readonly width: number;
  readonly height: number;
  readonly fromTick: number;
  readonly toTick: number;
  readonly ampsAxis: ValueAxis;
  readonly voltsAxis: ValueAxis;
  readonly limitA: number | null;
  readonly setV: number | null;
  readonly runningA: number | null;
  readonly marks: readonly Mark[];
}

/**
 * Axes, grid and reference lines by Recharts. The curves inside are our own paths and draw
 * themselves: the frame is laid out again only when an axis or a mark moves.
 */
export const TraceFrame = memo(function TraceFrame(props: Props) {
  const { width, height, fromTick, toTick, ampsAxis, voltsAxis, limitA, setV, runningA } = props;
  const range = { fromTick, toTick };
  const times = timeTicks(range, Math.max(3, Math.floor(width / 120)));
  const timeDecimals = (times[1] ?? TICKS_PER_SECOND) - (times[0] ?? 0) < TICKS_PER_SECOND ? 2 : 0;
  const ampsTicks = axisTicks(ampsAxis, Math.max(2, Math.floor(height / 80)));
  const voltsTicks = axisTicks(voltsAxis, height > 260 ? 3 : height > 200 ? 2 : 1);
  const [ampsLow, ampsHigh] = ampsDomain(ampsAxis);
  // Nearer than this, two labels would stand in each other.
  const isApart =
    limitA === null ||
    runningA === null ||
    Math.abs(limitA - runningA) * (height / (ampsHigh - ampsLow)) > LABEL_HEIGHT;
  const ends = useRef([{ tick: 0 }]);

  return (
    <ComposedChart
      width={width}
      height={height}
      data={ends.current}
      margin={{ top: PLOT.top, right: 0, bottom: 0, left: 0 }}
      accessibilityLayer={false}
    >
      <CartesianGrid
        stroke="var(--hairline)"
        horizontalPoints={[
          ...gridLines(ampsTicks, [ampsLow, ampsHigh], height),
          ...gridLines(voltsTicks, voltsDomain(voltsAxis), height),
        ]}
      />
      <XAxis
        dataKey="tick"
        type="number"
        domain={[fromTick, toTick]}
        ticks={times}
        interval={0}
        allowDataOverflow
        height={PLOT.bottom}
        tickFormatter={(tick: number) => clockWords(tick, timeDecimals)}
        tick={TICK_STYLE}
        tickLine={false}
        axisLine={{ stroke: 'var(--edge)' }}
      />
      <YAxis
        yAxisId="amps"
        width={PLOT.left}
        domain={[ampsLow, ampsHigh]}
        ticks={ampsTicks}
        tickFormatter={tickWords(ampsTicks, 'A')}
        {...valueAxisStyle('var(--amps)')}
      />
      <YAxis
        yAxisId="volts"
        orientation="right"
        width={PLOT.right}
        domain={voltsDomain(voltsAxis)}
        ticks={voltsTicks}
        tickFormatter={tickWords(voltsTicks, 'V')}
        {...valueAxisStyle('var(--volts)')}
      />
      {isOn(ampsAxis, runningA) && (
        <ReferenceLine
          yAxisId="amps"
          y={runningA}
          stroke="var(--edge)"
          strokeDasharray="2 5"
          {...(isApart && { label: sideLabel('runs at', runningA, 'var(--quiet)') })}
        />
      )}
      {isOn(ampsAxis, limitA) && (
        <ReferenceLine
          yAxisId="amps"
          y={limitA}
          stroke="var(--amps)"
          strokeDasharray="9 4"
          label={sideLabel('limit', limitA, 'var(--amps)')}
        />
      )}
      {isOn(voltsAxis, setV) && (
        <ReferenceLine
          yAxisId="volts"
          y={setV}
          stroke="var(--volts)"
          strokeDasharray="9 4"
          label={{
            value: `set ${formatQuantity(setV, 'V', null, { prefix: 0 })}`,
            position: 'insideBottomLeft',
            fontSize: 13,
            fill: 'var(--volts)',
          }}
        />
      )}
      <ZIndexLayer zIndex={ABOVE_REFERENCES}>
        <TraceLines range={range} ampsAxis={ampsAxis} voltsAxis={voltsAxis} />
        <MarkFlags range={range} marks={props.marks} />
      </ZIndexLayer>
    </ComposedChart>
  );
});

function valueAxisStyle(fill: string) {
  return {
    type: 'number' as const,
    interval: 0 as const,
    allowDataOverflow: true,
    tick: { ...TICK_STYLE, fill },
    tickLine: false,
    axisLine: false,
  };
}

function tickWords(ticks: readonly number[], unit: 'A' | 'V') {
  const decimals = tickDecimals(ticks);
  return (value: number) => formatQuantity(value, unit, decimals, { prefix: 0 });
}

function isOn(axis: ValueAxis, value: number | null): value is number {
  return value !== null && value >= axis.low && value <= axis.high;
}

function sideLabel(word: string, amps: number, fill: string) {
  const value = formatQuantity(amps, 'A', null, { prefix: 0 });
  return <SideLabel word={word} value={value} fill={fill} />;
}
