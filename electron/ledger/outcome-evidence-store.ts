import type { KeptEvidence } from '../../core/cases/kept-evidence.ts';
import type { Finding, FindingRoom } from '../../core/finding/finding.ts';
import type { Unit } from '../../core/units/unit.ts';
import type { Db } from './ledger-context.ts';

/** Keeps what a job had seen and how it was weighed beside the outcome that it was closed with. */
export async function insertKeptEvidence(
  db: Db,
  outcomeId: string,
  { findings, evidenceVersion, madeAt, causeText, ...weighed }: KeptEvidence,
): Promise<void> {
  await db
    .insertInto('outcome_weighings')
    .values({
      outcome_id: outcomeId,
      evidence_version: evidenceVersion,
      made_at: madeAt,
      cause_text: causeText,
      weighed_json: JSON.stringify(weighed),
    })
    .execute();
  for (const [seq, finding] of findings.entries()) {
    await db
      .insertInto('outcome_findings')
      .values({
        outcome_id: outcomeId,
        seq,
        key: finding.key,
        room: finding.room,
        claim: finding.claim,
        value: finding.value,
        unit: finding.unit,
        uncertainty: finding.uncertainty,
        source: finding.source,
        likelihoods_json: JSON.stringify(finding.likelihoods),
        from_json: JSON.stringify(finding.from),
        seen_at: finding.at,
      })
      .execute();
  }
}

/** What was kept with a job's newest outcome; null when it has none, or is from before this was kept. */
export async function newestKeptEvidence(db: Db, jobId: string): Promise<KeptEvidence | null> {
  const row = await db
    .selectFrom('outcomes')
    .leftJoin('outcome_weighings', 'outcome_weighings.outcome_id', 'outcomes.id')
    .selectAll('outcome_weighings')
    .where('outcomes.job_id', '=', jobId)
    .orderBy('outcomes.id', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (row === undefined || row.outcome_id === null) return null;
  const findings = await db
    .selectFrom('outcome_findings')
    .selectAll()
    .where('outcome_id', '=', row.outcome_id)
    .orderBy('seq')
    .execute();
  return {
    ...(JSON.parse(row.weighed_json ?? '') as Omit<KeptEvidence, 'findings'>),
    evidenceVersion: row.evidence_version ?? 0,
    madeAt: row.made_at ?? 0,
    causeText: row.cause_text ?? '',
    findings: findings.map(
      (one): Finding => ({
        key: one.key,
        room: one.room as FindingRoom,
        claim: one.claim,
        value: one.value,
        unit: one.unit as Unit,
        uncertainty: one.uncertainty,
        source: one.source,
        likelihoods: JSON.parse(one.likelihoods_json) as Finding['likelihoods'],
        from: JSON.parse(one.from_json) as Finding['from'],
        at: one.seen_at,
      }),
    ),
  };
}
