import type { TemplateStep } from '../../core/checklist/template-step.ts';

export const NEED_WORDS: Readonly<Record<TemplateStep['needs'], string>> = {
  confirm: 'a confirmation',
  caution: 'its caution read',
  note: 'a few words',
  reading: 'a reading',
  run: 'a run',
  photo: 'a picture',
  part: 'a part written down',
};

export const TIME_WORDS: Readonly<Record<TemplateStep['when'], string>> = {
  always: 'in every job',
  liquid: 'when the board got wet',
  'part-fitted': 'after a part was fitted',
};

/** A step's need in a line: a reading says of what and where. */
export function needLine(step: TemplateStep): string {
  if (step.needs !== 'reading') return NEED_WORDS[step.needs];
  const where = step.place === '' ? 'at the points from before' : `at ${step.place}`;
  return `${step.quantity ?? 'a reading'} ${where}`;
}
