import path from 'node:path';
import { SerialPort } from 'serialport';
import { voltsReply } from '../../core/scpi/response-shape.ts';
import { openSession } from '../../core/scpi/session.ts';
import { monotonicClock } from '../../electron/bench/monotonic-clock.ts';
import { openSerialLink } from '../../electron/bench/serial-link.ts';
import { devicePty } from '../support/pty.ts';
import { type Measure, measure, median } from './measure.ts';

const ROUNDS = 3000;
const TURNS = 7;
const device = ['/usr/bin/python3', '-u', path.join(import.meta.dirname, 'answering-device.py')];

async function bareLoop(port: string): Promise<number> {
  const serial = new SerialPort({ path: port, baudRate: 115_200, autoOpen: false });
  await new Promise<void>((opened, failed) =>
    serial.open((error) => (error ? failed(error) : opened())),
  );
  const startMs = performance.now();
  await new Promise<void>((done) => {
    let left = ROUNDS;
    let held = '';
    serial.on('data', (bytes: Buffer) => {
      held += bytes.toString('latin1');
      if (!held.endsWith('\n')) return;
      held = '';
      left -= 1;
      if (left === 0) done();
      else serial.write('MEAS:VOLT?\n');
    });
    serial.write('MEAS:VOLT?\n');
  });
  const tookMs = performance.now() - startMs;
  await new Promise<void>((closed) => serial.close(() => closed()));
  return (ROUNDS * 1000) / tookMs;
}

async function ourSession(port: string): Promise<number> {
  const session = openSession(await openSerialLink(port, 115_200), monotonicClock);
  await session.identify();
  const startMs = performance.now();
  for (let i = 0; i < ROUNDS; i += 1) await session.query('MEAS:VOLT?', voltsReply);
  const tookMs = performance.now() - startMs;
  await session.close();
  return (ROUNDS * 1000) / tookMs;
}

/** Questions and answers a second through our session, against a bare loop on the same line. */
export async function measureRoundTrips(): Promise<readonly Measure[]> {
  const pty = await devicePty(device);
  const [bare, ours]: [number[], number[]] = [[], []];
  try {
    for (let turn = 0; turn < TURNS; turn += 1) {
      bare.push(await bareLoop(pty.path));
      ours.push(await ourSession(pty.path));
    }
  } finally {
    await pty.remove();
  }
  return [
    measure('rounds through our session', median(ours), 'rounds/s', 'ratio at least 0.95', {
      name: 'bare serialport loop on the same pseudo-terminal',
      value: median(bare),
    }),
  ];
}
