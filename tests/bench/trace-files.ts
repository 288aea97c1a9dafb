import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { openLedgerInThread } from '../../electron/ledger/open-ledger-in-thread.ts';
import { type Measure, measure } from './measure.ts';

const ROWS = 5_000_000;
const HZ = 100;
const PIECE = 50_000;

/** A busy draw of fourteen hours at 100 Hz as a meter would log it. */
function writeLongFile(file: string): void {
  const handle = openSync(file, 'w');
  writeSync(handle, 'Time (s),Voltage (V),Current (A)\n');
  let seed = 9;
  for (let from = 0; from < ROWS; from += PIECE) {
    let text = '';
    for (let i = from; i < from + PIECE; i += 1) {
      seed = (seed * 48_271) % 2_147_483_647;
      const amps = (420 + (seed % 61)) / 1000;
      text += `${(i / HZ).toFixed(2)},12.0${seed % 5},${amps.toFixed(3)}\n`;
    }
    writeSync(handle, text);
  }
  closeSync(handle);
}

/** Five million rows in and out again: rate, and memory that does not grow with the file. */
export async function measureTraceFiles(): Promise<readonly Measure[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-files-'));
  const source = path.join(folder, 'long.csv');
  try {
    writeLongFile(source);
    const megabytes = statSync(source).size / 1e6;
    const memory: number[] = [];
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    const held = () => {
      collect();
      const { heapUsed, external } = process.memoryUsage();
      return (heapUsed + external) / 1e6;
    };
    const ledger = await openLedgerInThread({
      path: path.join(folder, 'ledger.sqlite'),
      onTraceProgress: () => memory.push(held()),
    });
    const feed = {
      point: 'charger-input',
      cells: false,
      screen: false,
      drive: false,
      note: '',
    } as const;
    let startMs = performance.now();
    const { run } = await ledger.files.readTrace({
      path: source,
      jobId: null,
      feed,
      utcOffsetMin: 0,
    });
    const readS = (performance.now() - startMs) / 1000;
    if (run.samples !== ROWS) throw new Error('rows were lost');
    const half = memory.slice(Math.floor(memory.length / 2));
    const grown = Math.max(...half) - Math.max(...memory.slice(0, Math.ceil(memory.length / 2)));
    const found: Measure[] = [
      measure(
        'trace file read into the ledger',
        ROWS / readS,
        'rows/s',
        'a day at 20 Hz in seconds',
      ),
      measure('memory grown over the second half of 5,000,000 rows', grown, 'MB', 'flat'),
      measure(
        'memory held at most while reading',
        Math.max(...memory),
        'MB',
        `less than twice the file's ${Math.round(megabytes)}`,
      ),
    ];
    for (const format of ['csv', 'jsonl', 'parquet'] as const) {
      startMs = performance.now();
      const target = path.join(folder, `run.${format}`);
      const file = await ledger.files.writeRun({ id: run.id, format, path: target });
      found.push(
        measure(
          `${format} written`,
          (file.samples * 1000) / (performance.now() - startMs),
          'rows/s',
          'seconds for a day',
        ),
        measure(`${format} of the run`, file.bytes / file.samples, 'bytes/row', 'small', {
          name: 'the file it came from',
          value: statSync(source).size / ROWS,
        }),
      );
    }
    await ledger.close();
    return found;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
