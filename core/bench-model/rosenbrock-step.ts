import { luFactor, luSolve } from './lu-solve.ts';

/** A stiff system dv/dt = f(t, v) with its derivatives. */
export interface StiffSystem {
  readonly n: number;
  /** Writes f(t, v) into `rates`. */
  rates(t: number, v: Float64Array, rates: Float64Array): void;
  /** Writes df/dv (row-major) into `jacobian` and df/dt into `drift`. */
  derivatives(t: number, v: Float64Array, jacobian: Float64Array, drift: Float64Array): void;
}

/** Works out steps of one system. */
export interface RosenbrockStep {
  /**
   * Tries a step of `h` from `v` at `t`. Writes the end into `end`; gives the largest error
   * against the tolerance (1 = at it).
   */
  attempt(t: number, v: Float64Array, h: number, end: Float64Array): number;
}

const D = 1 / (2 + Math.SQRT2);
const E32 = 6 + Math.SQRT2;

/**
 * The L-stable Rosenbrock pair of order 2(3) behind ode23s (L. F. Shampine and M. W. Reichelt,
 * "The MATLAB ODE Suite", SIAM J. Sci. Comput. 18, 1997): one matrix a step, no iteration, so
 * that a 1 us net beside a 1 s net costs nothing once it has settled.
 */
export function createRosenbrockStep(
  system: StiffSystem,
  absolute: number,
  relative: number,
): RosenbrockStep {
  const { n } = system;
  const matrix = new Float64Array(n * n);
  const pivots = new Int32Array(n);
  const drift = new Float64Array(n);
  const [f0, f1, f2, k1, k2, k3, mid] = Array.from({ length: 7 }, () => new Float64Array(n)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];

  return {
    attempt(t, v, h, end) {
      system.rates(t, v, f0);
      system.derivatives(t, v, matrix, drift);
      for (let i = 0; i < n * n; i += 1) matrix[i]! *= -h * D;
      for (let i = 0; i < n; i += 1) matrix[i * n + i]! += 1;
      luFactor(matrix, n, pivots);
      for (let i = 0; i < n; i += 1) k1[i] = f0[i]! + h * D * drift[i]!;
      luSolve(matrix, n, pivots, k1);
      for (let i = 0; i < n; i += 1) mid[i] = v[i]! + 0.5 * h * k1[i]!;
      system.rates(t + 0.5 * h, mid, f1);
      for (let i = 0; i < n; i += 1) k2[i] = f1[i]! - k1[i]!;
      luSolve(matrix, n, pivots, k2);
      for (let i = 0; i < n; i += 1) {
        k2[i]! += k1[i]!;
        end[i] = v[i]! + h * k2[i]!;
      }
      system.rates(t + h, end, f2);
      for (let i = 0; i < n; i += 1) {
        k3[i] = f2[i]! - E32 * (k2[i]! - f1[i]!) - 2 * (k1[i]! - f0[i]!) + h * D * drift[i]!;
      }
      luSolve(matrix, n, pivots, k3);
      let worst = 0;
      for (let i = 0; i < n; i += 1) {
        const error = Math.abs((h / 6) * (k1[i]! - 2 * k2[i]! + k3[i]!));
        const allowed = absolute + relative * Math.max(Math.abs(v[i]!), Math.abs(end[i]!));
        worst = Math.max(worst, error / allowed);
      }
      return Number.isFinite(worst) ? worst : Infinity;
    },
  };
}
