import { templates } from '../../core/checklist/template.ts';
import { Choice } from './job-form.tsx';
import type { JobText } from './job-text.ts';

const TEMPLATES = templates.map((template) => [template.key, template.title] as const);

/** Which checklist the job is walked with. */
export function TemplateChoice(props: { text: JobText; onChange: (text: JobText) => void }) {
  return (
    <Choice
      legend="Checklist"
      name="template"
      value={props.text.template}
      options={TEMPLATES}
      onChange={(event) => props.onChange({ ...props.text, template: event.target.value })}
    />
  );
}
