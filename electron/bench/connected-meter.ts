import { type Meter, type MeterReading, openMeter } from '../../core/instruments/meter.ts';
import { type Connected, type ConnectOptions, connectInstrument } from './connected-instrument.ts';
import type { DialectBook } from './dialect-book.ts';

/**
 * Connects a meter by whatever way `open` opens, polls it and brings it back when lost. With a
 * book, it starts from the dialect kept for this identity and keeps what it finds.
 */
export function connectMeter(
  options: ConnectOptions<MeterReading>,
  book?: DialectBook,
): Promise<Connected<Meter>> {
  return connectInstrument(
    options,
    (session) =>
      openMeter(session, {
        known: book?.meter(session.identity),
        onDialect: (dialect) => book?.keepMeter(session.identity, dialect),
      }),
    (meter) => meter.read(),
    (reading) => reading,
  );
}
