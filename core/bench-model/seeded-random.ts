/** A stream of numbers that the same seed gives again. */
export interface SeededRandom {
  /** Even over 0 (included) to 1 (not included). */
  even(): number;
  /** Normal with mean 0 and standard deviation 1 (Box-Muller). */
  normal(): number;
}

/**
 * Makes a stream from a seed and a name, so that each user has a stream of its own and how
 * often one draws does not move another. Generator: sfc32 of C. Doty-Humphrey's PractRand.
 */
export function createSeededRandom(seed: number, name: string): SeededRandom {
  let hash = 2_166_136_261;
  for (const character of `${seed}/${name}`) {
    hash = Math.imul(hash ^ character.charCodeAt(0), 16_777_619);
  }
  let a = hash | 0;
  let b = Math.imul(hash, 0x9e37_79b9) | 0;
  let c = ~hash | 0;
  let counter = 1;
  const next = () => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return (sum >>> 0) / 4_294_967_296;
  };
  for (let i = 0; i < 15; i += 1) next();
  return {
    even: next,
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  };
}
