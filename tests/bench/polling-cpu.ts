import { fork } from 'node:child_process';
import path from 'node:path';
import { devicePty } from '../support/pty.ts';
import { type Measure, measure } from './measure.ts';

const device = ['/usr/bin/python3', '-u', path.join(import.meta.dirname, 'answering-device.py')];

function cpuOf(how: 'ours' | 'bare', ports: readonly string[], hertz: number): Promise<number> {
  const child = fork(path.join(import.meta.dirname, 'polling-process.ts'), [
    how,
    ...ports,
    String(hertz),
  ]);
  return new Promise((resolve, reject) => {
    child.once('message', (percent) => resolve(percent as number));
    child.once('exit', (code) => reject(new Error(`polling process ended with ${code}`)));
  });
}

/** CPU of polling a supply and a meter through sessions and drivers, against bare loops. */
export async function measurePolling(): Promise<readonly Measure[]> {
  const supply = await devicePty(device);
  const meter = await devicePty(device);
  const ports = [supply.path, meter.path];
  try {
    const told: Measure[] = [];
    for (const hertz of [20, 50]) {
      const bare = await cpuOf('bare', ports, hertz);
      const ours = await cpuOf('ours', ports, hertz);
      told.push(
        measure(`CPU, two instruments at ${hertz} Hz`, ours, '% of one core', 'ratio at most 2', {
          name: 'bare polling loops asking the same',
          value: bare,
        }),
      );
    }
    return told;
  } finally {
    await supply.remove();
    await meter.remove();
  }
}
