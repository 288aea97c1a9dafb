import { decodeChunk, encodeChunk } from '../../core/trace/chunk-codec.ts';
import { createPyramid } from '../../core/trace/pyramid.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import { encodeVarint } from '../support/baselines/varint-codec.ts';
import { encodeXor } from '../support/baselines/xor-codec.ts';
import { encodeZstd } from '../support/baselines/zstd-packed.ts';
import { type Measure, measure, median } from './measure.ts';

const CHUNK = 8192;
const CHUNKS = 16;
const DAY_SAMPLES = 1_728_000;

/** Normally distributed numbers that repeat (xorshift, Box-Muller). */
function noiseSource(seed: number) {
  let state = seed;
  const uniform = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform() + 1e-12)) * Math.cos(2 * Math.PI * uniform());
}

/** Ticks, millivolts and milliamps at 20 Hz with 1 ms of poll jitter. */
function series(kind: 'quiet' | 'busy', count: number) {
  const noise = noiseSource(20_310_401);
  let level = 300;
  const ticks: number[] = [];
  const millivolts: number[] = [];
  const milliamps: number[] = [];
  for (let i = 0; i < count; i += 1) {
    if (kind === 'busy' && noise() > 1.3) level = 300 + 150 * Math.abs(noise());
    ticks.push(10_000 + i * 500 + Math.round(5 * noise()));
    millivolts.push(Math.round(12_000 + noise()));
    milliamps.push(Math.round((kind === 'busy' ? level : 19) + 1.5 * noise()));
  }
  return { ticks, millivolts, milliamps };
}

function columnsOf(all: ReturnType<typeof series>, from: number, to: number): TraceColumns {
  const part = (values: readonly number[], scale: number) =>
    Float64Array.from(values.slice(from, to), (value) => value / scale);
  const ticks = part(all.ticks, 1);
  const [volts, amps] = [part(all.millivolts, 1000), part(all.milliamps, 1000)];
  return { ticks, volts, amps, regulation: new Uint8Array(ticks.length).fill(1) };
}

/** Bits a value of the zero-order entropy of the best plain residual. */
function simpleEntropy(values: readonly number[]): number {
  const differences = (of: readonly number[]) => of.slice(1).map((value, i) => value - of[i]!);
  const entropy = (of: readonly number[]) => {
    const seen = new Map<number, number>();
    for (const value of of) seen.set(value, (seen.get(value) ?? 0) + 1);
    let bits = 0;
    for (const count of seen.values()) bits -= (count / of.length) * Math.log2(count / of.length);
    return bits;
  };
  const first = differences(values);
  return Math.min(entropy(values), entropy(first), entropy(differences(first)));
}

function sizes(kind: 'quiet' | 'busy'): Measure[] {
  const count = CHUNK * CHUNKS;
  const all = series(kind, count);
  const parts = [all.ticks, all.millivolts, all.milliamps];
  const pyramid = createPyramid();
  let [ours, xor, varint, zstd] = [0, 0, 0, 0];
  for (let from = 0; from < count; from += CHUNK) {
    const columns = columnsOf(all, from, from + CHUNK);
    pyramid.append(columns);
    ours += encodeChunk(columns).length;
    const cut = parts.map((values) => values.slice(from, from + CHUNK));
    varint += cut.reduce((bytes, values) => bytes + encodeVarint(values).length, 0);
    zstd += cut.reduce((bytes, values) => bytes + encodeZstd(values).length, 0);
    // Two streams, as that scheme would keep volts and amps, each with its times.
    for (const readings of [columns.volts, columns.amps]) {
      xor += encodeXor(cut[0]![0]! - 1, cut[0]!, [...readings]).size / 8;
    }
  }
  ours += pyramid.toBytes().length;
  const readings = 2 * count;
  const entropy = (parts.reduce((bits, values) => bits + simpleEntropy(values), 0) * count) / 8;
  const aim = 'at most 0.9 quiet, and 1.15 of the entropy; times and pyramid included';
  const row = (name: string, bytes: number) =>
    measure(`${kind} run kept, beside ${name}`, ours / readings, 'B/reading', aim, {
      name,
      value: bytes / readings,
    });
  return [
    row('the entropy of the best plain residual', entropy),
    row('XOR coding', xor),
    row('varint differences', varint),
    row('zstd over packed differences', zstd),
  ];
}

function rates(): Measure[] {
  const columns = columnsOf(series('quiet', CHUNK), 0, CHUNK);
  const bytes = encodeChunk(columns);
  const rate = (act: () => unknown) => {
    const turns = Array.from({ length: 15 }, () => {
      const startMs = performance.now();
      act();
      return (CHUNK * 1000) / (performance.now() - startMs);
    });
    return median(turns);
  };
  return [
    measure(
      'chunk encode',
      rate(() => encodeChunk(columns)),
      'samples/s',
      'as fast as may be',
    ),
    measure(
      'chunk decode',
      rate(() => decodeChunk(bytes)),
      'samples/s',
      'as fast as may be',
    ),
  ];
}

function windows(): Measure[] {
  const all = columnsOf(series('quiet', DAY_SAMPLES), 0, DAY_SAMPLES);
  const pyramid = createPyramid();
  const startMs = performance.now();
  pyramid.append(all);
  const buildS = (performance.now() - startMs) / 1000;
  const end = pyramid.lastTick + 1;
  const turns = Array.from({ length: 200 }, (_, i) => {
    const width = end * ((i + 1) / 200) ** 2;
    const from = Math.floor((end - width) * ((i * 7919) % 200) * 0.005);
    const at = performance.now();
    pyramid.window(from, Math.ceil(from + width), 1000);
    return performance.now() - at;
  }).sort((a, b) => a - b);
  return [
    measure('pyramid build', DAY_SAMPLES / buildS, 'samples/s', 'as fast as may be'),
    measure('any window of 24 h at 20 Hz, p95', turns[189]!, 'ms', 'at most 10 with the disk'),
  ];
}

/** What a run takes on disk, how fast it is packed and read, and how fast it is drawn from. */
export async function measureKeeping(): Promise<readonly Measure[]> {
  return [...sizes('quiet'), ...sizes('busy'), ...rates(), ...windows()];
}
