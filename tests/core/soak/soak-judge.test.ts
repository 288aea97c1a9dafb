import { describe, expect, it } from 'vitest';
import { createSoakJudge, type SoakVerdict } from '../../../core/soak/soak-judge.ts';

const ASKED = { minutes: 2, lowA: 0.4, highA: 0.9 };

/** Reads `amps(s)` 20 times a second until there is a verdict. */
function soak(amps: (s: number) => number | null, more: { skip?: [number, number] } = {}) {
  const judge = createSoakJudge(ASKED, 10);
  let verdict: SoakVerdict | null = null;
  for (let at = 10; at < 200 && verdict === null; at += 0.05) {
    if (more.skip !== undefined && at > more.skip[0] && at < more.skip[1]) continue;
    verdict = judge.see({ atS: at, amps: amps(at), outputOn: true });
  }
  return verdict;
}

describe('a soak', () => {
  it('passes when the minutes are full and the draw kept to its bounds', () => {
    const verdict = soak((s) => 0.6 + 0.1 * Math.sin(s));
    expect(verdict?.passed).toBe(true);
    expect(verdict?.numbers.watchedS).toBeCloseTo(120, 0);
    expect(verdict?.words).toBe(
      'Soak passed: 2 min of 2 min; draw 0.5 A to 0.7 A, mean 0.5995 A, bounds 0.4 A to 0.9 A.',
    );
  });

  it('counts a short peak and fails on a long one', () => {
    const peak = soak((s) => (Math.abs(s - 60) < 0.2 ? 1.2 : 0.6));
    expect(peak).toMatchObject({ passed: true, numbers: { highestA: 1.2 } });
    expect(peak?.numbers.outside).toBeGreaterThan(3);
    const long = soak((s) => (s > 60 ? 1.2 : 0.6));
    expect(long?.passed).toBe(false);
    expect(long?.words).toMatch(/^Soak failed: the draw was at 1.2 A for 1.0 s; 51/);
  });

  it('fails on a draw below its bounds as well', () => {
    expect(soak((s) => (s > 30 ? 0.1 : 0.6))?.words).toContain('the draw was at 0.1 A');
  });

  it('proves nothing across a silence', () => {
    const verdict = soak(() => 0.6, { skip: [50, 58] });
    expect(verdict?.passed).toBe(false);
    expect(verdict?.words).toContain('nothing was read for 8 s');
    expect(verdict?.numbers.watchedS).toBeLessThan(42);
  });

  it('fails when the board falls back, loops, stalls or the output goes off', () => {
    const away = ['fell-back', 'cycling', 'stalled', 'limited', 'flat-low', 'flat-high'] as const;
    for (const stage of [...away, 'creeping', 'stepping'] as const) {
      const judge = createSoakJudge(ASKED, 0);
      const running = { stage: 'running', startS: 0, endS: 42, confidence: 0.97 } as const;
      expect(judge.seeStage(running)).toBeNull();
      expect(judge.seeStage({ stage, startS: 42, endS: 43, confidence: 0.9 })).toBeNull();
      expect(judge.seeStage({ stage, startS: 42, endS: 45, confidence: 0.9 })).toMatchObject({
        passed: false,
        words: expect.stringContaining('after 42 s'),
      });
    }
    const judge = createSoakJudge(ASKED, 0);
    expect(judge.see({ atS: 1, amps: 0.6, outputOn: false })?.passed).toBe(false);
  });

  it('waits while the tracker itself is not sure, and keeps its first verdict', () => {
    const judge = createSoakJudge(ASKED, 0);
    expect(judge.seeStage({ stage: 'stalled', startS: 3, endS: 90, confidence: 0.4 })).toBeNull();
    const came = { stage: 'stepping', startS: -2, endS: 9, confidence: 0.9 } as const;
    expect(judge.seeStage(came)).toBeNull();
    const stopped = judge.stop(30, 'stopped by hand');
    expect(stopped).toMatchObject({ passed: false });
    expect(judge.see({ atS: 31, amps: 0.6, outputOn: true })).toBe(stopped);
  });
});
