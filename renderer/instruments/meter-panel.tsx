import type { MeterState } from '../../core/contract/bench-calls.ts';
import { MeterNow } from '../checklist/meter-now.tsx';
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
  return (
    <>
      <h1>Meter</h1>
      <LinkWords {...meter} />
      {meter.link === 'live' && (
        <>
          <MeterNow />
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
