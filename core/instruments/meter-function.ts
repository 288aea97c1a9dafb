import type { Quantity } from '../job/job.ts';
import { decodeQuoted } from '../scpi/response-text.ts';

/**
 * What a `FUNC?` or `CONF?` answer says the meter measures: `"VOLT"`, `"VOLT:DC"`, `"RES"`,
 * `"VOLT +1.0E+01,+3.0E-06"`, with or without quotes. Undefined when it is no function word; null
 * when it is one that this product does not use (AC, frequency, capacitance, temperature).
 */
export function decodeFunction(text: string): Quantity | null | undefined {
  const inside = (decodeQuoted(text) ?? text).trim();
  const word = /^:?(?:SENS(?:E)?:)?(?:DC[ _](?=V|C))?([24]?[A-Z]+(?::[A-Z]+)*)(?:[\s,].*)?$/i.exec(
    inside,
  )?.[1];
  if (word === undefined) return undefined;
  const [head = '', ...tail] = word.toUpperCase().split(':');
  if (tail.includes('AC')) return null;
  if (/^(?:VOLT(?:AGE)?|DCV|VDC)$/.test(head)) return 'volts';
  if (/^(?:F?RES(?:ISTANCE)?|OHM|[24]WR|[24]W)$/.test(head)) return 'ohms';
  if (/^DIOD(?:E)?$/.test(head)) return 'diode';
  if (/^(?:CONT(?:INUITY)?|BEEP)$/.test(head)) return 'continuity';
  if (/^(?:CURR(?:ENT)?|DCI|ADC)$/.test(head)) return 'amps';
  return null;
}
