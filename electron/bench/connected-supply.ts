import { openSupply, type Supply, type SupplyReading } from '../../core/instruments/supply.ts';
import type { SupplyDialect } from '../../core/instruments/supply-dialect.ts';
import { type Connected, type ConnectOptions, connectInstrument } from './connected-instrument.ts';
import type { DialectBook } from './dialect-book.ts';

/**
 * Connects a supply by whatever way `open` opens, polls it and brings it back when lost. With a
 * book, it starts from the dialect kept for this identity and keeps what it finds.
 */
export function connectSupply(
  options: ConnectOptions<SupplyReading>,
  book?: DialectBook,
): Promise<Connected<Supply>> {
  // Coming back to the same instrument need not find it out again.
  let found: SupplyDialect | undefined;
  return connectInstrument(
    options,
    (session) =>
      openSupply(session, {
        known: book?.supply(session.identity) ?? found,
        onDialect(dialect) {
          found = dialect;
          book?.keepSupply(session.identity, dialect);
        },
      }),
    (supply) => supply.read(),
    (reading) => reading,
  );
}
