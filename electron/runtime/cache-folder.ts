import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';

/**
 * The folder outside the checkout where downloaded and built runtime parts are kept, so that a
 * second clone on the same machine needs neither. `WAKELINE_CACHE` overrides it.
 */
export function cacheFolder(): string {
  const base =
    process.env.WAKELINE_CACHE ??
    path.join(process.env.XDG_CACHE_HOME ?? path.join(homedir(), '.cache'), 'wakeline');
  mkdirSync(base, { recursive: true });
  return base;
}
