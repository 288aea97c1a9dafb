import { quantityParts, UNKNOWN } from '../../core/units/format.ts';
import type { Unit } from '../../core/units/unit.ts';

interface Props {
  readonly name: string;
  readonly kind: 'amps' | 'volts' | 'watts';
  readonly value: number | null;
  readonly unit: Unit;
  readonly decimals: number;
  /** What stands beside it in small. */
  readonly aside: string;
  readonly testId: string;
}

/** One of the numbers that are read from a metre away. */
export function BigNumber({ name, kind, value, unit, decimals, aside, testId }: Props) {
  const parts = quantityParts(value, unit, decimals, { prefix: 0 });
  return (
    <div className={`readout readout-${kind}`} data-testid={testId}>
      <dt>{name}</dt>
      <dd>
        <span className="readout-number" data-known={parts.number !== UNKNOWN}>
          {parts.number}
        </span>
        <span className="readout-unit">{parts.unit || unit}</span>
        <span className="readout-aside">{aside}</span>
      </dd>
    </div>
  );
}
