// A slow supply on standard input and output, for socat to put on a pseudo-terminal: 9600 baud,
// and deaf to any message within 50 ms of the last traffic. Argument: a file to which each state
// that it takes is written with its time.
import { appendFileSync } from 'node:fs';
import { monotonicClock } from '../../electron/bench/monotonic-clock.ts';
import { feeding, scpiTable } from './odd-supplies.ts';
import { tableLink } from './table-link.ts';

const [logFile] = process.argv.slice(2);
const state = feeding({ setV: 12, loadOhm: 40 });
const device = tableLink(monotonicClock, scpiTable(state).table, { baud: 9600, deafMs: 50 });
let was = state.isOn;
device.onBytes((bytes) => process.stdout.write(bytes));
process.stdin.on('data', (bytes: Buffer) => {
  device.write(bytes);
  note();
});
const note = () => {
  if (state.isOn === was) return;
  was = state.isOn;
  appendFileSync(logFile!, `${Date.now()} ${was ? 'on' : 'off'}\n`);
};
setInterval(note, 2);
