import { describe, expect, it } from 'vitest';
import { gateLosses } from '../../../core/checklist/gate-losses.ts';
import { templateFor, templates } from '../../../core/checklist/template.ts';
import type { Template, TemplateStep } from '../../../core/checklist/template-step.ts';

const changed = (key: string, change: (step: TemplateStep) => TemplateStep | null): Template => {
  const template = templateFor(key);
  return { ...template, steps: template.steps.flatMap((step) => change(step) ?? []) };
};
const only = (name: string, part: Partial<TemplateStep>) => (step: TemplateStep) =>
  step.step === name ? { ...step, ...part } : step;
const without = (name: string) => (step: TemplateStep) => (step.step === name ? null : step);
const idsOf = (template: Template) => gateLosses(template).map(({ id }) => id);

describe('gateLosses', () => {
  it('finds none in what is built in, nor where only words and order changed', () => {
    for (const template of templates) expect(gateLosses(template)).toEqual([]);
    const reworded = changed('liquid', (step) => ({ ...step, title: `${step.title}!`.slice(-72) }));
    expect(gateLosses(reworded)).toEqual([]);
    expect(idsOf(changed('liquid', only('earlier-work', { gate: 'power' })))).toEqual([]);
  });

  it('says what every gate of every kind of job guards once its step is gone', () => {
    for (const template of templates) {
      for (const { step, gate } of template.steps) {
        const losses = gateLosses(changed(template.key, without(step)));
        expect(losses.map(({ id }) => id)).toEqual(gate === 'nothing' ? [] : [`${step}:gone`]);
        // Every gate has words of its own: not its caution's, not none.
        for (const { guards } of losses) expect(guards.length).toBeGreaterThan(20);
      }
    }
  });

  it.each<[string, string, Partial<TemplateStep>, string]>([
    ['a gate that holds nothing', 'cells-unplugged', { gate: 'nothing' }, 'holds-nothing'],
    ['a gate that holds less', 'cells-unplugged', { gate: 'power' }, 'holds-power'],
    ['a gate asked more seldom', 'looked-over', { when: 'liquid' }, 'when-liquid'],
    [
      'a measurement turned into a tick',
      'ohms-input',
      { needs: 'confirm', quantity: null },
      'tick',
    ],
    ['a caution no longer shown', 'second-run', { caution: null }, 'caution'],
  ])('tells of %s', (_, name, part, kind) => {
    expect(idsOf(changed('does-not-turn-on', only(name, part)))).toEqual([`${name}:${kind}`]);
  });

  it('holds a kind of job of the shop’s own to what every board needs', () => {
    const own = { ...changed('controller', without('cells-unplugged')), key: 'amplifier' };
    expect(idsOf(own)).toEqual(['cells-unplugged:gone']);
    const bare: Template = { ...own, steps: own.steps.slice(0, 1) };
    expect(idsOf(bare)).toEqual(
      expect.arrayContaining([
        'cells-unplugged:gone',
        'capacitors-discharged:gone',
        'ohms-input:gone',
        'same-points-again:gone',
        'second-run:gone',
      ]),
    );
  });
});
