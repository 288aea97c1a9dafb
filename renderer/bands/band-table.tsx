import { useContext } from 'react';
import { BAND_STEP_S } from '../../core/bands/known-good-band.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { HeadedTable } from '../parts/headed-table.tsx';
import { clockWords } from '../trace/time-ticks.ts';
import { BandContext } from './band-context.ts';

/** Seconds between the rows: what a person would read out. */
const EVERY_S = 2;
const MOST_ROWS = 30;

/** The known-good band as numbers, for people who do not see it. */
export function BandTable() {
  const shown = useContext(BandContext);
  if (shown === null) return null;
  const { low, high } = shown.variant;
  const step = Math.round(EVERY_S / BAND_STEP_S);
  const rows = Array.from(low.keys()).filter((i) => i % step === 0 && !Number.isNaN(low[i]!));
  const amps = (value: number) =>
    formatQuantity(Math.max(0, value * shown.toAmps), 'A', null, { digits: 2 });
  return (
    <HeadedTable caption="Known-good band" heads={['At', 'From', 'To']}>
      {rows.slice(0, MOST_ROWS).map((i) => (
        <tr key={i}>
          <td>{clockWords(shown.startTick + (i + 0.5) * BAND_STEP_S * TICKS_PER_SECOND, 1)}</td>
          <td>{amps(low[i]!)}</td>
          <td>{amps(high[i]!)}</td>
        </tr>
      ))}
    </HeadedTable>
  );
}
