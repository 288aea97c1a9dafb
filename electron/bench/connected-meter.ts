import { type Meter, type MeterReading, openMeter } from '../../core/instruments/meter.ts';
import { type Connected, type ConnectOptions, connectInstrument } from './connected-instrument.ts';

/** Connects a meter by whatever way `open` opens, polls it and brings it back when lost. */
export function connectMeter(options: ConnectOptions<MeterReading>): Promise<Connected<Meter>> {
  return connectInstrument(
    options,
    (session) => openMeter(session),
    (meter) => meter.read(),
    (reading) => reading,
  );
}
