import { WakelineError } from '../errors.ts';
import { templateData } from './template-data.ts';
import { stepFrom, type Template } from './template-step.ts';

/** Every template, its steps with their defaults. `templateSchema` holds them to their shape. */
export const templates: readonly Template[] = templateData.map((template) => ({
  ...template,
  steps: template.steps.map(stepFrom),
}));

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
