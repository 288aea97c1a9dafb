import type { Regulation } from '../../core/trace/sample.ts';
import { formatQuantity, UNKNOWN } from '../../core/units/format.ts';
import { BigNumber } from '../parts/big-number.tsx';
import { wattsDecimals, wattsOf } from './watts.ts';

export interface ReadoutFacts {
  /** False while the output is off: the numbers step back. */
  readonly isLive: boolean;
  readonly volts: number | null;
  readonly amps: number | null;
  readonly regulation: Regulation | null;
  readonly setV: number | null;
  readonly limitA: number | null;
  readonly voltsDecimals: number;
  readonly ampsDecimals: number;
}

const REGULATION_WORDS: Readonly<Record<Regulation, { short: string; long: string }>> = {
  cv: { short: 'CV', long: 'holds the volts' },
  cc: { short: 'CC', long: 'holds the current' },
  off: { short: 'Off', long: 'output off' },
  unregulated: { short: 'UR', long: 'holds neither' },
};

/** The numbers that are read from a metre away. The draw is the largest. */
export function Readouts(facts: ReadoutFacts) {
  const { volts, amps, voltsDecimals, ampsDecimals, setV, limitA } = facts;
  const regulation = facts.regulation === null ? null : REGULATION_WORDS[facts.regulation];
  const decimals = wattsDecimals(setV ?? volts, limitA ?? amps, voltsDecimals, ampsDecimals);
  return (
    <dl className="readouts" aria-label="Readouts" data-live={facts.isLive}>
      <BigNumber
        name="Draw"
        testId="readout-amps"
        kind="amps"
        value={amps}
        unit="A"
        decimals={ampsDecimals}
        aside={`limit ${formatQuantity(limitA, 'A', ampsDecimals, { prefix: 0 })}`}
      />
      <BigNumber
        name="Volts"
        testId="readout-volts"
        kind="volts"
        value={volts}
        unit="V"
        decimals={voltsDecimals}
        aside={`set ${formatQuantity(setV, 'V', voltsDecimals, { prefix: 0 })}`}
      />
      <BigNumber
        name="Power"
        testId="readout-watts"
        kind="watts"
        value={wattsOf(volts, amps)}
        unit="W"
        decimals={decimals}
        aside=""
      />
      <div className="readout readout-regulation" data-regulation={facts.regulation ?? 'unknown'}>
        <dt>Regulation</dt>
        <dd>
          <span className="readout-number" data-known={regulation !== null}>
            {regulation?.short ?? UNKNOWN}
          </span>
          <span className="readout-aside">{regulation?.long ?? 'not told'}</span>
        </dd>
      </div>
    </dl>
  );
}
