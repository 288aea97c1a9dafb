type Flag = 0 | 1;

export interface BoardRow {
  id: string;
  name: string;
  /** The name without case and spaces, as jobs keep it. */
  name_key: string;
  stated_input_v: number | null;
  stated_limit_a: number | null;
  running_a: number | null;
  runs_flat: Flag | null;
  created_at: number;
  updated_at: number;
}

/** A rail as its board's table states it; what good boards taught is computed from readings. */
export interface RailRow {
  id: string;
  board_id: string;
  position: number;
  name: string;
  nominal_v: number;
  tolerance: number;
  through: string;
  fed_by_json: string;
  enabled_by_json: string;
  states_json: string;
  core: Flag;
  ohms_median: number | null;
  ohms_spread: number | null;
  ohms_count: number | null;
  diode_median_v: number | null;
  diode_spread_v: number | null;
  diode_count: number | null;
}

export interface RailPointRow {
  rail_id: string;
  position: number;
  name: string;
  role: string;
  /** Effort, 1 = plain reach; null = out of reach. */
  cost: number | null;
  volts: number | null;
}

/** What a reading on a rail has beside its value. */
export interface RailReadingRow {
  reading_id: string;
  rail: string;
  point: string;
  against: string | null;
  state: string | null;
  powered: Flag;
  wires: number;
  lead_ohm: number | null;
  accuracy_percent: number | null;
  accuracy_offset: number | null;
  /** 1 = taken on a board known to be good: it teaches. */
  good: Flag;
}

/** A measurement that somebody said cannot be reached in a job. */
export interface UnreachablePointRow {
  job_id: string;
  measurement: string;
  said_at: number;
}

/** The tables of boards and their rails by name. */
export interface BoardTables {
  boards: BoardRow;
  rails: RailRow;
  rail_points: RailPointRow;
  rail_readings: RailReadingRow;
  unreachable_points: UnreachablePointRow;
}
