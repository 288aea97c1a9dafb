import type { InstrumentAddress } from '../../core/contract/bench-calls.ts';

interface Typed {
  readonly path: string;
  readonly baud: string;
  readonly host: string;
  readonly port: string;
}

/** The address that was typed, or what is missing, in words. */
export function addressFrom(by: InstrumentAddress['by'], typed: Typed): InstrumentAddress | string {
  if (by === 'pretend') return { by };
  if (by === 'serial') {
    const path = typed.path.trim();
    if (path === '') return 'Which port? Choose one that is seen, or type its path.';
    return { by, path, baud: Number(typed.baud) };
  }
  const host = typed.host.trim();
  const port = Number(typed.port);
  if (host === '') return 'Which host? Type its name or number, like 192.168.0.20.';
  if (!Number.isInteger(port) || port < 1 || port > 65_535) {
    return 'A port number lies between 1 and 65535; SCPI instruments often use 5025.';
  }
  return { by, host, port };
}
