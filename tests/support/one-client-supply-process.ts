// A network supply that serves one client at a time and refuses the others, as many do. Says its
// port, then each change of its output with the time.
import { createServer, type Socket } from 'node:net';
import { monotonicClock } from '../../electron/bench/monotonic-clock.ts';
import { feeding, scpiTable } from './odd-supplies.ts';
import { tableLink } from './table-link.ts';

const state = feeding({ setV: 12, loadOhm: 40 });
const device = tableLink(monotonicClock, scpiTable(state).table, {});
let client: Socket | null = null;
let was = state.isOn;
device.onBytes((bytes) => client?.write(bytes));
const server = createServer((socket) => {
  if (client !== null) {
    socket.destroy();
    return;
  }
  client = socket;
  socket.on('error', () => {});
  socket.on('close', () => {
    client = null;
  });
  socket.on('data', (bytes) => device.write(bytes));
});
server.listen(0, '127.0.0.1', () => {
  const address = server.address();
  process.stdout.write(`${typeof address === 'object' ? address!.port : ''}\n`);
});
setInterval(() => {
  if (state.isOn === was) return;
  was = state.isOn;
  process.stdout.write(`${was ? 'on' : 'off'} ${Date.now()}\n`);
}, 2);
