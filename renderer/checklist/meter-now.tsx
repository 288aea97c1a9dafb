import { readingParts } from '../../core/units/format-reading.ts';
import { shownDecimals } from '../../core/units/shown-decimals.ts';
import { useDeskState } from '../state/use-desk.ts';

/** What the meter shows now, large; a dash when it shows nothing. */
export function MeterNow() {
  const meter = useDeskState((state) => state.bench?.meter ?? null);
  const quantity = meter?.quantity ?? 'volts';
  const parts = readingParts({
    quantity,
    value: meter?.link === 'live' ? meter.value : null,
    overload: meter?.link === 'live' && meter.overload,
    decimals: shownDecimals(quantity, meter?.decimals ?? 0, meter?.value ?? null),
  });
  return (
    <p className="meter-number" data-testid="meter-reading">
      <span>{parts.number}</span> <span className="meter-unit">{parts.unit}</span>
    </p>
  );
}
