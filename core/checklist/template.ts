import { z } from 'zod';
import { WakelineError } from '../errors.ts';
import { templateData } from './template-data.ts';
import { type Template, templateSchema } from './template-step.ts';

/** Every template, checked once when the program starts. */
export const templates: readonly Template[] = z.array(templateSchema).parse(templateData);

/** The template with this key. Throws `bad-input` naming those there are. */
export function templateFor(key: string): Template {
  const found = templates.find((template) => template.key === key);
  if (found !== undefined) return found;
  throw new WakelineError({
    code: 'bad-input',
    what: `There is no checklist called "${key}"`,
    where: 'the job’s checklist',
    todo: `Choose one of ${templates.map((template) => template.key).join(', ')}.`,
  });
}
