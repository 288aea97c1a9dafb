import type { ChecklistItem, Quantity } from '../job/job.ts';
import type { Gate } from './gate.ts';

/** The walk of a job, in order. */
export const PHASES = [
  'Take in',
  'Look',
  'Before power',
  'Power',
  'Rails',
  'Repair',
  'Prove',
  'Clean and return',
] as const;
export type Phase = (typeof PHASES)[number];

/** What settles a step. */
export const NEEDS = ['confirm', 'caution', 'note', 'reading', 'run', 'photo', 'part'] as const;

/** When a step belongs to a job: at once, when the board got wet, or once a part was fitted. */
export const STEP_TIMES = ['always', 'liquid', 'part-fitted'] as const;

/** One step of a template. */
export interface TemplateStep {
  readonly step: string;
  readonly phase: Phase;
  readonly title: string;
  readonly needs: ChecklistItem['needs'];
  readonly quantity: Quantity | null;
  readonly place: string;
  readonly caution: string | null;
  readonly gate: Gate;
  readonly when: (typeof STEP_TIMES)[number];
}

/** How a step is written down: what is left out takes its default. */
export type StepData = Pick<TemplateStep, 'step' | 'phase' | 'title'> & Partial<TemplateStep>;

export interface TemplateData {
  readonly key: string;
  readonly title: string;
  readonly steps: readonly StepData[];
}

export interface Template {
  readonly key: string;
  readonly title: string;
  readonly steps: readonly TemplateStep[];
}

/** A step with its defaults: a confirmation that holds nothing back. */
export function stepFrom(data: StepData): TemplateStep {
  return {
    needs: 'confirm',
    quantity: null,
    place: '',
    caution: null,
    gate: 'nothing',
    when: 'always',
    ...data,
  };
}
