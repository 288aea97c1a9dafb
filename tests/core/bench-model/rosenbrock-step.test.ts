import { describe, expect, it } from 'vitest';
import {
  createRosenbrockStep,
  type StiffSystem,
} from '../../../core/bench-model/rosenbrock-step.ts';

/** Integrates with the step control that the simulation uses; gives the end and the steps taken. */
function integrate(system: StiffSystem, start: number[], endS: number, tolerance: number) {
  const solver = createRosenbrockStep(system, tolerance, tolerance);
  let v = Float64Array.from(start);
  let end = new Float64Array(system.n);
  let t = 0;
  let h = 1e-8;
  let steps = 0;
  while (t < endS) {
    const trial = Math.min(h, endS - t);
    const error = solver.attempt(t, v, trial, end);
    const next = trial * Math.min(5, Math.max(0.1, 0.8 * Math.max(error, 1e-4) ** (-1 / 3)));
    if (error <= 1) {
      t += trial;
      [v, end] = [end, v];
      steps += 1;
    }
    h = next;
  }
  return { v, steps };
}

describe('createRosenbrockStep', () => {
  // The chemical kinetics of H. H. Robertson (1966) at t = 40: y = 0.7158271, 9.185534e-6,
  // 0.2841637 (E. Hairer and G. Wanner, Solving ODEs II, and the CVODE example cvRoberts_dns).
  it('solves Robertson’s problem to its published values', () => {
    const robertson: StiffSystem = {
      n: 3,
      rates(_t, y, f) {
        f[0] = -0.04 * y[0]! + 1e4 * y[1]! * y[2]!;
        f[2] = 3e7 * y[1]! * y[1]!;
        f[1] = -f[0] - f[2];
      },
      derivatives(_t, y, j, drift) {
        drift.fill(0);
        j.set([-0.04, 1e4 * y[2]!, 1e4 * y[1]!]);
        j.set([0.04, -1e4 * y[2]! - 6e7 * y[1]!, -1e4 * y[1]!], 3);
        j.set([0, 6e7 * y[1]!, 0], 6);
      },
    };
    const { v, steps } = integrate(robertson, [1, 0, 0], 40, 1e-8);
    expect(v[0]).toBeCloseTo(0.7158271, 5);
    expect(v[1]! / 9.185534e-6).toBeCloseTo(1, 4);
    expect(v[2]).toBeCloseTo(0.2841637, 5);
    expect(steps).toBeLessThan(3000);
  });

  // A. Prothero and A. Robinson, Math. Comp. 28 (1974): v' = L (v - cos t) - sin t, v = cos t.
  it('follows a slow cause through a fast lag without short steps', () => {
    const lag: StiffSystem = {
      n: 1,
      rates(t, v, f) {
        f[0] = -1e6 * (v[0]! - Math.cos(t)) - Math.sin(t);
      },
      derivatives(t, _v, j, drift) {
        j[0] = -1e6;
        drift[0] = -1e6 * Math.sin(t) - Math.cos(t);
      },
    };
    const { v, steps } = integrate(lag, [1], 3, 1e-6);
    expect(v[0]).toBeCloseTo(Math.cos(3), 4);
    expect(steps).toBeLessThan(2000);
  });

  it('calls a step that ends in no number infinitely wrong', () => {
    const broken: StiffSystem = {
      n: 1,
      rates: (_t, _v, f) => void f.fill(Number.NaN),
      derivatives: (_t, _v, j, drift) => {
        j.fill(0);
        drift.fill(0);
      },
    };
    const solver = createRosenbrockStep(broken, 1e-6, 1e-6);
    expect(solver.attempt(0, new Float64Array(1), 1e-3, new Float64Array(1))).toBe(Infinity);
  });
});
