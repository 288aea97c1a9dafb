import { readPlainCount } from './csv-number.ts';
import { readFileUnit } from './csv-unit.ts';

const RATE = /\b(sampl\w*|acquisition|logging|log|data|record\w*)\b.*\b(rate|freq\w*|speed)\b/i;
const INTERVAL =
  /\b(sampl\w*|acquisition|logging|log|record\w*|time|horizontal|x|t)\b.*\b(interval|period|increment|step|incr?|resolution)\b|^(interval|increment|dt|delta ?t|x ?incr?)\b/i;

/**
 * The sample rate in hertz that the lines before the numbers tell (`Sample Rate,1000`,
 * `Sampling interval: 2 ms`), or null. A line is a name, then `:`, `=` or a separator, then a
 * number with its unit glued, after a blank, or in brackets behind the name.
 */
export function readRateHz(lines: readonly string[], decimalComma: boolean): number | null {
  for (const line of lines) {
    const match = /^[#/%!'\s"]*([^:=,;\t"]+?)["\s]*[:=,;\t]\s*"?\s*([^;\t"]+)/.exec(line);
    if (match === null) continue;
    const name = match[1]!.replace(/[_-]/g, ' ');
    const isRate = RATE.test(name);
    if (!isRate && !INTERVAL.test(name)) continue;
    const number = /^([-+]?[\d.,]+(?:e[-+]?\d+)?)[\s,]*(\S*)/i.exec(match[2]!.trim());
    if (number === null) continue;
    const value = readPlainCount(number[1]!.replace(/,$/, ''), { decimalComma });
    if (value === undefined || !(value > 0)) continue;
    const inName = /[([]\s*([^)\]]+)\s*[)\]]/.exec(name)?.[1] ?? '';
    const unit = readFileUnit(number[2]!) ?? readFileUnit(inName);
    if (unit?.quantity === 'hertz') return value * unit.scale;
    if (unit?.quantity === 'time') return 1 / (value * unit.scale);
    if (unit === null) return isRate ? value : 1 / value;
  }
  return null;
}
