type Flag = 0 | 1;

/** A board kept for its parts. */
export interface DonorBoardRow {
  id: string;
  board_model: string;
  board_key: string;
  shelf: string;
  note: string;
  added_at: number;
  /** When it left the shelf for good; null = it is there. */
  gone_at: number | null;
}

/** A part that every board of a model carries, as somebody typed it. */
export interface ModelPartRow {
  board_key: string;
  position: number;
  designator: string;
  text: string;
  rail: string;
  known_from: string;
}

export interface DonorTakeRow {
  id: string;
  donor_id: string;
  designator: string;
  text: string;
  job_id: string | null;
  part_id: string | null;
  taken_at: number;
}

/** A part that was taken and went back to its board. */
export interface DonorReturnRow {
  id: string;
  donor_id: string;
  designator: string;
  text: string;
  job_id: string | null;
  taken_at: number;
  returned_at: number;
  why: string;
}

/** What a part of a job has beside its plain line. */
export interface PartDetailRow {
  part_id: string;
  /** Null when its value could not be read. */
  spec_json: string | null;
  role: string;
  critical: Flag | null;
  rail_v: number | null;
  known_from: string;
  left_off: string;
  decision: string;
  /** Whether a fitted part is an equal, as it was judged; null when it was not. */
  equivalence_json: string | null;
  /** Who agreed that the part stays off. */
  agreed_by: string;
  /** The lifted part that this fitted one is: the same, put back. */
  put_back_of: string | null;
}

/** A cause that the shop added, or a starter cause as the shop changed it. */
export interface ShopCauseRow {
  key: string;
  text: string;
  parent: string | null;
  is_bench: Flag;
  check_text: string;
  weight: number;
  /** UTC ms; null = in use. */
  retired_at: number | null;
  /** UTC ms; null = before this was written down. */
  changed_at: number | null;
}

export interface OutcomeDetailRow {
  outcome_id: string;
  cause_key: string | null;
  part: string;
  rail: string;
  gave_away: string;
  changed: Flag;
  reading_came_back: Flag;
  board_woke: Flag;
  /** What the job had seen before anything was fitted. */
  sights_json: string;
}

/** What somebody looked at and answered in a job. */
export interface JobSightRow {
  job_id: string;
  question: string;
  outcome: string;
  seen_at: number;
}

export interface DonorTables {
  donor_boards: DonorBoardRow;
  model_parts: ModelPartRow;
  donor_takes: DonorTakeRow;
  donor_returns: DonorReturnRow;
  part_details: PartDetailRow;
  shop_causes: ShopCauseRow;
  outcome_details: OutcomeDetailRow;
  job_sights: JobSightRow;
}
