/** A scripted draw: amps at a time of a run, with a bench supply's noise and last digit. */
export type FakeDraw = (atS: number) => { readonly volts: number; readonly amps: number };

let seed = 7;
function noise(width: number): number {
  seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
  return (seed / 2_147_483_648 - 0.5) * width;
}

const shown = (value: number, decimals: number) => Number(value.toFixed(decimals));

/** Steps up as rails come up and then runs, busy. */
export function wakingDraw(setV: number): FakeDraw {
  return (atS) => {
    const level =
      atS < 0.1
        ? 0.9
        : atS < 4
          ? 0.021
          : atS < 6
            ? 0.118
            : atS < 8.5
              ? 0.247
              : atS < 11
                ? 0.402
                : 0.61 + 0.05 * Math.sin(atS * 2.1) + noise(0.16);
    return {
      volts: shown(setV - level * 0.12 + noise(0.012), 2),
      amps: shown(Math.max(0, level + noise(0.003)), 3),
    };
  };
}

/** Flat for a while, then held at the limit with the volts pulled down. */
export function limitedDraw(setV: number, limitA: number): FakeDraw {
  return (atS) =>
    atS < 3
      ? { volts: shown(setV + noise(0.01), 2), amps: shown(0.02 + noise(0.002), 3) }
      : { volts: shown(1.83 + noise(0.01), 2), amps: shown(limitA + noise(0.002), 3) };
}

/** Rises two steps and stays there. */
export function stalledDraw(setV: number): FakeDraw {
  return (atS) => {
    const level = atS < 3 ? 0.019 : atS < 4.5 ? 0.12 : 0.231;
    return {
      volts: shown(setV - level * 0.12 + noise(0.01), 2),
      amps: shown(level + noise(0.003), 3),
    };
  };
}

/** Output off: nothing but the last digit flickering. */
export const idleDraw: FakeDraw = () => ({ volts: 0, amps: 0 });
