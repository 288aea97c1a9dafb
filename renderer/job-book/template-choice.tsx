import { useEffect, useState } from 'react';
import { templates } from '../../core/checklist/template.ts';
import { useActions } from '../state/use-desk.ts';
import { Choice } from './job-form.tsx';
import type { JobText } from './job-text.ts';

const BUILT_IN = templates.map((template) => [template.key, template.title] as const);

/** Which checklist the job is walked with: the shop's kinds of job, without those it put away. */
export function TemplateChoice(props: { text: JobText; onChange: (text: JobText) => void }) {
  const { ask } = useActions();
  const [kinds, setKinds] = useState<readonly (readonly [string, string])[]>(BUILT_IN);
  useEffect(() => {
    void ask('listTemplates', {}).then((found) => {
      if (found === null || found.length === 0) return;
      setKinds(
        found
          .filter(({ origin }) => origin !== 'away')
          .map(({ key, title }) => [key, title] as const),
      );
    });
  }, [ask]);
  const own = props.text.template;
  const options = kinds.some(([key]) => key === own) ? kinds : [...kinds, [own, own] as const];
  return (
    <Choice
      legend="Checklist"
      name="template"
      value={own}
      options={options}
      onChange={(event) => props.onChange({ ...props.text, template: event.target.value })}
    />
  );
}
