import type { Job, JobFields, Liquid, Matters } from '../../core/job/job.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { parseQuantity } from '../../core/units/parse.ts';

/** A job as it is typed: numbers are still text. */
export interface JobText {
  readonly boardModel: string;
  readonly serialNumber: string;
  readonly customer: string;
  readonly symptom: string;
  readonly liquid: Liquid;
  readonly matters: Matters;
  readonly earlierRepairs: string;
  readonly accessories: string;
  readonly promised: string;
  readonly statedInputV: string;
  readonly statedLimitA: string;
  readonly runningA: string;
  readonly runsFlat: 'unknown' | 'yes' | 'no';
  readonly template: string;
}

export const EMPTY_JOB: JobText = {
  boardModel: '',
  serialNumber: '',
  customer: '',
  symptom: '',
  liquid: 'unknown',
  matters: 'not-asked',
  earlierRepairs: '',
  accessories: '',
  promised: '',
  statedInputV: '',
  statedLimitA: '',
  runningA: '',
  runsFlat: 'unknown',
  template: 'does-not-turn-on',
};

const NUMBERS = [
  { field: 'statedInputV', unit: 'V', words: 'Stated input' },
  { field: 'statedLimitA', unit: 'A', words: 'Current limit to start with' },
  { field: 'runningA', unit: 'A', words: 'Running draw' },
] as const;

/** What cannot be stored as typed, in words; null when all is well. */
export function wrongIn(text: JobText): string | null {
  if (text.boardModel.trim() === '' && text.symptom.trim() === '') {
    return 'Nothing says what came in. Write the board or the symptom.';
  }
  for (const { field, unit, words } of NUMBERS) {
    if (text[field].trim() === '') continue;
    const parsed = parseQuantity(text[field], unit);
    if (!parsed.ok) return `${words}: ${parsed.what}. ${parsed.todo}`;
    if (parsed.value === null || parsed.value < 0) {
      return `${words}: it cannot be ${text[field].trim()}. Leave it empty if it is not known.`;
    }
  }
  return null;
}

/** What is stored of the typed text. Call only when `wrongIn` found nothing. */
export function fieldsOf(text: JobText): JobFields {
  const number = (typed: string, unit: 'V' | 'A'): number | null => {
    if (typed.trim() === '') return null;
    const parsed = parseQuantity(typed, unit);
    return parsed.ok ? parsed.value : null;
  };
  return {
    boardModel: text.boardModel.trim() === '' ? null : text.boardModel.trim(),
    serialNumber: text.serialNumber.trim(),
    customer: text.customer.trim(),
    symptom: text.symptom.trim(),
    liquid: text.liquid,
    matters: text.matters,
    earlierRepairs: text.earlierRepairs.trim(),
    accessories: text.accessories.trim(),
    promised: text.promised.trim(),
    board: {
      statedInputV: number(text.statedInputV, 'V'),
      statedLimitA: number(text.statedLimitA, 'A'),
      runningA: number(text.runningA, 'A'),
      runsFlat: text.runsFlat === 'unknown' ? null : text.runsFlat === 'yes',
    },
    template: text.template,
  };
}

/** A stored job as text, to change it. */
export function textOf(job: Job): JobText {
  const shown = (value: number | null, unit: 'V' | 'A') =>
    value === null ? '' : formatQuantity(value, unit, null, { prefix: 0 }).replace('\u00a0', ' ');
  const { runsFlat } = job.board;
  return {
    boardModel: job.boardModel ?? '',
    serialNumber: job.serialNumber,
    customer: job.customer,
    symptom: job.symptom,
    liquid: job.liquid,
    matters: job.matters,
    earlierRepairs: job.earlierRepairs,
    accessories: job.accessories,
    promised: job.promised,
    statedInputV: shown(job.board.statedInputV, 'V'),
    statedLimitA: shown(job.board.statedLimitA, 'A'),
    runningA: shown(job.board.runningA, 'A'),
    runsFlat: runsFlat === null ? 'unknown' : runsFlat ? 'yes' : 'no',
    template: job.template,
  };
}
