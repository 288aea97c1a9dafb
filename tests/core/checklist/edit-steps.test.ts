import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addStep, moveStep, putInPhase, stepKey } from '../../../core/checklist/edit-steps.ts';
import { templateFor } from '../../../core/checklist/template.ts';
import { templateFaults } from '../../../core/checklist/template-faults.ts';
import { PHASES, stepFrom, type TemplateStep } from '../../../core/checklist/template-step.ts';

const steps = [
  stepFrom({ step: 'a', phase: 'Look', title: 'First' }),
  stepFrom({ step: 'b', phase: 'Look', title: 'Second' }),
  stepFrom({ step: 'c', phase: 'Power', title: 'Third' }),
];
const shown = (list: readonly TemplateStep[]) => list.map(({ step, phase }) => `${step} ${phase}`);

describe('moveStep', () => {
  it('changes places inside a phase, and the phase at its edge', () => {
    const down = moveStep(steps, 0, 1);
    expect([shown(down.steps), down.index]).toEqual([['b Look', 'a Look', 'c Power'], 1]);
    const over = moveStep(down.steps, down.index, 1);
    expect([shown(over.steps), over.index]).toEqual([['b Look', 'a Before power', 'c Power'], 1]);
    const joined = moveStep(over.steps, over.index, 1);
    expect(shown(joined.steps)).toEqual(['b Look', 'a Power', 'c Power']);
  });

  it('stops at the first and the last phase', () => {
    const first = [stepFrom({ step: 'a', phase: 'Take in', title: 'First' })];
    expect(moveStep(first, 0, -1)).toEqual({ steps: first, index: 0 });
  });

  it('never breaks the order of phases, whatever is pressed', () => {
    const { steps: all, key, title } = templateFor('liquid');
    const press = fc.tuple(fc.nat(all.length - 1), fc.constantFrom<-1 | 1>(-1, 1));
    fc.assert(
      fc.property(fc.array(press, { maxLength: 40 }), (presses) => {
        const moved = presses.reduce((list, [at, by]) => moveStep(list, at, by).steps, all);
        expect(moved).toHaveLength(all.length);
        const order = templateFaults({ key, title, steps: moved }).filter(({ what }) =>
          / comes before .*stands after/.test(what),
        );
        expect(order).toEqual([]);
      }),
      { numRuns: 100, seed: 4 },
    );
  });
});

describe('addStep, putInPhase and stepKey', () => {
  it('add into the phase of the step before', () => {
    expect(shown(addStep(steps, 1, 'New step'))).toEqual([
      'a Look',
      'b Look',
      'new-step Look',
      'c Power',
    ]);
    expect(shown(addStep([], -1, 'New step'))).toEqual(['new-step Look']);
  });

  it('put a step at the end of another phase', () => {
    for (const phase of PHASES) {
      const put = putInPhase(steps, 0, phase);
      expect(put.steps[put.index]).toMatchObject({ step: 'a', phase });
      const order = put.steps.map((step) => PHASES.indexOf(step.phase));
      expect(order).toEqual([...order].sort((a, b) => a - b));
    }
  });

  it('give keys that no other step has', () => {
    expect(stepKey('Größe: 5 mm?', steps)).toBe('gro-e-5-mm');
    expect(stepKey('A', steps)).toBe('a-2');
    expect(stepKey('…', [])).toBe('step');
  });
});
