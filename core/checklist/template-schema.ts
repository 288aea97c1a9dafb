import { z } from 'zod';
import type { ChecklistItem, Quantity } from '../job/job.ts';
import { PHASES, STEP_TIMES, type Template } from './template-step.ts';

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

const templateStep = z
  .strictObject({
    step: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/u),
    phase: z.enum(PHASES),
    title: z.string().min(3).max(72),
    needs,
    quantity: quantity.nullable(),
    place: z.string().max(80),
    caution: z.string().min(10).nullable(),
    beforePower: z.boolean(),
    when: z.enum(STEP_TIMES),
  })
  .refine((s) => (s.needs === 'reading') === (s.quantity !== null), {
    message: 'a step that needs a reading names its quantity, and no other does',
  })
  .refine((s) => s.needs !== 'reading' || s.place !== '' || s.when === 'part-fitted', {
    message: 'a step that needs a reading names its place',
  });

/**
 * What a template must be: its steps follow the phases' order and none comes twice. Apart from the
 * templates themselves, so that the window needs no schema library to show them.
 */
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
  ) satisfies z.ZodType<Template>;
