import { type NumberRule, readBoolean, readNumber } from '../scpi/read-parameter.ts';
import type { CommandOutcome, ScpiCommand } from '../scpi/scpi-command.ts';
import { isFault, scpiFault } from '../scpi/scpi-fault.ts';
import { writeFixed } from '../scpi/write-value.ts';

/** A number setting with its command pair. */
export interface Setting {
  readonly pattern: string;
  readonly rule: NumberRule & { words: Record<string, number> };
  readonly get: () => number;
  readonly put: (value: number) => void;
}

/** A range with its MINimum, MAXimum and DEFault, in SI units. */
export function limits(
  unit: 'V' | 'A' | 'S',
  min: number,
  max: number,
  usual: number,
): Setting['rule'] {
  return { unit, min, max, words: { MINimum: min, MAXimum: max, DEFault: usual } };
}

/** The command that writes a number in thousandths, and the query that reads it or its limits. */
export function settingCommands({ pattern, rule, get, put }: Setting): ScpiCommand[] {
  const written = (value: number) => writeFixed(value, 3);
  return [
    {
      pattern,
      takes: [1, 1],
      run: ({ parameters }) => {
        const value = readNumber(parameters[0]!, rule);
        if (isFault(value)) return value;
        put(Math.round(value * 1000) / 1000);
      },
    },
    {
      pattern: `${pattern}?`,
      takes: [0, 1],
      run: ({ parameters }) => {
        const which = parameters[0];
        if (!which) return written(get());
        const value = which.kind === 'word' ? readNumber(which, rule) : scpiFault(-104);
        return isFault(value) ? value : written(value);
      },
    },
  ];
}

/** The command that switches something on or off, and the query that tells which. */
export function switchCommands(
  pattern: string,
  get: () => boolean,
  put: (on: boolean) => CommandOutcome,
): ScpiCommand[] {
  return [
    {
      pattern,
      takes: [1, 1],
      run: ({ parameters }) => {
        const on = readBoolean(parameters[0]!);
        return isFault(on) ? on : put(on);
      },
    },
    { pattern: `${pattern}?`, run: () => bit(get()) },
  ];
}

/** A Boolean as an answer: 1 or 0 (SCPI-1999 vol. 1, 7.3). */
export function bit(on: boolean): string {
  return on ? '1' : '0';
}
