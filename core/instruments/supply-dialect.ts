import { z } from 'zod';

/** A message as data. `{value}` stands for the number that is set, `{channel}` for the channel. */
const message = z.string().regex(/^[\x20-\x7e]{1,80}$/, 'one line of printable ASCII, at most 80');

/**
 * How a register tells what the supply regulates: which bits mean constant volts, which constant
 * current. The codings found in the field contradict each other (the same 1 means CC on one
 * supply and CV on another), so which one holds is learned or written down, never assumed.
 */
export const registerCoding = z.strictObject({
  cvMask: z.number().int().min(1).max(0xffff),
  ccMask: z.number().int().min(1).max(0xffff),
});
export type RegisterCoding = z.infer<typeof registerCoding>;

const regulation = z.discriminatedUnion('by', [
  z.strictObject({ by: z.literal('register'), ask: message, coding: registerCoding.nullable() }),
  z.strictObject({ by: z.literal('mode'), ask: message }),
  z.strictObject({ by: z.literal('inferred') }),
]);
export type RegulationTold = z.infer<typeof regulation>;

/** How one kind of supply is spoken to. Null = it has no such command. */
export const supplyDialect = z.strictObject({
  /** Short name, unique. */
  key: z.string().regex(/^[a-z0-9-]{1,40}$/),
  about: z.string().max(300),
  channel: z.strictObject({
    form: z.enum(['none', 'list', 'suffix', 'select']),
    number: z.number().int().min(1).max(64),
  }),
  measureVolts: message,
  measureAmps: message,
  setVolts: message.nullable(),
  setAmps: message.nullable(),
  askSetVolts: message.nullable(),
  askSetAmps: message.nullable(),
  askMaxVolts: message.nullable(),
  askMaxAmps: message.nullable(),
  outputOn: message.nullable(),
  outputOff: message.nullable(),
  askOutput: message.nullable(),
  /** Selects the channel before a set, for supplies with one channel in hand at a time. */
  selectChannel: message.nullable(),
  askChannel: message.nullable(),
  /** Takes remote control, sent only when a set was refused for want of it. */
  takeRemote: message.nullable(),
  regulation,
  /**
   * `full` = several queries in one message, each with its full header; `relative` = the second
   * header continues the first one's path; `separate` = one query a message.
   */
  compound: z.enum(['full', 'relative', 'separate']),
  /** Whether `SYST:ERR?` is answered. */
  errorQueue: z.boolean(),
  /** Pause between messages in milliseconds. */
  pauseMs: z.number().min(0).max(2000),
});
export type SupplyDialect = z.infer<typeof supplyDialect>;
