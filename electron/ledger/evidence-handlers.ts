import type { JobEvidence } from '../../core/cases/case-details.ts';
import { checkRetire, newCauseKey, shopTable } from '../../core/cases/cause-tree.ts';
import { findingsOfJob } from '../../core/cases/findings-of-job.ts';
import { railSights } from '../../core/cases/rail-sights.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { evidenceCalls, ShopCauseTable } from '../../core/contract/evidence-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { CauseTable } from '../../core/evidence/cause-table.ts';
import { likelyCauses } from '../../core/evidence/likely-causes.ts';
import { type Proof, sightOf } from '../../core/evidence/past-case.ts';
import { ANY_OTHER_CAUSE, type Finding } from '../../core/finding/finding.ts';
import { boardKey } from '../../core/job/same-thing.ts';
import type { JobWalk } from '../../core/rails/job-walk.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import {
  newestCaseDetails,
  pastCases,
  shopCauses,
  shopOdds,
  typedSights,
  writeCause,
  writeOdds,
  writeSight,
} from './case-store.ts';
import { changeJobWith } from './change-job.ts';
import { huntsOfJob } from './hunt-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { newestKeptEvidence } from './outcome-evidence-store.ts';
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
  const hunted = (await huntsOfJob(db, jobId)).flatMap(({ finding }) => finding ?? []);
  return [...onRails, ...hunted, ...findingsOfJob(whole, runs, await typedSights(db, jobId))];
}

/** The starter table with what this shop made of it. */
async function tableOfShop(db: Db): Promise<CauseTable> {
  return shopTable(await shopCauses(db), await shopOdds(db));
}

/** Likely causes of a job, with what they rest on; throws `not-found`. */
export async function weighJob(
  db: Db,
  jobId: string,
  sources: EvidenceSources,
): Promise<JobEvidence> {
  const findings = await jobFindings(db, jobId, sources);
  const whole = await readWhole(db, jobId);
  const past = await pastCases(db, jobId);
  const shop = await tableOfShop(db);
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
}

/** The window's calls about causes and evidence. */
export function createEvidenceHandlers(
  context: LedgerContext,
  sources: EvidenceSources,
): Handlers<typeof evidenceCalls> {
  const { db, now } = context;
  const table = () => tableOfShop(db);
  const shownTable = async (): Promise<ShopCauseTable> => {
    const outcomes: Record<string, number> = {};
    for (const { cause } of await pastCases(db, '')) {
      if (cause !== null) outcomes[cause] = (outcomes[cause] ?? 0) + 1;
    }
    const ownRows = (await shopOdds(db)).map(({ question, cause }) => ({ question, cause }));
    return { ...(await table()), ownRows, outcomes };
  };

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
        isRetired: before?.isRetired ?? false,
      };
      // Refused before it is stored: a parent that is not there, a cause under itself.
      const others = (await shopCauses(db)).filter((one) => one.key !== cause.key);
      const next = shopTable([...others, cause]);
      await writeCause(db, cause, now());
      return next.causes;
    },

    async retireCause({ key, isRetired }) {
      const { causes } = await table();
      const cause = causes.find((one) => one.key === key);
      if (cause === undefined) throw missing('cause', key);
      if (isRetired) checkRetire(key, causes);
      await writeCause(db, { ...cause, isRetired }, now());
      return (await table()).causes;
    },

    readCauseTable: () => shownTable(),

    async saveOdds({ question, cause, odds }) {
      const { causes, questions } = await table();
      if (!questions.some(({ key }) => key === question)) throw missing('question', question);
      const isKnown = cause === ANY_OTHER_CAUSE || causes.some(({ key }) => key === cause);
      if (!isKnown) throw missing('cause', cause);
      if (odds !== null) {
        // Refused before it is stored: a sum above 1, an outcome that the question does not have.
        const others = (await shopOdds(db)).filter(
          (row) => row.question !== question || row.cause !== cause,
        );
        shopTable(await shopCauses(db), [...others, { question, cause, odds }]);
      }
      await writeOdds(db, question, cause, odds, now());
      return shownTable();
    },

    readKeptEvidence: ({ jobId }) => newestKeptEvidence(db, jobId),

    likelyCauses: ({ jobId }) => weighJob(db, jobId, sources),

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
