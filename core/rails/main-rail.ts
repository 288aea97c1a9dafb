import type { Rail } from './board-model.ts';

/**
 * The rail that a technician calls the main rail: the one with "main" in its name, else the one near
 * the input that feeds most others directly (the input itself only where nothing else feeds three).
 * Null on a board of inputs alone. Common practice, no source.
 */
export function mainRailOf(rails: readonly Rail[]): Rail | null {
  const named = rails.find(({ name }) => /main/i.test(name));
  if (named !== undefined) return named;
  const feeds = (rail: Rail) => rails.filter(({ fedBy }) => fedBy.includes(rail.name)).length;
  const inner = rails.filter(({ fedBy, isCore }) => fedBy.length > 0 && !isCore);
  const most = (among: readonly Rail[]) =>
    among.reduce<Rail | null>(
      (best, rail) => (best === null || feeds(rail) > feeds(best) ? rail : best),
      null,
    );
  const busiest = most(inner);
  if (busiest !== null && feeds(busiest) >= 3) return busiest;
  const input = most(rails.filter(({ fedBy }) => fedBy.length === 0));
  return input !== null && feeds(input) > 0 ? input : busiest;
}
