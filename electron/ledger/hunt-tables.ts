/** A hunt for a short along one rail of a job's board. */
export interface HuntRow {
  id: string;
  job_id: string;
  rail: string;
  /** Where the meter's other probe stays. */
  reference: string;
  /** Ohms of both injecting leads together; null = not known. */
  lead_ohm: number | null;
  /** `measured` with the tips together, or `typed`. */
  lead_from: string;
  /** One standard deviation of the meter, volts; null = taken from its last digit. */
  meter_sigma_v: number | null;
  /** Most amps that something in the way stands; null = nothing known. */
  most_a: number | null;
  /** Further parts that the rail reaches, with the volts they stand. */
  ratings_json: string;
  began_at: number;
  concluded_at: number | null;
  finding_json: string | null;
}

export interface HuntPointRow {
  id: string;
  hunt_id: string;
  position: number;
  name: string;
  along_mm: number | null;
  photo_id: string | null;
  photo_x: number | null;
  photo_y: number | null;
}

export interface HuntReadingRow {
  id: string;
  point_id: string;
  volts: number;
  decimals: number | null;
  /** Amps that flowed as it was read; 0 = the output was off. */
  amps: number;
  source: string;
  taken_at: number;
}

/** A run in which current was put into a board for a hunt. */
export interface HuntRunRow {
  run_id: string;
  hunt_id: string;
}

/** The tables of hunts by name. */
export interface HuntTables {
  hunts: HuntRow;
  hunt_points: HuntPointRow;
  hunt_readings: HuntReadingRow;
  hunt_runs: HuntRunRow;
}
