import { WakelineError } from '../errors.ts';
import type { KnownFrom } from '../parts/equivalence.ts';
import { parsePart } from '../parts/parse-part.ts';
import { kindOfDesignator } from '../parts/part-spec.ts';
import type { ModelPart } from './donor-board.ts';

/**
 * Reads what a board model carries, a part a line: `C12 10u 25V X5R 1206 on MAIN`. Empty lines are
 * passed over.
 * @throws WakelineError `bad-input` naming the line and character: no designator, a word that is no
 * part's, a designator twice.
 */
export function readModelParts(table: string, knownFrom: KnownFrom): readonly ModelPart[] {
  const seen = new Map<string, number>();
  return table.split(/\r?\n/).flatMap((typed, i) => {
    const line = typed.trim();
    if (line === '') return [];
    const refuse = (what: string, todo: string, column = 1): never => {
      throw new WakelineError({
        code: 'bad-input',
        what,
        where: `line ${i + 1}, character ${column}: ${line}`,
        todo,
      });
    };
    const [, designator = '', rest = ''] =
      /^([A-Za-z]{1,4}\d{1,5}[A-Za-z]?)(?:\s+(.*))?$/.exec(line) ?? [];
    if (designator === '') {
      refuse(
        'The line does not begin with a designator',
        'Write it like C12 10u 25V X5R 1206 on MAIN.',
      );
    }
    const [, text = '', rail = ''] = /^(.*?)(?:\s*\bon\s+(\S.*))?$/i.exec(rest) ?? [];
    const key = designator.toUpperCase();
    const earlier = seen.get(key);
    if (earlier !== undefined)
      refuse(`${key} is on line ${earlier} already`, 'Take one of them out.');
    seen.set(key, i + 1);
    const fault = text === '' ? undefined : parsePart(text, kindOfDesignator(key)).faults[0];
    if (fault !== undefined) {
      refuse(fault.what, fault.todo, line.indexOf(text, designator.length) + fault.at + 1);
    }
    return [{ designator: key, text: text.trim(), rail: rail.trim(), knownFrom }];
  });
}

/** The same list as it is typed. */
export function writeModelParts(parts: readonly ModelPart[]): string {
  return parts
    .map(({ designator, text, rail }) =>
      [designator, text, rail === '' ? '' : `on ${rail}`].filter(Boolean).join(' '),
    )
    .join('\n');
}
