import type { Quantity } from '../../core/job/job.ts';
import { errorQueue } from './odd-supplies.ts';
import type { Answer } from './table-link.ts';

/** A bench multimeter written from recorded dialogues: `"VOLT"`, `"RES"`..., READ? in engineering form. */
export interface OddMeter {
  readonly table: readonly (readonly [RegExp, Answer])[];
  readonly errors: ReturnType<typeof errorQueue>;
  /** What its switch is turned to. */
  word: string;
  /** What READ? answers. */
  reading: string;
}

const WORDS: Readonly<Record<string, string>> = {
  'VOLT:DC': 'VOLT',
  VOLT: 'VOLT',
  RES: 'RES',
  DIOD: 'DIOD',
  CONT: 'CONT',
  'CURR:DC': 'CURR',
};
export const WORD_OF: Readonly<Record<Quantity, string>> = {
  volts: 'VOLT',
  ohms: 'RES',
  diode: 'DIOD',
  continuity: 'CONT',
  amps: 'CURR',
};

export function oddMeter(): OddMeter {
  const errors = errorQueue();
  const meter: OddMeter = {
    word: 'VOLT',
    reading: '+3.30210000E+00',
    errors,
    table: [
      [/^\*IDN\?$/i, 'BENCHWORKS,FIVE-DIGIT,000402,3.1'],
      errors.row,
      [/^:?READ\?$/i, () => meter.reading],
      [/^:?FUNC\?$/i, () => `"${meter.word}"`],
      [
        /^:?CONF:([A-Z:]+)$/i,
        ([, word]) => {
          const set = WORDS[word!.toUpperCase()];
          if (set === undefined) return errors.push('-113,"Undefined header"');
          meter.word = set;
          return null;
        },
      ],
    ],
  };
  return meter;
}
