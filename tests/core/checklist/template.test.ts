import { describe, expect, it } from 'vitest';
import { templateFor, templates } from '../../../core/checklist/template.ts';
import { templateSchema } from '../../../core/checklist/template-schema.ts';
import { PHASES, stepFrom } from '../../../core/checklist/template-step.ts';
import { WakelineError } from '../../../core/errors.ts';

// The order of work and the cautions asserted here are common practice of board repair, no source.
describe('every template', () => {
  it.each(templates.map((t) => [t.key, t] as const))(
    '%s looks and measures before it powers, and proves before it returns',
    (_, template) => {
      const at = (step: string) => template.steps.findIndex((s) => s.step === step);
      const order = [
        'cells-unplugged',
        'capacitors-discharged',
        'ohms-input',
        'first-run',
        'part-lifted',
        'part-fitted',
        'same-points-again',
        'second-run',
        'wakes-three-times',
        'told-the-customer',
      ].map(at);
      expect(order).not.toContain(-1);
      expect(order).toEqual([...order].sort((a, b) => a - b));
      for (const phase of PHASES) {
        expect(template.steps.some((step) => step.phase === phase)).toBe(true);
      }
    },
  );

  it.each(templates.map((t) => [t.key, t] as const))(
    '%s holds power back for cells, capacitors, a look and resistance to ground',
    (_, template) => {
      const gates = template.steps
        .filter((s) => ['power', 'ohms'].includes(s.gate))
        .map((s) => s.step);
      expect(gates).toEqual(
        expect.arrayContaining([
          'cells-unplugged',
          'capacitors-discharged',
          'looked-over',
          'ohms-input',
          'ohms-main-rail',
        ]),
      );
    },
  );

  it.each(templates.map((t) => [t.key, t] as const))(
    '%s shows a caution wherever someone or something can be hurt',
    (_, template) => {
      const dangerous = template.steps.filter(
        (s) =>
          ['ohms', 'diode', 'volts'].includes(s.quantity ?? '') ||
          ['part', 'run'].includes(s.needs) ||
          /cells|capacitor|bath|outputs|loads|soak|inject|backlight|charges|charging/i.test(
            s.step + s.title,
          ),
      );
      const bare = dangerous
        .filter((s) => s.caution === null && s.step !== 'wakes-three-times')
        .map((s) => s.step);
      expect(bare).toEqual([]);
    },
  );
});

describe('a controller', () => {
  it('has its field outputs disconnected before power, and loads back on at the end', () => {
    const { steps } = templateFor('controller');
    const outputs = steps.find((s) => s.step === 'field-outputs-off')!;
    expect(outputs.gate).toBe('power');
    expect(outputs.caution).toMatch(/moves machinery/);
    const at = (step: string) => steps.findIndex((s) => s.step === step);
    expect(at('loads-back')).toBeGreaterThan(at('soaked'));
  });
});

describe('a wet board', () => {
  it('is washed and dry before power', () => {
    const { steps } = templateFor('liquid');
    const dry = steps.find((s) => s.step === 'dried-and-looked')!;
    expect(dry).toMatchObject({ when: 'always', gate: 'power' });
    expect(steps.find((s) => s.step === 'bath-and-rinse')?.caution).toMatch(
      /Not in the bath: cells, displays/,
    );
  });
});

describe('a template as data', () => {
  const good = templates[0]!;
  const step = stepFrom({ step: 'a-step', phase: 'Look', title: 'A step' });
  const reading = { needs: 'reading', quantity: 'ohms', place: 'VIN' } as const;

  it.each(templates.map((t) => [t.key, t] as const))('%s passes its schema', (_, template) => {
    expect(templateSchema.parse(template)).toEqual(template);
  });

  it.each<[string, readonly object[]]>([
    ['a step that comes twice', [step, step]],
    [
      'phases out of order',
      [
        { ...step, phase: 'Power' },
        { ...step, step: 'b' },
      ],
    ],
    ['a phase that there is not', [{ ...step, phase: 'Later' }]],
    ['a reading without a quantity', [{ ...step, ...reading, quantity: null }]],
    ['a reading without a place', [{ ...step, ...reading, place: '' }]],
    ['a quantity on a step without a reading', [{ ...step, quantity: 'ohms' }]],
    ['a field that nobody knows', [{ ...step, colour: 'red' }]],
    ['no steps', []],
  ])('is refused with %s', (_, steps) => {
    expect(templateSchema.safeParse({ ...good, steps: [{ ...step, step: 'ok' }] }).success).toBe(
      true,
    );
    expect(templateSchema.safeParse({ ...good, steps }).success).toBe(false);
  });

  it('is asked for by key, and an unknown key names those there are', () => {
    expect(templateFor('no-picture').title).toBe('Runs, no picture');
    expect(() => templateFor('nope')).toThrow(WakelineError);
    expect(() => templateFor('nope')).toThrow(
      /does-not-turn-on, liquid, no-picture, charging, controller, after-repair/,
    );
  });
});
