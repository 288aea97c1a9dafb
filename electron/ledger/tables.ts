import type { BoardTables } from './board-tables.ts';
import type { DonorTables } from './donor-tables.ts';
import type { EvidenceTables } from './evidence-tables.ts';
import type { HuntTables } from './hunt-tables.ts';
import type { PictureTables } from './picture-tables.ts';
import type { ShopTables } from './shop-tables.ts';
import type { TemplateTables } from './template-tables.ts';

/** Rows as they lie in the ledger file. Yes/no is 1/0; `*_at` is UTC ms; `*_tick` is 0.1 ms. */
type Flag = 0 | 1;

export interface SettingRow {
  key: string;
  value_json: string;
}

export interface JobRow {
  id: string;
  number: number;
  board_model: string | null;
  /** The model without case and spaces, for finding its earlier runs. */
  board_key: string | null;
  serial_number: string;
  /** The serial number without case and spaces; '' = none given. */
  serial_key: string;
  customer: string;
  symptom: string;
  liquid: string;
  matters: string;
  earlier_repairs: string;
  accessories: string;
  promised: string;
  stated_input_v: number | null;
  stated_limit_a: number | null;
  running_a: number | null;
  runs_flat: Flag | null;
  template: string;
  /** The version of the template that it is walked with; null from before versions were kept. */
  template_id: string | null;
  state: string;
  comeback_of: string | null;
  created_at: number;
  updated_at: number;
  binned_at: number | null;
  /** Everything a search looks in, case folded. */
  search_text: string;
}

export interface OutcomeRow {
  id: string;
  job_id: string;
  verdict: string;
  cause: string;
  proved_by: string;
  misled_by: string;
  closed_at: number;
}

export interface ItemRow {
  id: string;
  job_id: string;
  position: number;
  step: string;
  phase: string;
  title: string;
  needs: string;
  quantity: string | null;
  place: string;
  caution: string | null;
  before_power: Flag;
  state: string;
  at: number | null;
  reason: string;
  /** What it holds back; null from before gates were kept: `before_power` and its step say. */
  gate: string | null;
  /** Initials of who settled it; '' = nobody said. */
  done_by: string;
}

export interface RunRow {
  id: string;
  job_id: string | null;
  kind: string;
  started_at: number;
  utc_offset_min: number;
  ended_at: number | null;
  end_reason: string | null;
  feed_point: string;
  feed_cells: Flag;
  feed_screen: Flag;
  feed_drive: Flag;
  feed_note: string;
  set_v: number | null;
  limit_a: number | null;
  instrument: string;
  pretend: Flag;
  role: string | null;
  /** What the tracker was told when the run began. */
  settings_json: string;
  /** Of the supply's track; written when the run ends. */
  samples: number;
  duration_s: number;
}

export interface TrackRow {
  id: string;
  run_id: string;
  role: 'supply' | 'meter';
  /** What a meter track measured; null for the supply's volts and amps. */
  quantity: string | null;
}

export interface ChunkRow {
  track_id: string;
  seq: number;
  from_tick: number;
  to_tick: number;
  samples: number;
  /** Longest that a sample of this chunk lay in memory before it was committed. */
  waited_ms: number;
  codec: number;
  /** Decimal exponent of the stored integers; null = column absent or kept as floats. */
  volts_exponent: number | null;
  amps_exponent: number | null;
  /** The packed columns, sealed with their own checksum. */
  columns: Uint8Array;
}

export interface PyramidRow {
  track_id: string;
  samples: number;
  nodes: Uint8Array;
}

export interface ClassificationRow {
  id: string;
  run_id: string;
  made_at: number;
  tracker_version: number;
  settings_json: string;
  samples: number;
  duration_s: number;
  reach_stage: string;
  reach_held_a: number | null;
  reach_held_w: number | null;
  reach_share: number | null;
  energy_wh: number | null;
  charge_ah: number | null;
  peak_a: number | null;
  /** Set-points that changed during the run; null = none, or not kept then. */
  feed_changes_json: string | null;
}

export interface StageRow {
  classification_id: string;
  seq: number;
  stage: string;
  start_s: number;
  end_s: number;
  mean_a: number | null;
  mean_v: number | null;
  confidence: number;
  reason: string;
  period_s: number | null;
  plus_minus_a: number | null;
  ripple_a: number | null;
  final: Flag;
}

export interface MarkRow {
  classification_id: string;
  seq: number;
  mark: string;
  at_s: number;
  text: string;
}

export interface StepRow {
  classification_id: string;
  seq: number;
  at_s: number;
  from_a: number;
  to_a: number;
  rise_s: number | null;
  plus_minus_a: number | null;
}

export interface RunNoteRow {
  id: string;
  run_id: string;
  at_s: number;
  text: string;
  made_at: number;
  mark: 'note' | 'guard-trip';
}

export interface ReadingRow {
  id: string;
  job_id: string | null;
  item_id: string | null;
  run_id: string | null;
  quantity: string;
  value: number | null;
  overload: Flag;
  decimals: number | null;
  place: string;
  expected_low: number | null;
  expected_high: number | null;
  source: string;
  taken_at: number;
}

export interface PartRow {
  id: string;
  job_id: string;
  action: string;
  designator: string;
  kind: string;
  value: string;
  rail: string;
  state_found: string;
  came_from: string;
  at: number;
}

export interface SignatureRow {
  run_id: string;
  version: number;
  /** Null for a run without draw. */
  quantity: string | null;
  known: number;
  base: number;
  /** 32-bit floats. */
  shape: Uint8Array | null;
}

/** The ledger's tables by name. */
export interface Tables
  extends BoardTables,
    DonorTables,
    HuntTables,
    ShopTables,
    EvidenceTables,
    PictureTables,
    TemplateTables {
  settings: SettingRow;
  jobs: JobRow;
  outcomes: OutcomeRow;
  checklist_items: ItemRow;
  runs: RunRow;
  tracks: TrackRow;
  chunks: ChunkRow;
  pyramids: PyramidRow;
  classifications: ClassificationRow;
  stages: StageRow;
  marks: MarkRow;
  steps: StepRow;
  run_notes: RunNoteRow;
  readings: ReadingRow;
  parts: PartRow;
  signatures: SignatureRow;
}

/** 1 for true, 0 for false: SQLite has no other yes/no. */
export const flag = (yes: boolean): Flag => (yes ? 1 : 0);
