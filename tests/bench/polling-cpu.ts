import { fork } from 'node:child_process';
import path from 'node:path';
import { answeringDevice } from './answering-device.ts';
import { type Measure, measure, median } from './measure.ts';

/** Looks of a few seconds, ours and the bare loops by turns: what else runs weighs on both alike. */
const TURNS = 5;

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
  const supply = await answeringDevice();
  const meter = await answeringDevice();
  const ports = [supply.port, meter.port];
  try {
    const told: Measure[] = [];
    for (const hertz of [20, 50]) {
      const [bare, ours]: [number[], number[]] = [[], []];
      for (let turn = 0; turn < TURNS; turn += 1) {
        bare.push(await cpuOf('bare', ports, hertz));
        ours.push(await cpuOf('ours', ports, hertz));
      }
      told.push(
        measure(
          `CPU, two instruments at ${hertz} Hz`,
          median(ours),
          '% of one core',
          'ratio at most 2',
          { name: 'bare polling loops asking the same', value: median(bare) },
        ),
      );
    }
    return told;
  } finally {
    supply.remove();
    meter.remove();
  }
}
