import type { Gate } from './gate.ts';
import { isAtLeast } from './gate.ts';
import { PHASES, type Template, type TemplateStep } from './template-step.ts';

/** What is wrong with a template: at which step (from 0; null = the whole), and what to do. */
export interface TemplateFault {
  readonly index: number | null;
  readonly what: string;
  readonly todo: string;
}

const TITLE = { least: 3, most: 72 };
const LEAST_CAUTION = 10;
const STEP_KEY = /^[a-z0-9]+(-[a-z0-9]+)*$/u;
/** The step that the soak settles. */
export const SOAK_STEP = 'soaked';

const isBoardOff = ({ quantity }: TemplateStep) =>
  quantity === 'ohms' || quantity === 'diode' || quantity === 'continuity';
const isNow = ({ when }: TemplateStep) => when !== 'part-fitted';

/**
 * Everything that keeps a template from being walked: a step that lacks what it needs, steps out of
 * order, a gate that holds back the very thing that would open it.
 */
export function templateFaults(template: Template): readonly TemplateFault[] {
  const { steps, title } = template;
  const faults: TemplateFault[] = [];
  const add = (index: number | null, what: string, todo: string) =>
    faults.push({ index, what, todo });
  if (title.trim().length < TITLE.least || title.length > 48) {
    add(null, 'The kind of job has no usable name', 'Name it in 3 to 48 letters.');
  }
  if (steps.length === 0) add(null, 'There is no step', 'Add at least one.');
  const firstAt = new Map<string, number>();
  for (const [index, step] of steps.entries()) {
    for (const [what, todo] of stepFaults(step)) add(index, what, todo);
    const earlier = firstAt.get(step.step);
    if (earlier !== undefined) {
      add(index, `This step comes twice: step ${earlier + 1} is the same`, 'Take one of them out.');
    }
    firstAt.set(step.step, earlier ?? index);
    const before = steps[index - 1];
    if (before !== undefined && PHASES.indexOf(step.phase) < PHASES.indexOf(before.phase)) {
      add(
        index,
        `${step.phase} comes before ${before.phase}, and this step stands after it`,
        'Move the step up, or give it a later phase.',
      );
    }
  }
  const late = (gate: Gate, opens: (step: TemplateStep) => boolean, what: string): void => {
    const first = steps.findIndex((step) => isNow(step) && opens(step));
    for (const [index, step] of steps.entries()) {
      if (first < 0 || index <= first || !isNow(step) || !isAtLeast(step.gate, gate)) continue;
      const todo = 'Move it up before that step, or let it hold back less.';
      add(index, `It holds ${what} back, but "${steps[first]!.title}" comes before it`, todo);
    }
  };
  late('ohms', isBoardOff, 'ohms');
  late('power', ({ needs }) => needs === 'run', 'power');
  late('soak', ({ step }) => step === SOAK_STEP, 'the soak');
  return faults;
}

function* stepFaults(step: TemplateStep): Iterable<readonly [string, string]> {
  const { title, needs, quantity, place, caution, gate } = step;
  if (title.trim().length < TITLE.least || title.length > TITLE.most) {
    yield ['The step has no usable title', 'Write it in 3 to 72 letters.'];
  }
  if (!STEP_KEY.test(step.step)) {
    yield [`"${step.step}" cannot name a step`, 'Use small letters, digits and single dashes.'];
  }
  if (needs === 'reading' && quantity === null) {
    yield ['It needs a reading, but not of what', 'Choose volts, ohms, diode, continuity or amps.'];
  }
  if (needs !== 'reading' && quantity !== null) {
    yield ['It names a quantity but needs no reading', 'Let it need a reading.'];
  }
  if (needs === 'reading' && place.trim() === '' && isNow(step)) {
    yield ['It needs a reading, but not where', 'Write the place: Input, Main rail.'];
  }
  if (caution !== null && caution.trim().length < LEAST_CAUTION) {
    yield ['Its caution says nothing', 'Write what can hurt and how not to be hurt.'];
  }
  if (needs === 'caution' && caution === null) {
    yield ['It is a caution to be read, but has no text', 'Write the caution.'];
  }
  const deadlock = lockOf(step);
  if (deadlock !== null && isAtLeast(gate, deadlock.gate)) {
    yield [
      `It holds ${deadlock.what} back and needs ${deadlock.what} itself: it could never be done`,
      'Let it hold back less, or need something else.',
    ];
  }
}

/** What a step needs before it can be done, and the gate that would keep it from that. */
function lockOf(step: TemplateStep): { readonly gate: Gate; readonly what: string } | null {
  if (step.step === SOAK_STEP) return { gate: 'soak', what: 'the soak' };
  if (step.needs === 'run' || step.quantity === 'amps') return { gate: 'power', what: 'power' };
  return isBoardOff(step) ? { gate: 'ohms', what: 'ohms' } : null;
}
