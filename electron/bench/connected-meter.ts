import { type Meter, type MeterReading, openMeter } from '../../core/instruments/meter.ts';
import type { MeterDialect } from '../../core/instruments/meter-dialect.ts';
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
  // Coming back to the same instrument need not find it out again.
  let found: MeterDialect | undefined;
  return connectInstrument(
    options,
    (session) =>
      openMeter(session, {
        known: book?.meter(session.identity) ?? found,
        onDialect(dialect) {
          found = dialect;
          book?.keepMeter(session.identity, dialect);
        },
      }),
    (meter) => meter.read(),
    (reading) => reading,
  );
}
