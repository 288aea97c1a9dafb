import { z } from 'zod';

const message = z.string().regex(/^[\x20-\x7e]{1,80}$/, 'one line of printable ASCII, at most 80');

/** How one kind of meter is spoken to. Null = it has no such command. */
export const meterDialect = z.strictObject({
  key: z.string().regex(/^[a-z0-9-]{1,40}$/),
  about: z.string().max(300),
  /** Takes a reading in the function that the meter is in, without changing it. */
  read: message,
  /** Asks which function the meter is in. */
  askFunction: message.nullable(),
  configure: z.strictObject({
    volts: message.nullable(),
    ohms: message.nullable(),
    diode: message.nullable(),
    continuity: message.nullable(),
    amps: message.nullable(),
  }),
  takeRemote: message.nullable(),
  /** `full` = reading and function in one message; `separate` = one query a message. */
  compound: z.enum(['full', 'separate']),
  errorQueue: z.boolean(),
  pauseMs: z.number().min(0).max(2000),
});
export type MeterDialect = z.infer<typeof meterDialect>;
