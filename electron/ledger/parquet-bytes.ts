import { ByteWriter, ParquetWriter } from 'hyparquet-writer';
import { REGULATION_CODES, TICKS_PER_SECOND, type TraceColumns } from '../../core/trace/sample.ts';
import { joinColumns } from './join-columns.ts';

/** Rows of a row group. */
const GROUP_ROWS = 65_536;

const optional = { repetition_type: 'OPTIONAL' } as const;
const SCHEMA = [
  { name: 'root', num_children: 4 },
  { name: 'time_s', type: 'DOUBLE', repetition_type: 'REQUIRED' },
  { name: 'volts_V', type: 'DOUBLE', ...optional },
  { name: 'amps_A', type: 'DOUBLE', ...optional },
  { name: 'regulation', type: 'BYTE_ARRAY', converted_type: 'UTF8', ...optional },
] as const;

/**
 * Samples as the bytes of a Parquet file, a row group at a time, so that a run of any length needs
 * the same memory. Seconds, volts and amps as doubles; a reading that was not taken is null.
 * `facts` go into the file's key and value list.
 */
export async function* parquetBytes(
  stretches: AsyncIterable<TraceColumns>,
  facts: Readonly<Record<string, string>>,
): AsyncGenerator<Uint8Array> {
  const bytes = new ByteWriter();
  const writer = new ParquetWriter({
    writer: bytes,
    schema: SCHEMA.map((one) => ({ ...one })),
    kvMetadata: Object.entries(facts).map(([key, value]) => ({ key, value })),
    createdBy: 'Wakeline',
  });
  const take = (): Uint8Array => {
    const taken = new Uint8Array(bytes.buffer.slice(0, bytes.index));
    bytes.index = 0;
    return taken;
  };
  const write = async (group: readonly TraceColumns[]) => {
    const columns = joinColumns(group);
    await writer.write({ columnData: columnData(columns), rowGroupSize: columns.ticks.length });
    return take();
  };
  let group: TraceColumns[] = [];
  let rows = 0;
  for await (const stretch of stretches) {
    group.push(stretch);
    rows += stretch.ticks.length;
    if (rows < GROUP_ROWS) continue;
    yield await write(group);
    group = [];
    rows = 0;
  }
  if (rows > 0) yield await write(group);
  await writer.finish();
  yield take();
}

function columnData({ ticks, volts, amps, regulation }: TraceColumns) {
  return [
    { name: 'time_s', data: Array.from(ticks, (tick) => tick / TICKS_PER_SECOND) },
    { name: 'volts_V', data: told(volts) },
    { name: 'amps_A', data: told(amps) },
    { name: 'regulation', data: Array.from(regulation, (code) => REGULATION_CODES[code] ?? null) },
  ];
}

const told = (values: Float64Array) =>
  Array.from(values, (value) => (Number.isFinite(value) ? value : null));
