import { z } from 'zod';
import type { Session } from '../scpi/session.ts';
import { dialectMessage, inChannel, type SupplyDialect } from './supply-dialect.ts';

/**
 * How one supply is switched off by somebody who has never talked to it: plain data, so that it
 * can be handed to another process while everything is well. There is no message in it that
 * switches on or sets a number.
 */
export const switchOff = z.strictObject({
  /** What `*IDN?` said: a read-back is believed from this instrument only. */
  identity: z.string().max(400),
  /** Selects the channel first, on supplies with one selected channel. */
  select: dialectMessage.nullable(),
  off: dialectMessage,
  /** Takes remote control; sent only after an OFF that did not work. */
  takeRemote: dialectMessage.nullable(),
  /** Asks whether the output is on; null = it cannot tell. */
  askOutput: dialectMessage.nullable(),
  pauseMs: z.number().min(0).max(2000),
  messageEnd: z.enum(['\n', '\r', '\r\n', '']),
  replyEnd: z.enum(['lf', 'cr', 'quiet']),
});
export type SwitchOff = z.infer<typeof switchOff>;

/** The way to switch off this supply as it is spoken to now; null when it cannot switch. */
export function switchOffOf(session: Session, dialect: SupplyDialect): SwitchOff | null {
  if (dialect.outputOff === null) return null;
  const inFull = (message: string | null) =>
    message === null ? null : inChannel(message, dialect);
  return {
    identity: session.identity,
    select: dialect.channel.form === 'select' ? inFull(dialect.selectChannel) : null,
    off: inChannel(dialect.outputOff, dialect),
    takeRemote: dialect.takeRemote,
    askOutput: inFull(dialect.askOutput),
    pauseMs: session.pauseMs,
    ...session.framing,
  };
}
