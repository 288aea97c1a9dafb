import { z } from 'zod';
import type { ChecklistItem, Quantity } from '../job/job.ts';

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

/** When a step belongs to a job: at once, when the board got wet, or once a part was fitted. */
const when = z.enum(['always', 'liquid', 'part-fitted']);

const quantity = z.enum([
  'volts',
  'ohms',
  'diode',
  'continuity',
  'amps',
]) satisfies z.ZodType<Quantity>;

const needs = z.enum(['confirm', 'reading', 'run', 'part', 'note']) satisfies z.ZodType<
  ChecklistItem['needs']
>;

/** One step of a template. */
export const templateStep = z
  .strictObject({
    step: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/u),
    phase: z.enum(PHASES),
    title: z.string().min(3).max(72),
    needs: needs.default('confirm'),
    quantity: quantity.nullable().default(null),
    place: z.string().max(80).default(''),
    caution: z.string().min(10).nullable().default(null),
    beforePower: z.boolean().default(false),
    when: when.default('always'),
  })
  .refine((s) => (s.needs === 'reading') === (s.quantity !== null), {
    message: 'a step that needs a reading names its quantity, and no other does',
  })
  .refine((s) => s.needs !== 'reading' || s.place !== '' || s.step === 'same-points-again', {
    message: 'a step that needs a reading names its place',
  });

/** How a template is written down: what is left out takes its default. */
export type StepData = z.input<typeof templateStep>;
export type TemplateStep = z.output<typeof templateStep>;

/** A whole template: its steps follow the phases' order and no step comes twice. */
export const templateSchema = z
  .strictObject({
    key: z.string().regex(/^[a-z]+(-[a-z]+)*$/u),
    title: z.string().min(3).max(48),
    steps: z.array(templateStep).min(1),
  })
  .refine((t) => new Set(t.steps.map((s) => s.step)).size === t.steps.length, {
    message: 'a step comes twice',
  })
  .refine(
    (t) =>
      t.steps.every(
        (s, i) => i === 0 || PHASES.indexOf(s.phase) >= PHASES.indexOf(t.steps[i - 1]!.phase),
      ),
    { message: 'the steps do not follow the order of the phases' },
  );

export interface TemplateData {
  readonly key: string;
  readonly title: string;
  readonly steps: readonly StepData[];
}
export type Template = z.output<typeof templateSchema>;
