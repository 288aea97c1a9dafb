import { readPlainCount } from './csv-number.ts';
import { type FileUnit, readFileUnit, readFunctionOrUnit } from './csv-unit.ts';

const RATE =
  /\b(sampl\w*|acquisition|logging|log|data|record\w*)\b.*\b(rate|freq\w*|speed)\b|^(rate|freq\w*|fs|f s|speed|sps)\b/i;
const INTERVAL =
  /\b(sampl\w*|acquisition|logging|log|record\w*|time|horizontal|x|t)\b.*\b(interval|period|increment|step|incr?|resolution)\b|^(interval|increment|dt|(delta|\u0394) ?t|x ?incr?)\b|^[\u0394d]t\b|\bsampl\w* time\b/i;
/** Lines whose name and number stand apart only by a blank. */
const BLANK_BETWEEN = /^[#/%!'\s"]*([^\d:=,;\t"]*[^\d:=,;\t"\s]) +([-+]?\d.*)$/;

/**
 * The sample rate in hertz that the lines before the numbers tell (`Sample Rate,1000`,
 * `Sampling interval: 2 ms`), or null. A line is a name, then `:`, `=` or a separator, then a
 * number with its unit glued, after a blank, or in brackets behind the name.
 */
export function readRateHz(lines: readonly string[], decimalComma: boolean): number | null {
  for (const line of lines) {
    const match =
      /^[#/%!'\s"]*([^:=,;\t"]+?)["\s]*[:=,;\t]\s*"?\s*([^;\t"]+)(?:[;\t]\s*([a-z]+))?/i.exec(
        line,
      ) ?? BLANK_BETWEEN.exec(line);
    if (match === null) continue;
    const name = match[1]!.replace(/[_-]/g, ' ');
    const isRate = RATE.test(name);
    if (!isRate && !INTERVAL.test(name)) continue;
    const clock = isRate ? null : /^(\d{1,2}):(\d{2}):(\d{2}(?:\.\d+)?)$/.exec(match[2]!.trim());
    if (clock !== null) {
      const seconds = Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3]);
      if (seconds > 0) return 1 / seconds;
    }
    const number = /^([-+]?[\d.,]+(?:e[-+]?\d+)?)[\s,]*(\S*)/i.exec(match[2]!.trim());
    if (number === null) continue;
    const value = readPlainCount(number[1]!.replace(/,$/, ''), { decimalComma });
    if (value === undefined || !(value > 0)) continue;
    const inName = /[([]\s*([^)\]]+)\s*[)\]]/.exec(name)?.[1] ?? '';
    const beside = /^[\w%\u00b5\u03bc]*(\/s)?/.exec(number[2]!)![0];
    const unit = readFileUnit(beside) ?? readFileUnit(match[3] ?? '') ?? readFileUnit(inName);
    if (unit?.quantity === 'hertz') return value * unit.scale;
    if (unit?.quantity === 'time') return 1 / (value * unit.scale);
    if (unit === null) return isRate ? value : 1 / value;
  }
  return null;
}

const UNITS =
  /^(?:(?:vertical|y|channel|ch ?\d+|value|measurement|display) *)?units?$|^function$|^measur\w+ (?:function|type)$/i;

/**
 * The unit or function that the lines before the numbers tell of the readings (`Vertical Units,A`,
 * `Function: DC Current`), the last to tell a scale before others; null when they tell none or two
 * quantities.
 */
export function readPreambleUnit(lines: readonly string[]): FileUnit | null {
  let found: FileUnit | null = null;
  for (const line of lines) {
    const match = /^[#/%!'\s"]*([^:=,;\t"]+?)["\s]*[:=,;\t]\s*"?\s*([^,;\t"]+)/.exec(line);
    if (match === null || !UNITS.test(match[1]!.trim())) continue;
    const unit = readFunctionOrUnit(match[2]!);
    if (unit === null || unit.quantity === 'time' || unit.quantity === 'other') continue;
    if (found !== null && found.quantity !== unit.quantity) return null;
    found = found === null || unit.scale !== 1 ? unit : found;
  }
  return found;
}
