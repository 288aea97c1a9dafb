import { formatQuantity } from '../../core/units/format.ts';
import { useDeskState } from '../state/use-desk.ts';

/** How the supply is, on every view: off the sheet the output must not be forgotten. */
export function SupplyWord() {
  const supply = useDeskState((state) => state.bench?.supply ?? null);
  const view = useDeskState((state) => state.view);
  if (supply === null || view === 'sheet') return <p className="supply-word" />;
  if (supply.link === 'lost') return <p className="supply-word">Supply lost</p>;
  if (supply.link !== 'live') return <p className="supply-word quiet">No supply</p>;
  if (supply.outputOn !== true) return <p className="supply-word quiet">Output is off</p>;
  return (
    <p className="supply-word">
      <strong className="amps">
        {formatQuantity(supply.amps, 'A', supply.ampsDecimals, { prefix: 0 })}
      </strong>{' '}
      <strong className="volts">
        {formatQuantity(supply.volts, 'V', supply.voltsDecimals, { prefix: 0 })}
      </strong>
    </p>
  );
}
