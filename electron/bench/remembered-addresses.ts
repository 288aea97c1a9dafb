import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import {
  type InstrumentAddress,
  type InstrumentRole,
  instrumentAddress,
} from '../../core/contract/bench-calls.ts';

const schema = z.object({
  supply: instrumentAddress.nullable(),
  meter: instrumentAddress.nullable(),
});

/** Which instrument was chosen last for each role. */
export type RememberedAddresses = Readonly<Record<InstrumentRole, InstrumentAddress | null>>;

/** Until somebody chooses, the app works on the pretend bench. */
const FIRST: RememberedAddresses = { supply: { by: 'pretend' }, meter: { by: 'pretend' } };

/** Reads what was chosen; a missing or unreadable file counts as nothing chosen yet. */
export function readAddresses(path: string): RememberedAddresses {
  if (!existsSync(path)) return FIRST;
  try {
    return schema.parse(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return FIRST;
  }
}

/** Keeps what was chosen, whole or not at all. */
export function keepAddresses(path: string, addresses: RememberedAddresses): void {
  writeFileSync(`${path}.new`, JSON.stringify(addresses, null, 2));
  renameSync(`${path}.new`, path);
}
