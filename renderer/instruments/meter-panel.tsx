import type { MeterState } from '../../core/contract/bench-calls.ts';
import { readingParts } from '../../core/units/format-reading.ts';
import { shownDecimals } from '../parts/shown-decimals.ts';
import { useActions } from '../state/use-desk.ts';
import { LinkWords } from './link-words.tsx';

const QUANTITIES = [
  ['volts', 'Volts'],
  ['ohms', 'Ohms'],
  ['diode', 'Diode'],
  ['continuity', 'Continuity'],
] as const;

/** The meter's newest reading and its function. */
export function MeterPanel({ meter }: { meter: MeterState }) {
  const { ask } = useActions();
  const parts = readingParts({
    quantity: meter.quantity ?? 'volts',
    value: meter.value,
    overload: meter.overload,
    decimals: shownDecimals(meter.quantity ?? 'volts', meter.decimals),
  });
  return (
    <>
      <h1>Meter</h1>
      <LinkWords {...meter} />
      {meter.link === 'live' && (
        <>
          <p className="meter-number">
            <span>{parts.number}</span> <span className="meter-unit">{parts.unit}</span>
          </p>
          <fieldset className="segments">
            <legend>Function</legend>
            {QUANTITIES.map(([quantity, words]) => (
              <button
                key={quantity}
                type="button"
                className="segment"
                aria-pressed={meter.quantity === quantity}
                onClick={() => void ask('meterFunction', { quantity })}
              >
                {words}
              </button>
            ))}
          </fieldset>
        </>
      )}
    </>
  );
}
