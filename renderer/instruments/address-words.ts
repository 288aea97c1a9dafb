import type { InstrumentAddress } from '../../core/contract/bench-calls.ts';

/** What a person calls the place an instrument is at. */
export function addressWords(address: InstrumentAddress | null): string {
  if (address === null) return 'nowhere';
  if (address.by === 'pretend') return 'the pretend bench';
  if (address.by === 'tcp') return `${address.host}:${address.port}`;
  return `${address.path}, ${address.baud} baud`;
}
