import { describe, expect, it } from 'vitest';
import { openBeforeOhms, openGates } from '../../../core/checklist/gates.ts';
import { itemsAtIntake } from '../../../core/checklist/new-items.ts';
import { templateFor } from '../../../core/checklist/template.ts';

const items = itemsAtIntake(templateFor('does-not-turn-on'), 'no').map((item, i) => ({
  ...item,
  id: String(i),
}));
const withState = (state: 'done' | 'skipped', ...steps: string[]) =>
  items.map((item) => (steps.includes(item.step) ? { ...item, state } : item));

describe('power', () => {
  it('waits for every gate, and only for gates', () => {
    const steps = openGates(items).map((item) => item.step);
    expect(steps).toEqual([
      'cells-unplugged',
      'capacitors-discharged',
      'looked-over',
      'ohms-input',
      'ohms-main-rail',
      'ohms-main-to-core',
    ]);
    const left = withState('done', ...steps.slice(0, -1));
    expect(openGates(left).map((item) => item.step)).toEqual(['ohms-main-to-core']);
    expect(openGates(withState('done', ...steps))).toEqual([]);
  });

  it('takes a step that was skipped with a reason for done', () => {
    const steps = openGates(items).map((item) => item.step);
    expect(openGates(withState('skipped', ...steps))).toEqual([]);
  });
});

describe('ohms and diode readings', () => {
  it('wait for cells and capacitors alone', () => {
    expect(openBeforeOhms(items).map((item) => item.step)).toEqual([
      'cells-unplugged',
      'capacitors-discharged',
    ]);
    const done = withState('done', 'cells-unplugged', 'capacitors-discharged');
    expect(openBeforeOhms(done)).toEqual([]);
  });
});
