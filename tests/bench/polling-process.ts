import { SerialPort } from 'serialport';
import { connectMeter } from '../../electron/bench/connected-meter.ts';
import { connectSupply } from '../../electron/bench/connected-supply.ts';
import { monotonicClock } from '../../electron/bench/monotonic-clock.ts';
import { openSerialLink } from '../../electron/bench/serial-link.ts';

/** Polls two instruments for a while and tells its own CPU use in per cent of a core. */
const [how, supplyPort, meterPort, hertz] = process.argv.slice(2);
const WARM_MS = 2000;
const LOOK_MS = 4000;
const intervalMs = 1000 / Number(hertz);

function bareLoop(path: string, asked: readonly string[]): void {
  const port = new SerialPort({ path, baudRate: 115_200 });
  let held = '';
  let turn = 0;
  const readings: number[] = [];
  port.on('data', (bytes: Buffer) => {
    held += bytes.toString('latin1');
    const end = held.indexOf('\n');
    if (end < 0) return;
    readings.push(Number.parseFloat(held.slice(0, end)));
    held = held.slice(end + 1);
    if (turn > 0) port.write(`${asked[asked.length - turn]}\n`);
    turn -= 1;
  });
  setInterval(() => {
    turn = asked.length - 1;
    port.write(`${asked[0]}\n`);
  }, intervalMs);
}

if (how === 'bare') {
  // The same questions as the supply's driver asks in a poll: readings, regulation, output.
  bareLoop(supplyPort!, ['MEAS:VOLT?;CURR?', 'STAT:QUES:COND?']);
  bareLoop(meterPort!, ['READ?']);
} else {
  const options = {
    clock: monotonicClock,
    intervalMs,
    onReading() {},
    onLost() {},
    onBack() {},
  };
  await connectSupply({ ...options, open: () => openSerialLink(supplyPort!, 115_200) });
  await connectMeter({ ...options, open: () => openSerialLink(meterPort!, 115_200) });
}
await new Promise((resolve) => setTimeout(resolve, WARM_MS));
const before = process.cpuUsage();
await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
const used = process.cpuUsage(before);
process.send!(((used.user + used.system) / 1000 / LOOK_MS) * 100, () => process.exit(0));
