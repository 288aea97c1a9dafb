import { PHASES, type Phase, stepFrom, type TemplateStep } from './template-step.ts';

/**
 * Steps with one moved a place up (-1) or down (1). At the edge of a phase it first joins the
 * neighbouring phase without changing places, so that no key press breaks the order of phases.
 */
export function moveStep(
  steps: readonly TemplateStep[],
  index: number,
  by: -1 | 1,
): { readonly steps: readonly TemplateStep[]; readonly index: number } {
  const step = steps[index];
  if (step === undefined) return { steps, index };
  const neighbour = steps[index + by];
  if (neighbour !== undefined && neighbour.phase === step.phase) {
    const moved = [...steps];
    moved[index] = neighbour;
    moved[index + by] = step;
    return { steps: moved, index: index + by };
  }
  const phase = PHASES[PHASES.indexOf(step.phase) + by];
  return phase === undefined
    ? { steps, index }
    : { steps: steps.map((one, i) => (i === index ? { ...one, phase } : one)), index };
}

/** Steps with a fresh one after `index` (-1 = first), in the phase of the step before it. */
export function addStep(
  steps: readonly TemplateStep[],
  index: number,
  title: string,
  phase: Phase = steps[index]?.phase ?? steps[0]?.phase ?? 'Look',
): readonly TemplateStep[] {
  const fresh = stepFrom({ step: stepKey(title, steps), phase, title });
  return [...steps.slice(0, index + 1), fresh, ...steps.slice(index + 1)];
}

/** Steps with one in another phase: it goes to the end of that phase. */
export function putInPhase(
  steps: readonly TemplateStep[],
  index: number,
  phase: Phase,
): { readonly steps: readonly TemplateStep[]; readonly index: number } {
  const step = steps[index];
  if (step === undefined || step.phase === phase) return { steps, index };
  const rest = steps.filter((_, i) => i !== index);
  const before = rest.filter((one) => PHASES.indexOf(one.phase) <= PHASES.indexOf(phase)).length;
  return {
    steps: [...rest.slice(0, before), { ...step, phase }, ...rest.slice(before)],
    index: before,
  };
}

/** A key for a step of this title that none of the others has. */
export function stepKey(title: string, steps: readonly TemplateStep[]): string {
  const words = title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/gu, '-')
    .replace(/^-+|-+$/gu, '')
    .slice(0, 40)
    .replace(/-+$/u, '');
  const base = words === '' ? 'step' : words;
  const taken = new Set(steps.map(({ step }) => step));
  let key = base;
  for (let n = 2; taken.has(key); n += 1) key = `${base}-${n}`;
  return key;
}
