/** The numbers a pyramid keeps of each node, one growable column a number. */
const FIELDS = [
  'firstTick',
  'lastTick',
  'count',
  'voltsCount',
  'voltsMin',
  'voltsMax',
  'voltsSum',
  'ampsCount',
  'ampsMin',
  'ampsMax',
  'ampsSum',
] as const;
type Field = (typeof FIELDS)[number];

/** One level of a pyramid: nodes in time order, stored as columns. */
export interface PyramidLevel extends Record<Field, Float64Array> {
  size: number;
}

/** An empty level with room for a few nodes. */
export function createLevel(room = 16): PyramidLevel {
  const level = { size: 0 } as PyramidLevel;
  for (const field of FIELDS) level[field] = new Float64Array(room);
  return level;
}

/** Opens a new node without samples at the end of a level and returns its index. */
export function openNode(level: PyramidLevel, firstTick: number): number {
  const at = level.size;
  if (at === level.count.length) grow(level);
  level.size = at + 1;
  level.firstTick[at] = firstTick;
  level.lastTick[at] = firstTick;
  level.count[at] = 0;
  level.voltsCount[at] = 0;
  level.voltsMin[at] = Number.NaN;
  level.voltsMax[at] = Number.NaN;
  level.voltsSum[at] = 0;
  level.ampsCount[at] = 0;
  level.ampsMin[at] = Number.NaN;
  level.ampsMax[at] = Number.NaN;
  level.ampsSum[at] = 0;
  return at;
}

/** Adds one sample to a node; `NaN` readings count for time but not for the quantity. */
export function addSample(
  level: PyramidLevel,
  at: number,
  tick: number,
  volts: number,
  amps: number,
): void {
  level.lastTick[at] = tick;
  level.count[at]! += 1;
  if (!Number.isNaN(volts)) {
    level.voltsCount[at]! += 1;
    level.voltsSum[at]! += volts;
    if (!(volts >= level.voltsMin[at]!)) level.voltsMin[at] = volts;
    if (!(volts <= level.voltsMax[at]!)) level.voltsMax[at] = volts;
  }
  if (!Number.isNaN(amps)) {
    level.ampsCount[at]! += 1;
    level.ampsSum[at]! += amps;
    if (!(amps >= level.ampsMin[at]!)) level.ampsMin[at] = amps;
    if (!(amps <= level.ampsMax[at]!)) level.ampsMax[at] = amps;
  }
}

/** Adds a whole node of `from` to node `at` of `into`. */
export function addNode(into: PyramidLevel, at: number, from: PyramidLevel, node: number): void {
  into.lastTick[at] = from.lastTick[node]!;
  into.count[at]! += from.count[node]!;
  if (from.voltsCount[node]! > 0) {
    into.voltsCount[at]! += from.voltsCount[node]!;
    into.voltsSum[at]! += from.voltsSum[node]!;
    if (!(from.voltsMin[node]! >= into.voltsMin[at]!)) into.voltsMin[at] = from.voltsMin[node]!;
    if (!(from.voltsMax[node]! <= into.voltsMax[at]!)) into.voltsMax[at] = from.voltsMax[node]!;
  }
  if (from.ampsCount[node]! > 0) {
    into.ampsCount[at]! += from.ampsCount[node]!;
    into.ampsSum[at]! += from.ampsSum[node]!;
    if (!(from.ampsMin[node]! >= into.ampsMin[at]!)) into.ampsMin[at] = from.ampsMin[node]!;
    if (!(from.ampsMax[node]! <= into.ampsMax[at]!)) into.ampsMax[at] = from.ampsMax[node]!;
  }
}

/** The first node whose last tick is at or after `tick` (the level's size when none is). */
export function firstNodeReaching(level: PyramidLevel, tick: number): number {
  let low = 0;
  let high = level.size;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (level.lastTick[middle]! < tick) low = middle + 1;
    else high = middle;
  }
  return low;
}

function grow(level: PyramidLevel): void {
  const room = level.count.length * 2;
  for (const field of FIELDS) {
    const wider = new Float64Array(room);
    wider.set(level[field]);
    level[field] = wider;
  }
}
