/** A person or firm that boards belong to: only what is needed to reach them. */
export interface CustomerRow {
  id: string;
  name: string;
  reach: string;
  note: string;
  created_at: number;
  updated_at: number;
}

/** What was agreed on a job beside the repair. */
export interface JobTermsRow {
  job_id: string;
  customer_id: string | null;
  /** What a waiting job waits for; '' = nobody said. */
  waiting_for: string;
  /** `YYYY-MM-DD`, the last day. */
  warranty_until: string | null;
  warranty_note: string;
}

export interface QuoteRow {
  id: string;
  job_id: string;
  amount_minor: number;
  currency: string;
  words: string;
  made_at: number;
  answer: string;
  answered_at: number | null;
  answered_how: string;
  answer_note: string;
}

export interface ChargeRow {
  id: string;
  job_id: string;
  kind: string;
  words: string;
  part_id: string | null;
  /** Thousandths of a piece; 0 for time. */
  quantity_milli: number;
  /** 0 for parts. */
  minutes: number;
  /** Of one piece, or of an hour. */
  unit_minor: number;
  currency: string;
  added_at: number;
}

export interface JobTagRow {
  code: string;
  job_id: string;
  made_at: number;
}

/** A job that the search index holds as it was last changed. */
export interface SearchJobRow {
  job_number: number;
  version: number;
}

/** Words of an ended run: notes on it and on its feed. */
export interface SearchRunRow {
  run_id: string;
  job_id: string;
  text: string;
}

/** A number or a verdict that a search can ask for, with what it was found on. */
export interface SearchFactRow {
  job_number: number;
  kind: string;
  word: string;
  verdict: string;
  amount: number | null;
  volts: number | null;
  ref_id: string;
}

/** The full-text index: a row a job, folded text by where it was written. */
export interface SearchIndexRow {
  rowid: number;
  facts: string;
  customer: string;
  notes: string;
  parts: string;
  outcome: string;
  readings: string;
  runs: string;
  codes: string;
}

/** The tables of customers, money, tags and searching by name. */
export interface ShopTables {
  customers: CustomerRow;
  job_terms: JobTermsRow;
  quotes: QuoteRow;
  charges: ChargeRow;
  job_tags: JobTagRow;
  search_jobs: SearchJobRow;
  search_runs: SearchRunRow;
  search_facts: SearchFactRow;
  search_index: SearchIndexRow;
}
