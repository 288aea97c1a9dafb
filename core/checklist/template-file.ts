import { WakelineError } from '../errors.ts';
import { type TemplateFault, templateFaults } from './template-faults.ts';
import { templateShape } from './template-schema.ts';
import { stepFrom, type Template } from './template-step.ts';

/** The first line of every template file: what it is and in which form. */
const FORMAT = 'wakeline-checklist';
const VERSION = 1;

/** A template as a JSON file, a step a line group, to be read by people and by `readTemplateFile`. */
export function writeTemplateFile({ key, title, steps }: Template): string {
  return `${JSON.stringify({ format: FORMAT, version: VERSION, key, title, steps }, null, 2)}\n`;
}

/**
 * Reads a template file. What a step leaves out takes its default.
 * @throws WakelineError `bad-input` naming the step: no JSON, another kind of file, a newer form, a
 * field that is missing, unknown or wrong, a template that cannot be walked.
 */
export function readTemplateFile(text: string, where: string): Template {
  const refuse = (what: string, at: string, todo: string): never => {
    throw new WakelineError({ code: 'bad-input', what, where: at, todo });
  };
  let file: unknown;
  try {
    file = JSON.parse(text.replace(/^\uFEFF/u, ''));
  } catch (thrown) {
    const said = thrown instanceof Error ? thrown.message : String(thrown);
    return refuse(`The file is not JSON: ${said}`, where, 'Nothing was changed. Choose another.');
  }
  const {
    format,
    version,
    steps: listed,
    ...rest
  } = (typeof file === 'object' && file !== null ? file : {}) as Record<string, unknown>;
  if (format !== FORMAT) {
    refuse('The file holds no checklist', where, `It has to say "format": "${FORMAT}".`);
  }
  if (version !== VERSION) {
    refuse(
      `The file is of form ${String(version)}, and this app reads form ${VERSION}`,
      where,
      'Update the app, or write the file again with the older one.',
    );
  }
  const steps: readonly unknown[] = Array.isArray(listed) ? listed : [];
  const filled = {
    ...rest,
    steps: steps.map((step) =>
      typeof step === 'object' && step !== null ? stepFrom(step as Template['steps'][0]) : step,
    ),
  };
  const parsed = templateShape.safeParse(filled);
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!;
    const [list, index, ...field] = issue.path;
    const at =
      list === 'steps' && typeof index === 'number'
        ? `${where}, ${nameOf(steps[index], index)}${field.length === 0 ? '' : `, ${field.join('.')}`}`
        : [where, ...issue.path].join(', ');
    return refuse(issue.message, at, 'Mend the file there. Nothing was changed.');
  }
  checkTemplate(parsed.data, where);
  return parsed.data;
}

/** Throws `bad-input` naming the first step that keeps a template from being walked. */
export function checkTemplate(template: Template, where: string): void {
  const fault = templateFaults(template)[0];
  if (fault === undefined) return;
  throw new WakelineError({
    code: 'bad-input',
    what: fault.what,
    where: `${where}, ${faultPlace(template, fault)}`,
    todo: `${fault.todo} Nothing was changed.`,
  });
}

/** Which step a fault is at, as a person finds it. */
export function faultPlace(template: Template, { index }: TemplateFault): string {
  return index === null ? template.title : nameOf(template.steps[index], index);
}

function nameOf(step: unknown, index: number): string {
  const title = (step as { readonly title?: unknown } | null | undefined)?.title;
  return `step ${index + 1}${typeof title === 'string' ? ` "${title}"` : ''}`;
}
