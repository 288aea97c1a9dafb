/** Amps with as many places as a milliamp needs: "0.231 A". */
export function ampsWords(amps: number): string {
  const size = Math.abs(amps);
  return `${amps.toFixed(size < 0.01 ? 4 : size < 10 ? 3 : 2)} A`;
}

/** A level with its spread: "0.231 A +- 0.002". */
export function levelWords(amps: number, spread: number): string {
  const size = Math.abs(amps);
  const places = size < 0.01 ? 4 : size < 10 ? 3 : 2;
  return `${amps.toFixed(places)} A +- ${Math.max(spread, 10 ** -places).toFixed(places)}`;
}

/** Seconds in words: "0.35 s", "14 s", "3.2 min". */
export function secondsWords(s: number): string {
  if (s >= 600) return `${Math.round(s / 60)} min`;
  if (s >= 120) return `${(s / 60).toFixed(1)} min`;
  return s >= 10 ? `${Math.round(s)} s` : `${s.toFixed(s < 1 ? 2 : 1)} s`;
}

/** Volts: "19.98 V". */
export function voltsWords(volts: number): string {
  return `${volts.toFixed(2)} V`;
}

/** A share as a whole percentage: "58 %". */
export function shareWords(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** "one step", "3 steps". */
export function countWords(count: number, one: string, many: string): string {
  return count === 1 ? `one ${one}` : `${count} ${many}`;
}
