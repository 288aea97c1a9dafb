import { z } from 'zod';
import { type InstrumentRole, instrumentRole } from './bench-calls.ts';
import { answers } from './call.ts';
import { line } from './fields.ts';

/** Who was found on a port or address, by questions only. */
export interface InstrumentFound {
  /** Null for a network address. */
  readonly baud: number | null;
  readonly identity: string;
  readonly role: InstrumentRole;
  readonly dialect: string;
  readonly canSwitch: boolean;
  /** Readings a second when asked without a pause. */
  readonly rateHz: number;
  /** A live reading in words. */
  readonly reading: string;
}

/** Calls that find things out about instruments: answered by main. */
export const setupCalls = {
  /** Asks who is there at the usual speeds. Throws the most telling trouble when nobody is. */
  askWhoIsThere: answers<InstrumentFound>()(
    z.discriminatedUnion('by', [
      z.object({ by: z.literal('serial'), path: line.min(1) }),
      z.object({
        by: z.literal('tcp'),
        host: line.min(1),
        port: z.number().int().min(1).max(65_535),
      }),
    ]),
  ),
  /** Writes every byte of the last minutes to a file the person chooses. Null = changed their mind. */
  saveByteLog: answers<{ readonly path: string } | null>()(z.object({ role: instrumentRole })),
} as const;
