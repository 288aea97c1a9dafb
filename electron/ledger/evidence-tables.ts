/** A finding as it stood when its job was closed. */
export interface OutcomeFindingRow {
  outcome_id: string;
  seq: number;
  key: string;
  room: string;
  claim: string;
  value: number | null;
  unit: string;
  uncertainty: number | null;
  source: string;
  likelihoods_json: string;
  from_json: string;
  seen_at: number;
}

/** How a job's causes were weighed when it was closed. */
export interface OutcomeWeighingRow {
  outcome_id: string;
  evidence_version: number;
  made_at: number;
  cause_text: string;
  weighed_json: string;
}

/** The shop's own odds of a question's outcomes under one cause, instead of the starter table's. */
export interface ShopOddsRow {
  question: string;
  cause: string;
  odds_json: string;
  changed_at: number;
}

export interface EvidenceTables {
  outcome_findings: OutcomeFindingRow;
  outcome_weighings: OutcomeWeighingRow;
  shop_odds: ShopOddsRow;
}
