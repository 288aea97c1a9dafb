import { useDeskState } from '../state/use-desk.ts';
import { Readouts } from './readouts.tsx';

/** What the supply reads now. What a lost supply read last is not what it reads now. */
export function LiveReadouts() {
  const supply = useDeskState((state) => state.bench?.supply ?? null);
  const now = supply?.link === 'live' ? supply : null;
  return (
    <Readouts
      isLive={now?.outputOn === true}
      volts={now?.volts ?? null}
      amps={now?.amps ?? null}
      regulation={now?.regulation ?? null}
      setV={supply?.setV ?? null}
      limitA={supply?.limitA ?? null}
      voltsDecimals={supply?.voltsDecimals ?? 2}
      ampsDecimals={supply?.ampsDecimals ?? 3}
    />
  );
}
