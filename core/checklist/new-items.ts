import type { ChecklistItem, Liquid, Quantity, Reading } from '../job/job.ts';
import { isAtLeast } from './gate.ts';
import type { Template, TemplateStep } from './template-step.ts';

/** An item before it is stored. `position` orders a job's items. */
export type NewItem = Omit<ChecklistItem, 'id' | 'readings'> & { readonly position: number };

/** Room between two steps of a template for the points that are measured again. */
const STRIDE = 100;
/** Most points of the time before a fit that are asked for again. */
const MOST_POINTS = STRIDE - 1;

/** Quantities that are read with the board off: the points to measure again before power. */
const BOARD_OFF: readonly Quantity[] = ['ohms', 'diode', 'continuity'];

const itemOf = (step: TemplateStep, position: number): NewItem => ({
  step: step.step,
  phase: step.phase,
  title: step.title,
  needs: step.needs,
  quantity: step.quantity,
  place: step.place,
  caution: step.caution,
  gate: step.gate,
  beforePower: isAtLeast(step.gate, 'power'),
  state: 'open',
  at: null,
  reason: '',
  doneBy: '',
  position,
});

const numbered = (template: Template) =>
  template.steps.map((step, i) => ({ step, position: (i + 1) * STRIDE }));

/** The items that a job begins with. A board that got wet is washed whatever the template. */
export function itemsAtIntake(template: Template, liquid: Liquid): readonly NewItem[] {
  return numbered(template)
    .filter(({ step }) => step.when === 'always' || (step.when === 'liquid' && liquid === 'yes'))
    .map(({ step, position }) => itemOf(step, position));
}

/** A point that was measured: what, and where as a person named it. */
export interface Point {
  readonly quantity: Quantity;
  readonly place: string;
}

/**
 * The points measured before `at` (UTC ms), each once, in order: with the board off (ohms, diode,
 * continuity), or powered (volts).
 */
export function pointsBefore(
  readings: readonly Reading[],
  at: number,
  powered = false,
): readonly Point[] {
  const wanted: readonly Quantity[] = powered ? ['volts'] : BOARD_OFF;
  const seen = new Map<string, Point>();
  for (const { quantity, place, takenAt } of readings) {
    if (takenAt > at || place === '' || !wanted.includes(quantity)) continue;
    const key = `${quantity} ${place.toLowerCase()}`;
    if (!seen.has(key)) seen.set(key, { quantity, place });
  }
  return [...seen.values()].slice(0, MOST_POINTS);
}

/**
 * The items that a fitted part calls for: a step that asks for ohms becomes one item for each point
 * measured with the board off before, a step that asks for volts one for each measured powered; the
 * others come as they are. A step that names its place keeps it. Without an earlier point, the
 * input's resistance, and no volts.
 */
export function itemsAfterFit(
  template: Template,
  readings: readonly Reading[],
  fittedAt: number,
): readonly NewItem[] {
  return numbered(template)
    .filter(({ step }) => step.when === 'part-fitted')
    .flatMap(({ step, position }) =>
      step.needs === 'reading' && step.place === ''
        ? pointsFor(step, readings, fittedAt).map((point, i) => ({
            ...itemOf(step, position + i),
            ...point,
            title: `${step.title}: ${point.place}`,
          }))
        : [itemOf(step, position)],
    );
}

function pointsFor(
  step: TemplateStep,
  readings: readonly Reading[],
  fittedAt: number,
): readonly Point[] {
  if (step.quantity === 'volts') return pointsBefore(readings, fittedAt, true);
  const before = pointsBefore(readings, fittedAt);
  return before.length > 0 ? before : [{ quantity: 'ohms', place: 'Input' }];
}
