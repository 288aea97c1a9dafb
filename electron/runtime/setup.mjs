// The first thing behind every npm script. Plain JavaScript for any Node from 18 on: on a fresh
// clone nothing is installed yet. Makes the machine ready, then hands over to Node 24 from
// node_modules: `node electron/runtime/setup.mjs SCRIPT.ts [arguments]`.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { readySystem } from './system-packages.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const stamp = path.join(root, 'node_modules', '.wakeline-lock');

function lockSum() {
  return createHash('sha256')
    .update(readFileSync(path.join(root, 'package-lock.json')))
    .digest('hex');
}

function readyModules() {
  const want = lockSum();
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === want) return;
  console.error('Installing packages (first start, or the lock file changed)');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const done = spawnSync(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (done.status !== 0) {
    console.error('npm could not install the packages. Check the network, then run this again.');
    process.exit(1);
  }
  writeFileSync(stamp, want);
}

const [script, ...rest] = process.argv.slice(2);
if (!script) {
  console.error('usage: node electron/runtime/setup.mjs SCRIPT.ts [arguments]');
  process.exit(2);
}
const wants = script.includes('cli/') ? 'nothing' : script.includes('start') ? 'window' : 'all';
readyModules();
readySystem(wants);
const bin = path.join(root, 'node_modules', '.bin');
const node = path.join(root, 'node_modules', 'node', 'bin', 'node');
const ran = spawnSync(
  existsSync(node) ? node : process.execPath,
  [path.join(root, script), ...rest],
  {
    stdio: 'inherit',
    env: { ...process.env, PATH: `${bin}${path.delimiter}${process.env.PATH}` },
  },
);
if (ran.signal) process.kill(process.pid, ran.signal);
process.exit(ran.status ?? 1);
