/** A reading that follows its quantity as an averaging converter does. */
export interface LowPass {
  readonly value: number;
  /** The quantity moved in a straight line to `to` over `stepS`. */
  follow(to: number, stepS: number): void;
  /** Starts over at a value. */
  restart(at: number): void;
}

/** A first-order low-pass of time constant `tauS`: exact for straight lines, at any step. */
export function createLowPass(tauS: number): LowPass {
  let value = 0;
  let last = 0;
  return {
    get value() {
      return value;
    },
    follow(to, stepS) {
      if (stepS <= 0) return;
      const lag = ((to - last) / stepS) * tauS;
      value = to - lag + (value - last + lag) * Math.exp(-stepS / tauS);
      last = to;
    },
    restart(at) {
      value = at;
      last = at;
    },
  };
}
