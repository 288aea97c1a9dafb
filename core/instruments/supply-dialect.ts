import { z } from 'zod';

/**
 * A message as data, without a leading colon. `{value}` stands for the number that is set,
 * `{channel}` for the channel's number. Nothing else is replaced and nothing is computed.
 */
export const dialectMessage = z
  .string()
  .regex(/^[\x20-\x7e]{1,80}$/, 'must be one line of printable ASCII, 1 to 80 characters');

/**
 * How a register tells what the supply regulates: which bits mean constant volts, which constant
 * current. The codings found in the field contradict each other (the same 1 means constant
 * current on one supply and constant volts on another): learned or written down, never assumed.
 */
export const registerCoding = z.strictObject({
  cvMask: z.number().int().min(1).max(0xffff),
  ccMask: z.number().int().min(1).max(0xffff),
});
export type RegisterCoding = z.infer<typeof registerCoding>;

const toldBy = z.discriminatedUnion('by', [
  /** A register with a known coding. */
  z.strictObject({ by: z.literal('register'), ask: dialectMessage, coding: registerCoding }),
  /** A query that answers CV, CC, UR or OFF. */
  z.strictObject({ by: z.literal('mode'), ask: dialectMessage }),
  /** Registers answer, their coding is not known yet: learned from readings that leave no doubt. */
  z.strictObject({ by: z.literal('learning'), asks: z.array(dialectMessage).min(1).max(6) }),
  /** Only readings and set-points tell. */
  z.strictObject({ by: z.literal('inferred') }),
]);
export type RegulationTold = z.infer<typeof toldBy>;

/** How one kind of supply is spoken to. Null = it has no such command. At least one way to measure. */
const fields = z.strictObject({
  key: z.string().regex(/^[a-z0-9-]{1,40}$/, 'must be 1 to 40 of a-z, 0-9 and -'),
  about: z.string().max(300),
  /**
   * `none` = one channel; `list` = a channel list `(@1)` after the header; `suffix` = a number in
   * the header; `select` = one channel selected at a time, which must be the selected one.
   */
  channel: z.strictObject({
    form: z.enum(['none', 'list', 'suffix', 'select']),
    number: z.number().int().min(1).max(64),
  }),
  measureVolts: dialectMessage.nullable(),
  measureAmps: dialectMessage.nullable(),
  /** Measures volts, amps and perhaps watts in one answer, in that order. */
  measureBoth: dialectMessage.nullable().default(null),
  setVolts: dialectMessage.nullable(),
  setAmps: dialectMessage.nullable(),
  askSetVolts: dialectMessage.nullable(),
  askSetAmps: dialectMessage.nullable(),
  /** Asks both set-points at once, where each alone is not answered. */
  askApplied: dialectMessage.nullable().default(null),
  askMaxVolts: dialectMessage.nullable(),
  askMaxAmps: dialectMessage.nullable(),
  outputOn: dialectMessage.nullable(),
  outputOff: dialectMessage.nullable(),
  askOutput: dialectMessage.nullable(),
  /** With form `select`: selects the channel, and tells which one is selected. */
  selectChannel: dialectMessage.nullable(),
  askChannel: dialectMessage.nullable(),
  /** Takes remote control. Sent only when a set was refused for want of it. */
  takeRemote: dialectMessage.nullable(),
  regulation: toldBy,
  /**
   * `full` = several queries in one message, each with a full header after a colon; `bare` = the
   * same without colons, for parsers that begin anew at each semicolon; `relative` = the second
   * header continues the first one's path; `separate` = one query a message.
   */
  compound: z.enum(['full', 'bare', 'relative', 'separate']),
  /** Whether `SYST:ERR?` is answered. */
  errorQueue: z.boolean(),
  /** Pause between messages in milliseconds. */
  pauseMs: z.number().min(0).max(2000),
});
export const supplyDialect = fields.refine(
  (dialect) =>
    dialect.measureBoth !== null || (dialect.measureVolts !== null && dialect.measureAmps !== null),
  {
    path: ['measureVolts'],
    message: 'measureVolts and measureAmps, or measureBoth, must be given',
  },
);
export type SupplyDialect = z.infer<typeof supplyDialect>;

/** The message with its channel put in. */
export function inChannel(message: string, dialect: SupplyDialect): string {
  return message.replaceAll('{channel}', String(dialect.channel.number));
}
