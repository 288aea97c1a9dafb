import { z } from 'zod';
import type { Quantity } from '../job/job.ts';
import { GATES } from './gate.ts';
import { templateFaults } from './template-faults.ts';
import { NEEDS, PHASES, STEP_TIMES, type Template } from './template-step.ts';

const quantity = z.enum([
  'volts',
  'ohms',
  'diode',
  'continuity',
  'amps',
]) satisfies z.ZodType<Quantity>;

/** One step as data: its fields and no others. */
export const stepShape = z.strictObject({
  step: z.string().max(80),
  phase: z.enum(PHASES),
  title: z.string().max(200),
  needs: z.enum(NEEDS),
  quantity: quantity.nullable(),
  place: z.string().max(80),
  caution: z.string().max(2000).nullable(),
  gate: z.enum(GATES),
  when: z.enum(STEP_TIMES),
});

/** A template as data; whether it can be walked is what `templateFaults` says. */
export const templateShape = z.strictObject({
  key: z
    .string()
    .max(60)
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/u),
  title: z.string().max(200),
  steps: z.array(stepShape).max(300),
}) satisfies z.ZodType<Template>;

/**
 * What a template must be: its shape, and that it can be walked. Apart from the templates
 * themselves, so that the window needs no schema library to show them.
 */
export const templateSchema = templateShape.refine((t) => templateFaults(t).length === 0, {
  message: 'the template cannot be walked',
}) satisfies z.ZodType<Template>;
