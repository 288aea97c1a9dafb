import type { SupplyState } from '../../core/contract/bench-calls.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { LinkWords } from './link-words.tsx';

/** The supply's newest reading and what it can do. */
export function SupplyPanel({ supply }: { supply: SupplyState }) {
  const amps = (value: number | null) =>
    formatQuantity(value, 'A', supply.ampsDecimals, { prefix: 0 });
  const volts = (value: number | null) =>
    formatQuantity(value, 'V', supply.voltsDecimals, { prefix: 0 });
  return (
    <>
      <h1>Supply</h1>
      <LinkWords {...supply} />
      {supply.link === 'live' && (
        <dl className="instrument-now">
          <div className="amps">
            <dt>Draw</dt>
            <dd>{amps(supply.amps)}</dd>
          </div>
          <div className="volts">
            <dt>Volts</dt>
            <dd>{volts(supply.volts)}</dd>
          </div>
          <div>
            <dt>Output</dt>
            <dd>{supply.outputOn === null ? '–' : supply.outputOn ? 'On' : 'Off'}</dd>
          </div>
          <div>
            <dt>Reaches</dt>
            <dd>
              {volts(supply.maxV)}, {amps(supply.maxA)}
            </dd>
          </div>
          <div>
            <dt>Read</dt>
            <dd>{supply.pollHz.toFixed(0)} times a second</dd>
          </div>
        </dl>
      )}
      {supply.link === 'live' && !supply.canSwitch && (
        <p>This supply can be read but not switched from here: use its own output key.</p>
      )}
    </>
  );
}
