import type BetterSqlite from 'better-sqlite3';
import { decodeChunk } from '../../../core/trace/chunk-codec.ts';
import { CSV_HEADER, csvRows } from '../../../core/trace/csv-write.ts';
import { meterRows } from './meter-rows.ts';

type Cell = string | number | null;

/** A cell by RFC 4180: quoted when it holds a comma, a quote or a line break. */
function cell(value: Cell): string {
  if (value === null) return '';
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

const row = (cells: readonly Cell[]): string => `${cells.map(cell).join(',')}\n`;

const UNITS: Readonly<Record<string, string>> = {
  volts: 'V',
  ohms: 'Ω',
  diode: 'V',
  continuity: 'Ω',
  amps: 'A',
};

interface ReadingLine {
  readonly id: string;
  readonly job_number: number | null;
  readonly board_model: string | null;
  readonly run_id: string | null;
  readonly place: string;
  readonly quantity: string;
  readonly value: number | null;
  readonly overload: number;
  readonly expected_low: number | null;
  readonly expected_high: number | null;
  readonly source: string;
  readonly taken_at: number;
}

/** Every reading as CSV, for a spreadsheet. */
export function* readingsCsv(sqlite: BetterSqlite.Database): Generator<string> {
  yield 'reading_id,job_number,board_model,run_id,place,quantity,value,unit,over_range,expected_low,expected_high,source,taken_at_utc\n';
  const lines = sqlite.prepare<[], ReadingLine>(
    'select r.*, j.number as job_number, j.board_model from readings r left join jobs j on j.id = r.job_id order by r.id',
  );
  for (const r of lines.iterate()) {
    yield row([
      r.id,
      r.job_number,
      r.board_model,
      r.run_id,
      r.place,
      r.quantity,
      r.value,
      UNITS[r.quantity] ?? '',
      r.overload,
      r.expected_low,
      r.expected_high,
      r.source,
      new Date(r.taken_at).toISOString(),
    ]);
  }
}

interface RunLine {
  readonly id: string;
  readonly job_number: number | null;
  readonly board_model: string | null;
  readonly kind: string;
  readonly started_at: number;
  readonly ended_at: number | null;
  readonly end_reason: string | null;
  readonly feed_point: string;
  readonly set_v: number | null;
  readonly limit_a: number | null;
  readonly instrument: string;
  readonly pretend: number;
  readonly samples: number;
  readonly duration_s: number;
}

/** Every run as CSV: what its own file of samples is of. */
export function* runsCsv(sqlite: BetterSqlite.Database): Generator<string> {
  yield 'run_id,job_number,board_model,kind,started_at_utc,ended_at_utc,ended_by,fed_at,set_V,limit_A,instrument,pretend_bench,samples,duration_s\n';
  const lines = sqlite.prepare<[], RunLine>(
    'select r.*, j.number as job_number, j.board_model from runs r left join jobs j on j.id = r.job_id order by r.id',
  );
  for (const r of lines.iterate()) {
    yield row([
      r.id,
      r.job_number,
      r.board_model,
      r.kind,
      new Date(r.started_at).toISOString(),
      r.ended_at === null ? '' : new Date(r.ended_at).toISOString(),
      r.end_reason,
      r.feed_point,
      r.set_v,
      r.limit_a,
      r.instrument,
      r.pretend,
      r.samples,
      r.duration_s,
    ]);
  }
}

/** A track whose samples get a file of their own. */
export interface TrackLine {
  readonly id: string;
  readonly run_id: string;
  readonly role: string;
  readonly quantity: string | null;
}

/** Where a track's samples lie in the exported folder. */
export function trackFile(track: TrackLine): string {
  const of = track.role === 'supply' ? '' : `-${track.role}-${track.quantity ?? 'values'}`;
  return `csv/runs/${track.run_id}${of}.csv`;
}

/** The samples of a track as CSV, a chunk at a time; a meter's column is named by its quantity. */
export function* samplesCsv(sqlite: BetterSqlite.Database, track: TrackLine): Generator<string> {
  const isSupply = track.role === 'supply';
  yield isSupply
    ? CSV_HEADER
    : `time_s,${track.quantity ?? 'value'}_${UNITS[track.quantity ?? ''] ?? ''}\n`;
  const chunks = sqlite.prepare<[string], { columns: Uint8Array }>(
    'select columns from chunks where track_id = ? order by seq',
  );
  for (const { columns } of chunks.iterate(track.id)) {
    const samples = decodeChunk(new Uint8Array(columns));
    yield isSupply ? csvRows(samples) : meterRows(samples);
  }
}
