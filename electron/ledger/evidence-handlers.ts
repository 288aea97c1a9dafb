import { newCauseKey, shopTable } from '../../core/cases/cause-tree.ts';
import { findingsOfJob } from '../../core/cases/findings-of-job.ts';
import { railSights } from '../../core/cases/rail-sights.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { evidenceCalls } from '../../core/contract/evidence-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import { likelyCauses } from '../../core/evidence/likely-causes.ts';
import { type Proof, sightOf } from '../../core/evidence/past-case.ts';
import type { Finding } from '../../core/finding/finding.ts';
import { boardKey } from '../../core/job/same-thing.ts';
import type { JobWalk } from '../../core/rails/job-walk.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import {
  newestCaseDetails,
  pastCases,
  shopCauses,
  typedSights,
  writeCause,
  writeSight,
} from './case-store.ts';
import { changeJobWith } from './change-job.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { readWhole } from './whole-job.ts';

/** Where the evidence of a job comes from, beside its own rows. */
export interface EvidenceSources {
  readonly reportOf: (runId: string) => Promise<StageReport>;
  /** Where its rails stand; null when the board has no table. */
  readonly walkOf: (jobId: string) => Promise<JobWalk | null>;
}

/** What a job has seen that speaks for causes; throws `not-found`. */
export async function jobFindings(
  db: Db,
  jobId: string,
  { reportOf, walkOf }: EvidenceSources,
): Promise<readonly Finding[]> {
  const whole = await readWhole(db, jobId);
  if (whole === null) throw missing('job', jobId);
  const ended = whole.runs.filter(({ kind, endedAt }) => kind === 'powered' && endedAt !== null);
  const runs = await Promise.all(
    ended.map(async (run) => ({ run, report: await reportOf(run.id) })),
  );
  const walk = await walkOf(jobId);
  const onRails = walk === null ? [] : railSights(walk);
  return [...onRails, ...findingsOfJob(whole, runs, await typedSights(db, jobId))];
}

/** The window's calls about causes and evidence. */
export function createEvidenceHandlers(
  context: LedgerContext,
  sources: EvidenceSources,
): Handlers<typeof evidenceCalls> {
  const { db, now } = context;
  const table = async () => shopTable(await shopCauses(db));

  return {
    listCauses: async () => (await table()).causes,

    async saveCause({ key, text, parent, check, weight }) {
      const { causes } = await table();
      const before = causes.find((cause) => cause.key === key);
      if (key !== null && before === undefined) throw missing('cause', key);
      const wider = causes.find((cause) => cause.key === parent);
      const cause = {
        key: before?.key ?? newCauseKey(text, parent, causes),
        text,
        parent,
        isBench: wider?.isBench ?? before?.isBench ?? false,
        check,
        weight,
      };
      // Refused before it is stored: a parent that is not there, a cause under itself.
      const others = (await shopCauses(db)).filter((one) => one.key !== cause.key);
      const next = shopTable([...others, cause]);
      await writeCause(db, cause);
      return next.causes;
    },

    async likelyCauses({ jobId }) {
      const findings = await jobFindings(db, jobId, sources);
      const whole = await readWhole(db, jobId);
      const past = await pastCases(db, jobId);
      const shop = await table();
      const count = (proof: Proof) => past.filter((each) => each.proof === proof).length;
      const typed = new Set((await typedSights(db, jobId)).map(({ question }) => question));
      const answered = new Map(
        [...findings]
          .sort((a, b) => a.at - b.at)
          .map(({ key }) => [sightOf(key).question, sightOf(key).outcome]),
      );
      return {
        likely: likelyCauses(shop, past, findings, boardKey(whole?.job.boardModel ?? null)),
        findings,
        questions: shop.questions.map(({ key, text, outcomes }) => ({
          key,
          text,
          outcomes,
          answer: answered.get(key) ?? null,
          isTyped: typed.has(key),
        })),
        counted: {
          proved: count('proved'),
          guessed: count('guessed'),
          unsolved: count('unsolved'),
        },
        tableSource: shop.source,
      };
    },

    async answerQuestion({ jobId, question, outcome }) {
      const asked = (await table()).questions.find(({ key }) => key === question);
      if (asked === undefined) throw missing('question', question);
      if (outcome !== null && !asked.outcomes.includes(outcome)) {
        throw new WakelineError({
          code: 'bad-input',
          what: `${outcome} is no answer to ${asked.text}`,
          where: `question ${question}`,
          todo: `Choose one of ${asked.outcomes.join(', ')}.`,
        });
      }
      await changeJobWith(context, jobId, (trx) =>
        writeSight(trx, jobId, question, outcome, now()),
      );
      return null;
    },

    readCaseDetails: ({ jobId }) => newestCaseDetails(db, jobId),
  };
}
