// A supply on standard input and output that goes over a limit again and again and times the OFF:
// from the last byte of the first reply that shows the overload to OUTP OFF read here. Both ways
// through the pseudo-terminal are in it. Argument: a file for the milliseconds, one a line.
import { appendFileSync } from 'node:fs';
import { monotonicClock } from '../../electron/bench/monotonic-clock.ts';
import { feeding, scpiTable } from '../support/odd-supplies.ts';
import { tableLink } from '../support/table-link.ts';

const [logFile] = process.argv.slice(2);
const NORMAL_OHM = 60;
const OVERLOAD_OHM = 15;
const OFF_MS = 90;
const state = feeding({ setV: 12, limitA: 3, loadOhm: NORMAL_OHM });
const device = tableLink(monotonicClock, scpiTable(state).table, {
  latencyMs: 0,
  compound: 'standard',
});
let shownMs = Number.NaN;
let spread = 0;
let isResting = false;

device.onBytes((bytes) => {
  process.stdout.write(bytes);
  // 12 V into 15 ohms; nothing else that it says has this number in it.
  const shows = state.isOn && state.loadOhm === OVERLOAD_OHM;
  if (shows && Number.isNaN(shownMs) && Buffer.from(bytes).includes('0.80000')) {
    shownMs = performance.now();
  }
});
process.stdin.on('data', (bytes: Buffer) => {
  const gotMs = performance.now();
  device.write(bytes);
  if (isResting || !bytes.includes('OUTP OFF')) return;
  isResting = true;
  if (!Number.isNaN(shownMs)) appendFileSync(logFile!, `${gotMs - shownMs}\n`);
  shownMs = Number.NaN;
  state.loadOhm = NORMAL_OHM;
  // Switched on again at its own front, and overloaded at another moment of the poll each time.
  spread = (spread + 17) % 50;
  setTimeout(() => {
    state.isOn = true;
    isResting = false;
    setTimeout(() => {
      state.loadOhm = OVERLOAD_OHM;
    }, OFF_MS + spread);
  }, OFF_MS);
});
