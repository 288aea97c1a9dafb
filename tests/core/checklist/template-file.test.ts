import { describe, expect, it } from 'vitest';
import { templates } from '../../../core/checklist/template.ts';
import { readTemplateFile, writeTemplateFile } from '../../../core/checklist/template-file.ts';
import { WakelineError } from '../../../core/errors.ts';

const troubleOf = (text: string) => {
  try {
    readTemplateFile(text, 'ours.json');
    return null;
  } catch (thrown) {
    return thrown instanceof WakelineError ? thrown.trouble : thrown;
  }
};
const file = (change: (data: { steps: object[] }) => void): string => {
  const data = JSON.parse(writeTemplateFile(templates[0]!));
  change(data);
  return JSON.stringify(data);
};

describe('a template file', () => {
  it('reads back what it writes, of every kind of job', () => {
    for (const template of templates) {
      expect(readTemplateFile(writeTemplateFile(template), 'f')).toEqual(template);
      expect(readTemplateFile(`\uFEFF${writeTemplateFile(template)}`, 'f')).toEqual(template);
    }
  });

  it('fills in what a step leaves out', () => {
    const text = JSON.stringify({
      format: 'wakeline-checklist',
      version: 1,
      key: 'ours',
      title: 'Ours',
      steps: [{ step: 'look', phase: 'Look', title: 'Looked over' }],
    });
    expect(readTemplateFile(text, 'f').steps[0]).toMatchObject({
      needs: 'confirm',
      gate: 'nothing',
      caution: null,
      when: 'always',
    });
  });

  it.each<[string, string, RegExp, RegExp]>([
    ['no JSON', '{', /not JSON/, /^ours\.json$/],
    ['another file', '{"rails": []}', /no checklist/, /^ours\.json$/],
    ['a list', '[1]', /no checklist/, /^ours\.json$/],
    ['a newer form', file((d) => Object.assign(d, { version: 9 })), /form 9/, /^ours\.json$/],
    [
      'an unknown phase',
      file((d) => Object.assign(d.steps[2]!, { phase: 'Later' })),
      /Invalid option/,
      /^ours\.json, step 3 "Data or device: ask which matters", phase$/,
    ],
    [
      'an unknown field',
      file((d) => Object.assign(d.steps[0]!, { colour: 'red' })),
      /colour/,
      /^ours\.json, step 1 "Hear what happened, see the fault"$/,
    ],
    [
      'a step that cannot be done',
      file((d) => Object.assign(d.steps[0]!, { needs: 'run', gate: 'power' })),
      /never be done/,
      /^ours\.json, step 1 "Hear/,
    ],
    ['no steps', file((d) => Object.assign(d, { steps: [] })), /no step/, /^ours\.json, /],
    ['a step that is none', file((d) => Object.assign(d, { steps: [4] })), /./, /step 1/],
  ])('is refused with %s, naming the place', (_, text, what, where) => {
    expect(troubleOf(text)).toMatchObject({
      code: 'bad-input',
      what: expect.stringMatching(what),
      where: expect.stringMatching(where),
      todo: expect.stringMatching(/./),
    });
  });
});
