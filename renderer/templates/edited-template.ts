import { type GateLoss, gateLosses } from '../../core/checklist/gate-losses.ts';
import { type TemplateFault, templateFaults } from '../../core/checklist/template-faults.ts';
import type { Template, TemplateStep } from '../../core/checklist/template-step.ts';
import type { TemplateVersion } from '../../core/checklist/template-version.ts';

/** A template on the desk: what it was taken from and what it says now. */
export interface EditedTemplate {
  /** Null = a new kind of job. */
  readonly key: string | null;
  readonly title: string;
  readonly steps: readonly TemplateStep[];
  /** The step that is opened; -1 = none. */
  readonly at: number;
  readonly isFromFile: boolean;
  /** Ids of losses that a person said to have understood. */
  readonly understood: readonly string[];
}

export function editVersion({ key, title, steps }: TemplateVersion): EditedTemplate {
  return { key, title, steps, at: 0, isFromFile: false, understood: [] };
}

/** The same steps for a kind of job that there is not yet. */
export function copyForNewKind(from: EditedTemplate): EditedTemplate {
  return { ...from, key: null, title: `${from.title}, ours`.slice(0, 48), understood: [] };
}

/** What keeps it from being kept: faults, and losses that nobody said to have understood. */
export function judgeEdited(edited: EditedTemplate): {
  readonly faults: readonly TemplateFault[];
  readonly losses: readonly GateLoss[];
  readonly unsaid: readonly GateLoss[];
} {
  const template: Template = { ...edited, key: edited.key ?? 'new-kind' };
  const losses = gateLosses(template);
  return {
    faults: templateFaults(template),
    losses,
    unsaid: losses.filter(({ id }) => !edited.understood.includes(id)),
  };
}

/** Whether it says something else than the version it was taken from. */
export function isChanged(edited: EditedTemplate, from: TemplateVersion | null): boolean {
  if (from === null || edited.key === null) return true;
  return edited.title !== from.title || JSON.stringify(edited.steps) !== JSON.stringify(from.steps);
}

/** The step at `at` with some fields changed; a need other than a reading drops its quantity. */
export function changeStep(
  edited: EditedTemplate,
  at: number,
  part: Partial<TemplateStep>,
): EditedTemplate {
  return {
    ...edited,
    steps: edited.steps.map((step, i) => (i === at ? settled({ ...step, ...part }) : step)),
  };
}

function settled(step: TemplateStep): TemplateStep {
  if (step.needs === 'reading') return { ...step, quantity: step.quantity ?? 'volts' };
  return { ...step, quantity: null, place: '' };
}
