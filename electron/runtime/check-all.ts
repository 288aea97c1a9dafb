import { spawnSync } from 'node:child_process';
import { appFolder } from './ready.ts';

/** Format, lint, types, unit tests: what every commit passes first. Stops at the first failure. */
const STEPS: readonly (readonly [string, ...string[]])[] = [
  ['biome', 'check', '--error-on-warnings', '.'],
  ['tsc', '-p', 'core'],
  ['tsc', '-p', 'electron'],
  ['tsc', '-p', 'renderer'],
  ['tsc', '-p', 'tests'],
  ['vitest', 'run'],
];

for (const [command, ...args] of STEPS) {
  console.log(`\n== ${command} ${args.join(' ')}`);
  const ran = spawnSync(command, args, { cwd: appFolder, stdio: 'inherit' });
  if (ran.status !== 0) process.exit(ran.status ?? 1);
}
