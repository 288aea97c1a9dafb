// What the window and the tests need of the system on Debian, and how to get it. Plain JavaScript:
// it runs before anything is installed.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

/** Each need: how to see that it is met, and the Debian package that meets it. */
const WINDOW = [
  ['program Xvfb', 'xvfb'],
  ['program xauth', 'xauth'],
  ['library libgtk-3.so.0', 'libgtk-3-0'],
  ['library libnss3.so', 'libnss3'],
  ['library libgbm.so.1', 'libgbm1'],
  ['library libasound.so.2', 'libasound2'],
  ['program udevadm', 'udev'],
];
/** To build SQLite for an Electron older than the shipped binary. */
const BUILD = [
  ['program g++', 'g++'],
  ['program make', 'make'],
  ['program python3', 'python3'],
];
const TESTS = [
  ['program socat', 'socat'],
  ['program pdftoppm', 'poppler-utils'],
  ['program ngspice', 'ngspice'],
  ['program zbarimg', 'zbar-tools'],
  ['file /usr/lib/python3/dist-packages/pyvisa/__init__.py', 'python3-pyvisa'],
  ['file /usr/lib/python3/dist-packages/pyvisa_py/__init__.py', 'python3-pyvisa-py'],
  ['file /usr/lib/python3/dist-packages/serial/__init__.py', 'python3-serial'],
];

function isMet(need) {
  const [kind, what] = need.split(' ');
  if (kind === 'file') return existsSync(what);
  if (kind === 'program') return spawnSync('sh', ['-c', `command -v ${what}`]).status === 0;
  return libraries().includes(what);
}

let libraryList;
function libraries() {
  if (libraryList === undefined) {
    const ldconfig = existsSync('/sbin/ldconfig') ? '/sbin/ldconfig' : 'ldconfig';
    libraryList = execFileSync(ldconfig, ['-p'], { encoding: 'utf8' });
  }
  return libraryList;
}

/**
 * Installs what is missing when it may (root on a system with apt), else prints the one line to
 * run. `wants` is `nothing`, `window` or `all`.
 */
export function readySystem(wants) {
  if (process.platform !== 'linux' || wants === 'nothing') return;
  const needs = wants === 'all' ? [...WINDOW, ...BUILD, ...TESTS] : [...WINDOW, ...BUILD];
  const missing = needs.filter(([need]) => !isMet(need)).map(([, name]) => name);
  if (missing.length === 0) return;
  const hasApt = existsSync('/usr/bin/apt-get');
  if (!hasApt || process.getuid?.() !== 0) {
    console.error(
      `Missing system packages. On Debian run: sudo apt-get install ${missing.join(' ')}`,
    );
    return;
  }
  console.error(`Installing system packages: ${missing.join(' ')}`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  spawnSync('apt-get', ['update', '-qq'], { stdio: ['ignore', 2, 2], env });
  const done = spawnSync(
    'apt-get',
    ['install', '-y', '-qq', '--no-install-recommends', ...missing],
    {
      stdio: ['ignore', 'ignore', 2],
      env,
    },
  );
  if (done.status !== 0) {
    console.error(`That did not work. Run by hand: apt-get install ${missing.join(' ')}`);
  }
}
