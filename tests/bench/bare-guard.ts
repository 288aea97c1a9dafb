// The least that a guard can be, as the baseline of ours: asks the current every 50 ms over a bare
// serial port and sends OFF when it is above the limit. Arguments: port, limit in amps.
import { SerialPort } from 'serialport';

const [path, limitA] = process.argv.slice(2);
const port = new SerialPort({ path: path!, baudRate: 115_200 });
let held = '';
port.on('data', (bytes: Buffer) => {
  held += bytes.toString('latin1');
  for (let at = held.indexOf('\n'); at >= 0; at = held.indexOf('\n')) {
    const amps = Number.parseFloat(held.slice(0, at));
    held = held.slice(at + 1);
    if (amps > Number(limitA)) port.write('OUTP OFF\n');
  }
});
port.on('open', () => {
  port.write('OUTP ON\n');
  port.write('OUTP OFF\n');
  setInterval(() => port.write('MEAS:CURR?\n'), 50);
});
