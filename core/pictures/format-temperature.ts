import { WakelineError } from '../errors.ts';

/** Below is colder than cooling spray makes a board, above is hotter than solder work. */
const LEAST_C = -80;
const MOST_C = 1000;

/** Degrees Celsius as somebody read them: no more digits than one. */
export function formatTemperature(celsius: number): string {
  const rounded = Math.round(celsius * 10) / 10;
  return `${String(rounded).replace('-', '−')} °C`;
}

/**
 * A temperature as it is typed: "87", "87.5 C", "190 F"; '' = none. Answers degrees Celsius
 * to a tenth, which is all that is shown; throws `bad-input` for what is no temperature of a board.
 */
export function parseTemperature(text: string): number | null {
  if (text.trim() === '') return null;
  const found = /^\s*([+\-−]?\d+(?:[.,]\d+)?)\s*°?\s*([cCfFkK]?)\s*$/.exec(text);
  const typed = Number(found?.[1]?.replace('−', '-').replace(',', '.'));
  const celsius = toCelsius(typed, found?.[2]?.toUpperCase() ?? '');
  if (found === null || !Number.isFinite(celsius) || celsius < LEAST_C || celsius > MOST_C) {
    throw new WakelineError({
      code: 'bad-input',
      what: `“${text.trim()}” is no temperature of a board`,
      where: 'temperature',
      todo: `Type degrees Celsius between ${LEAST_C} and ${MOST_C}, or with F or K behind them.`,
    });
  }
  return Math.round(celsius * 10) / 10;
}

/** Exact by the definition of the degree Celsius and the degree Fahrenheit (NIST SP 811, B.8). */
function toCelsius(typed: number, unit: string): number {
  if (unit === 'F') return ((typed - 32) * 5) / 9;
  return unit === 'K' ? typed - 273.15 : typed;
}
