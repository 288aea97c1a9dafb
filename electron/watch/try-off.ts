import type { InstrumentAddress } from '../../core/contract/bench-calls.ts';
import { type OffResult, sendOff } from '../../core/instruments/send-off.ts';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import type { WatchedSupply } from './watch-lines.ts';

/** One try at one supply. */
export interface OffTry {
  readonly result: OffResult | 'not-opened';
  readonly offMs: number | null;
  /** The way to it is held by somebody: it exists and could not be opened, or does not answer. */
  readonly isHeld: boolean;
}

/** A way that outlives main; the pretend bench inside the app has none. */
export type Way = Exclude<InstrumentAddress, { by: 'pretend' }>;
export type OpenWay = (address: Way) => Promise<ByteLink>;

/**
 * Opens the way to a supply and tells it to switch off; where its port is gone, or another
 * instrument answers there, by the port's other names.
 */
export async function tryOff(supply: WatchedSupply, clock: Clock, open: OpenWay): Promise<OffTry> {
  // Inside the app itself: there is nothing that outlives main.
  if (supply.address.by === 'pretend') return { result: 'told', offMs: null, isHeld: false };
  let last: OffTry = { result: 'not-opened', offMs: null, isHeld: false };
  for (const address of waysTo(supply.address, supply.also)) {
    const tried = await tryWay(address, supply, clock, open);
    if (tried.result === 'read-back-off' || tried.result === 'told') return tried;
    if (last.result === 'not-opened') last = tried;
  }
  return last;
}

function waysTo(address: Way, also: readonly string[]): readonly Way[] {
  if (address.by !== 'serial') return [address];
  return [address, ...also.map((path) => ({ ...address, path }))];
}

async function tryWay(
  address: Way,
  supply: WatchedSupply,
  clock: Clock,
  open: OpenWay,
): Promise<OffTry> {
  let link: ByteLink;
  try {
    link = await open(address);
  } catch (thrown) {
    const why = String((thrown as { cause?: unknown }).cause ?? thrown);
    const isHeld = /lock|busy|access denied|ECONNREFUSED|ETIMEDOUT|no connection/i.test(why);
    return { result: 'not-opened', offMs: null, isHeld };
  }
  try {
    const { result, offMs } = await sendOff(link, clock, supply.how);
    return { result, offMs: Number.isNaN(offMs) ? null : offMs, isHeld: result === 'silent' };
  } catch {
    // Gone while it was being told: a cable that was pulled, or a supply that serves one client
    // only and hangs up on the second.
    return { result: 'silent', offMs: null, isHeld: address.by === 'tcp' };
  } finally {
    await link.close();
  }
}
