import type { Spread } from './spread.ts';

/** Fewer numbers than this have no quartiles worth the name. Common practice, no source. */
const FEW = 5;

/**
 * A spread in words that claim no more than its count allows. `say` writes one number with its unit;
 * `thing` is what was counted, in the singular and the plural.
 */
export function saySpread(
  spread: Spread | null,
  say: (value: number) => string,
  thing: readonly [one: string, many: string],
): string {
  if (spread === null) return `No ${thing[0]} in this period.`;
  const { count, median, low, high, least, most } = spread;
  if (count === 1) return `One ${thing[0]}: ${say(median)}.`;
  if (count < FEW) {
    return `${count} ${thing[1]}, from ${say(least)} to ${say(most)}. Too few to say more.`;
  }
  return `${say(median)} in the middle; half of them between ${say(low)} and ${say(high)}. ${count} ${thing[1]}.`;
}
