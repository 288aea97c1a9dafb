import type { ChecklistItem, Quantity } from '../../core/job/job.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { MeterNow } from './meter-now.tsx';

export const QUANTITY_WORDS: Readonly<Record<Quantity, string>> = {
  volts: 'volts',
  ohms: 'ohms',
  diode: 'diode',
  continuity: 'continuity',
  amps: 'amps',
};

/** What the meter shows now, large, with the key that takes it. */
export function MeterReading({ item, onTake }: { item: ChecklistItem; onTake: () => void }) {
  const meter = useDeskState((state) => state.bench?.meter ?? null);
  const outputOn = useDeskState((state) => state.bench?.supply.outputOn === true);
  const { show } = useActions();
  const wanted = item.quantity ?? 'volts';
  const place = item.place === '' ? '' : ` at ${item.place}`;

  if (meter === null || meter.link !== 'live') {
    return (
      <p className="meter-none">
        {meter?.link === 'lost' ? 'The meter was lost.' : 'No meter is connected.'} Type the reading
        {place}, or{' '}
        <button type="button" className="in-text" onClick={() => show('instruments')}>
          connect a meter
        </button>
        .
      </p>
    );
  }
  const isPowerless = wanted === 'ohms' || wanted === 'diode' || wanted === 'continuity';
  if (isPowerless && outputOn) {
    return <p className="meter-none">Switch the output off first: {wanted} only on a dead rail.</p>;
  }
  const isWrongFunction = meter.quantity !== wanted;
  return (
    <div className="meter-reading">
      <p className="meter-where">
        {isWrongFunction
          ? `The meter is in ${meter.quantity === null ? 'no function' : QUANTITY_WORDS[meter.quantity]}`
          : `Meter, ${QUANTITY_WORDS[wanted]}${place}`}
      </p>
      <MeterNow />
      <button type="button" className="plain strong" onClick={onTake}>
        {isWrongFunction ? `Put it in ${QUANTITY_WORDS[wanted]}` : 'Take reading'}{' '}
        <KeyCap>R</KeyCap>
      </button>
    </div>
  );
}
