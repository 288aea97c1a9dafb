import { itemsAtIntake } from '../../core/checklist/new-items.ts';
import { templateFor } from '../../core/checklist/template.ts';
import type {
  ChecklistItem,
  Job,
  JobFields,
  JobLine,
  JobWhole,
  Part,
  Reading,
  Run,
} from '../../core/job/job.ts';

/** A job book in memory for looking at the window by hand. Everything in it is invented. */
export interface FakeJob {
  job: Job;
  items: ChecklistItem[];
  readings: Reading[];
  parts: Part[];
  runs: Run[];
}

export const FAKE_FIELDS: JobFields = {
  boardModel: 'Larkspur L-300 main board',
  serialNumber: 'LK3-00417',
  customer: 'A. Invented',
  symptom: 'Does not wake, no light at all',
  liquid: 'unknown',
  matters: 'data',
  earlierRepairs: '',
  accessories: 'charger, sleeve',
  promised: 'a call by Friday',
  board: { statedInputV: 19, statedLimitA: 1, runningA: 0.62, runsFlat: false },
  template: 'does-not-turn-on',
};

export function fakeJob(number: number, fields: Partial<JobFields>, at: number): FakeJob {
  const all = { ...FAKE_FIELDS, ...fields };
  const items = itemsAtIntake(templateFor(all.template), all.liquid).map((item) => ({
    ...item,
    id: crypto.randomUUID(),
    readings: [],
  }));
  return {
    job: {
      ...all,
      id: crypto.randomUUID(),
      number,
      state: 'open',
      createdAt: at,
      updatedAt: at,
      comebackOf: null,
      outcome: null,
    },
    items,
    readings: [],
    parts: [],
    runs: [],
  };
}

export function lineOf({ job, runs }: FakeJob): JobLine {
  return {
    id: job.id,
    number: job.number,
    boardModel: job.boardModel,
    serialNumber: job.serialNumber,
    symptom: job.symptom,
    state: job.state,
    waitingFor: null,
    createdAt: job.createdAt,
    updatedAt: job.updatedAt,
    runs: runs.length,
    lastReach: runs.at(-1)?.reach?.stage ?? null,
    isComeback: job.comebackOf !== null,
    verdict: job.outcome?.verdict ?? null,
  };
}

export function wholeOf(fake: FakeJob): JobWhole {
  return {
    ...fake,
    items: fake.items.map((item) => ({
      ...item,
      readings: fake.readings.filter((reading) => reading.itemId === item.id),
    })),
  };
}
