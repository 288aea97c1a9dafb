import { splitPower } from '../../core/shorts/kelvin.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { BigNumber } from '../parts/big-number.tsx';
import { useDeskState } from '../state/use-desk.ts';

interface Props {
  readonly leadOhm: number | null;
  /** The meter's probes are across the board where the leads are: its volts count, by four wires. */
  readonly isMeterAcross: boolean;
}

/** What flows and where its power goes: read from a metre away, over a microscope. */
export function InjectionReadouts({ leadOhm, isMeterAcross }: Props) {
  const supply = useDeskState((state) => state.bench?.supply ?? null);
  const meterV = useDeskState(({ bench }) =>
    isMeterAcross && bench?.meter.link === 'live' && bench.meter.quantity === 'volts'
      ? bench.meter.value
      : null,
  );
  const isLive = supply?.link === 'live';
  const volts = isLive ? supply.volts : null;
  const amps = isLive ? supply.amps : null;
  const isOn = supply?.outputOn === true;
  const isKnown = leadOhm !== null || meterV !== null;
  const split =
    isOn && volts !== null && amps !== null && isKnown
      ? splitPower(volts, amps, leadOhm ?? 0, meterV)
      : null;
  const ohm =
    split === null ? '' : `board ${formatQuantity(split.boardOhm, 'Ω', null, { digits: 2 })}`;
  const leadsW = split === null ? '' : formatQuantity(split.leadsW, 'W', null, { digits: 2 });
  return (
    <dl className="readouts injection-readouts" aria-label="Current put in" data-live={isOn}>
      <BigNumber
        name="Current"
        testId="injected-amps"
        kind="amps"
        value={amps}
        unit="A"
        decimals={supply?.ampsDecimals ?? 3}
        aside={`limit ${formatQuantity(supply?.limitA ?? null, 'A', null, { prefix: 0 })}`}
      />
      <BigNumber
        name={meterV === null ? 'Volts at the supply' : 'Volts at the board'}
        testId="injected-volts"
        kind="volts"
        value={meterV ?? volts}
        unit="V"
        decimals={meterV === null ? (supply?.voltsDecimals ?? 3) : 4}
        aside={ohm}
      />
      <BigNumber
        name={isKnown ? 'Power in the board' : 'Power, leads and board'}
        testId="injected-watts"
        kind="watts"
        value={split?.boardW ?? (isOn && volts !== null && amps !== null ? volts * amps : null)}
        unit="W"
        decimals={3}
        aside={isKnown ? (leadsW === '' ? '' : `leads ${leadsW}`) : 'leads not known'}
      />
    </dl>
  );
}
