import { SerialPort } from 'serialport';
import { voltsReply } from '../../core/scpi/response-shape.ts';
import { openSession } from '../../core/scpi/session.ts';
import { monotonicClock } from '../../electron/bench/monotonic-clock.ts';
import { openSerialLink } from '../../electron/bench/serial-link.ts';
import { answeringDevice } from './answering-device.ts';
import { type Measure, measure, median } from './measure.ts';

/** Short blocks, ours and the bare loop by turns, so that what else runs weighs on both alike. */
const ROUNDS = 400;
const TURNS = 31;
/** Longer than any block on any machine: a reply that was lost would be waited for for ever. */
const BLOCK_MS = 30_000;

async function bareLoop(port: string): Promise<number> {
  const serial = new SerialPort({ path: port, baudRate: 115_200, autoOpen: false });
  await new Promise<void>((opened, failed) =>
    serial.open((error) => (error ? failed(error) : opened())),
  );
  const startMs = performance.now();
  await new Promise<void>((done, lost) => {
    const timer = setTimeout(() => lost(new Error('a reply to the bare loop was lost')), BLOCK_MS);
    let left = ROUNDS;
    let held = '';
    serial.on('data', (bytes: Buffer) => {
      held += bytes.toString('latin1');
      if (!held.endsWith('\n')) return;
      held = '';
      left -= 1;
      if (left === 0) {
        clearTimeout(timer);
        done();
      } else serial.write('MEAS:VOLT?\n');
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
  const device = await answeringDevice();
  const [bare, ours, ratios]: [number[], number[], number[]] = [[], [], []];
  try {
    // The first of each is the compiler's.
    await bareLoop(device.port);
    await ourSession(device.port);
    for (let turn = 0; turn < TURNS; turn += 1) {
      const pair =
        turn % 2 === 0
          ? [await bareLoop(device.port), await ourSession(device.port)]
          : [await ourSession(device.port), await bareLoop(device.port)].reverse();
      bare.push(pair[0]!);
      ours.push(pair[1]!);
      ratios.push(pair[1]! / pair[0]!);
    }
  } finally {
    device.remove();
  }
  return [
    measure('rounds through our session', median(ours), 'rounds/s', 'ratio at least 0.95', {
      name: 'bare serialport loop on the same pseudo-terminal',
      value: median(bare),
    }),
    measure(
      `the same, middle of ${TURNS} ratios of neighbouring blocks`,
      median(ratios),
      'times the bare loop',
      'at least 0.95',
    ),
  ];
}
