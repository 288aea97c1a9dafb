import type { Interval } from '../evidence/intervals.ts';
import type { Proof } from '../evidence/past-case.ts';
import type { Finding } from '../finding/finding.ts';
import type { JobEvidence } from './case-details.ts';

/** Grows when findings or their weighing are computed another way; kept with each closed job. */
export const EVIDENCE_VERSION = 2;

/** A cause as it was weighed when a job was closed. */
export interface KeptCause extends Interval {
  readonly key: string;
  readonly text: string;
  readonly isBench: boolean;
  readonly probability: number;
  /** Earlier boards alike, in words; empty when there were none. */
  readonly like: string;
}

/** What a job's evidence said when it was closed. It stays so, whatever later code or cases say. */
export interface KeptEvidence {
  readonly evidenceVersion: number;
  /** UTC ms. */
  readonly madeAt: number;
  /** The picked cause in the words of that day; empty when none was picked. */
  readonly causeText: string;
  readonly summary: string;
  /** Most likely first, the unlikeliest left out. */
  readonly causes: readonly KeptCause[];
  readonly counted: Readonly<Record<Proof, number>>;
  readonly tableSource: string;
  readonly findings: readonly Finding[];
}

/** Causes below this share are not kept: nobody looks them up later. */
const LEAST_KEPT = 0.005;

/** What to keep of a job's evidence at the moment it is closed. `madeAt` in UTC ms. */
export function keptEvidence(
  evidence: JobEvidence,
  causeText: string,
  madeAt: number,
): KeptEvidence {
  const { likely, counted, tableSource, findings } = evidence;
  const causes = likely.causes
    .filter(({ probability }) => probability >= LEAST_KEPT)
    .map(({ cause, probability, interval, like }) => ({
      key: cause.key,
      text: cause.text,
      isBench: cause.isBench,
      probability,
      ...interval,
      like: like.text,
    }));
  return {
    evidenceVersion: EVIDENCE_VERSION,
    madeAt,
    causeText,
    summary: likely.summary,
    causes,
    counted,
    tableSource,
    findings,
  };
}
