import type { PretendBench } from '../../core/bench-model/pretend-bench.ts';
import type { InstrumentAddress, InstrumentRole } from '../../core/contract/bench-calls.ts';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import { openPretendLink } from './pretend-link.ts';
import { openSerialLink } from './serial-link.ts';
import { openTcpLink } from './tcp-link.ts';

/** Opens the way to an instrument, whatever way that is. Throws `port-not-opened`. */
export function openLink(
  role: InstrumentRole,
  address: InstrumentAddress,
  pretend: () => PretendBench,
): Promise<ByteLink> {
  switch (address.by) {
    case 'serial':
      return openSerialLink(address.path, address.baud);
    case 'tcp':
      return openTcpLink(address.host, address.port);
    case 'pretend':
      return openPretendLink(pretend()[role], `pretend ${role}`);
  }
}
