import type { InstrumentRole } from '../../core/contract/bench-calls.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import { type ByteLog, byteLog } from './byte-log.ts';
import { type DialectBook, openDialectBook } from './dialect-book.ts';

/** What is kept of the lines to the instruments: how each is spoken to, and every recent byte. */
export interface InstrumentLines {
  readonly book: DialectBook;
  readonly logs: Readonly<Record<InstrumentRole, ByteLog>>;
}

/** Opens the dialect files in `dialectFolder` and an empty byte log for each role. */
export function openInstrumentLines(o: {
  readonly dialectFolder: string;
  readonly clock: Clock;
  wallMs(): number;
}): InstrumentLines {
  const wallAt = (atMs: number) => o.wallMs() - (o.clock.nowMs() - atMs);
  return {
    book: openDialectBook(o.dialectFolder),
    logs: { supply: byteLog('supply', wallAt), meter: byteLog('meter', wallAt) },
  };
}
