import { openSupply, type Supply, type SupplyReading } from '../../core/instruments/supply.ts';
import { type Connected, type ConnectOptions, connectInstrument } from './connected-instrument.ts';

/** Connects a supply by whatever way `open` opens, polls it and brings it back when lost. */
export function connectSupply(options: ConnectOptions<SupplyReading>): Promise<Connected<Supply>> {
  return connectInstrument(
    options,
    (session) => openSupply(session),
    (supply) => supply.read(),
    (reading) => reading,
  );
}
