import type { BoardModel, Rail } from '../../../core/rails/board-model.ts';

/** Seeded numbers in [0, 1): mulberry32, from memory. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const NOMINALS = [12, 5, 3.3, 1.8, 1.5, 1.2, 1.05];

/** An invented board of `count` rails: one input, converters, switches, links, enables, some ORed. */
export function randomBoard(count: number, seed: number): BoardModel {
  const random = seeded(seed);
  const pick = (below: number) => Math.floor(random() * below);
  const rails: Rail[] = [];
  for (let index = 0; index < count; index++) {
    const name = index === 0 ? 'INPUT' : `R${index}`;
    const parentAt = index === 0 ? -1 : Math.floor(random() ** 0.7 * Math.min(index, 40));
    const parent = rails[parentAt];
    const kind = random();
    const through = kind < 0.6 ? 'converter' : kind < 0.85 ? 'switch' : 'link';
    const below = NOMINALS.filter((volts) => parent !== undefined && volts < parent.nominalV);
    const isConverter = through === 'converter' && below.length > 0;
    const nominalV =
      parent === undefined ? 19 : isConverter ? (below[pick(below.length)] ?? 1) : parent.nominalV;
    const second = rails[pick(Math.max(1, index))];
    const isOred =
      index > 3 &&
      through === 'switch' &&
      random() < 0.15 &&
      second !== undefined &&
      second !== parent;
    const enabler = rails[pick(Math.max(1, index))];
    const isEnabled = index > 1 && random() < 0.5 && enabler !== undefined && enabler !== parent;
    rails.push({
      name,
      nominalV,
      tolerance: 0.05,
      points: (['output', 'input', 'enable'] as const).map((role) => ({
        name: `${name}-${role}`,
        role,
        cost: 1,
        volts: null,
      })),
      fedBy:
        parent === undefined
          ? []
          : isOred && second !== undefined
            ? [parent.name, second.name]
            : [parent.name],
      through: isConverter ? 'converter' : through === 'link' ? 'link' : 'switch',
      enabledBy: isEnabled && enabler !== undefined ? [enabler.name] : [],
      states: [],
      expectedOhms: { median: nominalV ** 2 * 40, spread: nominalV, count: 3 },
      expectedDiodeV: null,
      isCore: nominalV < 1.3,
    });
  }
  return {
    name: `invented ${count}/${seed}`,
    rails,
    statedInputV: 19,
    statedLimitA: null,
    runningA: null,
    runsFlat: null,
  };
}
