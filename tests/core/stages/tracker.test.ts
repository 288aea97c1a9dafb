import { describe, expect, it } from 'vitest';
import { busy, flat, ramp, type Stretch, settle, square } from '../../support/drawn-draws.ts';
import { marksOf, namesOf, readDraw } from '../../support/read-draw.ts';

// Draws written from descriptions of the trade (common practice, no source): see drawn-draws.ts.
const OFF: Stretch = { label: 'off', seconds: 2, amps: flat(0), volts: 0 };
const RUSH: Stretch = { label: 'flat-low', seconds: 0.008, amps: flat(0.06), volts: 12 };
const WAITS: Stretch = { label: 'flat-low', seconds: 1.6, amps: flat(0.02), volts: 12 };
const at = (label: Stretch['label'], seconds: number, amps: number, volts?: number): Stretch => ({
  label,
  seconds,
  amps: flat(amps),
  ...(volts === undefined ? {} : { volts }),
});
const CLIMB = [at('stepping', 0.8, 0.11), at('stepping', 0.9, 0.23)];
const RUNS: Stretch = { label: 'running', seconds: 12, amps: busy(0.42, 0.08) };
const HEALTHY = [OFF, RUSH, WAITS, ...CLIMB, RUNS];
const KNOWN = { runningA: 0.42, setV: 12 };

describe('a healthy cold start', () => {
  const report = readDraw(HEALTHY, { settings: KNOWN, logging: { hz: 200 } });

  it('goes off, flat low, stepping, running, with the inrush as a mark', () => {
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'running']);
    expect(marksOf(report).toSorted()).toEqual(['inrush', 'output-on']);
  });

  it('puts the borders where the draw changes', () => {
    const starts = report.stages.map((s) => s.startS);
    [0, 2, 3.61, 5.31].forEach((s, i) => {
      expect(Math.abs(starts[i]! - s)).toBeLessThan(0.06);
    });
  });

  it('lists the steps of the staircase', () => {
    const steps = report.steps.map((s) => [s.fromA.toFixed(2), s.toA.toFixed(2)]);
    expect(steps.slice(0, 2)).toEqual([
      ['0.02', '0.11'],
      ['0.11', '0.23'],
    ]);
    expect(report.steps).toHaveLength(3);
  });

  it('says why, in words and numbers', () => {
    const [, low, climb, runs] = report.stages;
    expect(low!.reason).toMatch(
      /0\.020 A \+- 0\.001 for 1\.6 s, 5 % of the running level of 0\.420 A/,
    );
    expect(climb!.reason).toMatch(/2 steps from 0\.020 A to 0\.230 A in 1\.7 s/);
    expect(runs!.reason).toMatch(/A \+- .* for 12 s after 0\.230 A: 1?\d\d % of the running level/);
  });

  it('reached running at its own level', () => {
    expect(report.reach.stage).toBe('running');
    expect(report.reach.share).toBeGreaterThan(0.9);
    expect(report.reach.heldW).toBeCloseTo(12 * report.reach.heldA!, 1);
    expect(report.peakA).toBeGreaterThan(0.42);
    expect(report.chargeAh! * 3600).toBeCloseTo(0.42 * 12 + 0.23 * 0.9 + 0.11 * 0.8 + 0.03, 0);
    expect(report.energyWh! / report.chargeAh!).toBeCloseTo(12, 1);
  });

  it('gives the same stages at 5, 20, 100 and 1,000 readings a second', () => {
    for (const hz of [5, 20, 100, 1000]) {
      const again = readDraw(HEALTHY, { settings: KNOWN, logging: { hz } });
      expect(namesOf(again)).toEqual(['off', 'flat-low', 'stepping', 'running']);
    }
  });
});

describe('each stage', () => {
  it('no draw: fed, within the floor learned while the output was off', () => {
    const report = readDraw([OFF, at('no-draw', 8, 0, 12)], {
      settings: KNOWN,
      logging: { zeroA: 0.0055 },
    });
    expect(namesOf(report)).toEqual(['off', 'no-draw']);
    expect(report.stages[1]!.reason).toMatch(/within the learned zero floor of 0\.00\d\d A/);
    expect(report.reach).toMatchObject({ stage: 'no-draw', share: null });
  });

  it('flat low: 4 mA over a floor of half a milliamp is a draw, not a floor', () => {
    const report = readDraw([OFF, at('flat-low', 8, 0.004, 12)], { settings: KNOWN });
    expect(namesOf(report)).toEqual(['off', 'flat-low']);
  });

  it('stalled: rose, then flat short of the running level', () => {
    const report = readDraw([...HEALTHY.slice(0, 4), at('stalled', 14, 0.231)], {
      settings: { ...KNOWN, wakesWithinS: 6 },
    });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'stalled']);
    expect(report.stages[3]!.reason).toMatch(
      /0\.231 A \+- 0\.001 for 14 s after 0\.110 A: 55 % .*known-good runs of this board pass 0\.336 A within 6\.0 s/,
    );
    expect(report.reach.stage).toBe('stepping');
  });

  it('stalled from the start: flat at a fraction of the running level, as behind a limiting converter', () => {
    const report = readDraw([OFF, at('stalled', 10, 0.23, 12)], { settings: KNOWN });
    expect(namesOf(report)).toEqual(['off', 'stalled']);
  });

  it('running flat, as controllers do', () => {
    const report = readDraw(
      [OFF, { ...RUSH, amps: flat(0.9), volts: 24 }, at('running', 10, 0.2, 24)],
      {
        settings: { runningA: 0.2, setV: 24 },
        logging: { hz: 1000 },
      },
    );
    expect(namesOf(report)).toEqual(['off', 'running']);
    expect(marksOf(report)).toContain('inrush');
  });

  it('flat high: steady well above the running level, flat or busy', () => {
    for (const amps of [flat(0.8), busy(0.8, 0.06)]) {
      const report = readDraw([...HEALTHY.slice(0, 5), { label: 'flat-high', seconds: 12, amps }], {
        settings: KNOWN,
      });
      expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'flat-high']);
    }
  });

  it.each([
    ['rise', 0.24, 0.36],
    ['fall', 0.36, 0.25],
  ])('creeping: a slow steady %s', (way, from, to) => {
    const report = readDraw(
      [...HEALTHY.slice(0, 4), { label: 'creeping', seconds: 40, amps: ramp(from, to) }],
      { settings: KNOWN },
    );
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'creeping']);
    expect(report.stages[3]!.reason).toContain(`A slow steady ${way} from`);
  });

  it('creeping that sets in after a flat draw gets its own border', () => {
    const report = readDraw(
      [
        OFF,
        at('flat-low', 12, 0.03, 12),
        { label: 'creeping', seconds: 40, amps: ramp(0.03, 0.075) },
      ],
      { settings: KNOWN },
    );
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'creeping']);
    expect(Math.abs(report.stages[2]!.startS - 14)).toBeLessThan(3);
  });

  it('limited, told by the supply', () => {
    const limited: Stretch = { ...at('limited', 8, 0.8, 9), regulation: 'cc' };
    const report = readDraw([OFF, limited], { settings: KNOWN, logging: { regulation: true } });
    expect(namesOf(report)).toEqual(['off', 'limited']);
    expect(report.stages[1]!.reason).toContain('the supply says constant current');
  });

  it('limited, read from 97.5 % of the limit with the volts under their set-point', () => {
    const report = readDraw([OFF, at('limited', 8, 1.463, 0.3)], {
      settings: { setV: 12, limitA: 1.5, runningA: 0.4 },
    });
    expect(namesOf(report)).toEqual(['off', 'limited']);
    expect(report.stages[1]!.reason).toMatch(
      /98 % of the 1\.500 A limit, volts at 0\.30 V of 12\.00 V set, near zero/,
    );
  });

  it('not limited close to the limit with the volts where they were set', () => {
    const report = readDraw([OFF, at('running', 8, 0.98, 12)], {
      settings: { setV: 12, limitA: 1, runningA: 1 },
    });
    expect(namesOf(report)).toEqual(['off', 'running']);
  });

  it('limited although nobody told a limit: a hard ceiling while the volts collapse', () => {
    const report = readDraw([OFF, at('flat-low', 3, 0.02, 12), at('limited', 8, 1, 4.7)], {
      settings: { runningA: 0.4 },
    });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'limited']);
    expect(report.stages[2]!.reason).toContain('a hard ceiling; no limit was told');
  });

  it('fell back: a draw that had climbed returns to low draw and stays', () => {
    const report = readDraw([...HEALTHY, at('fell-back', 8, 0.021)], { settings: KNOWN });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'running', 'fell-back']);
    expect(report.reach.stage).toBe('running');
  });
});

const loop = (periodS: number, times: number): Stretch[] =>
  Array.from({ length: times }, () => [
    at('cycling', periodS * 0.3, 0.1),
    at('cycling', periodS * 0.3, 0.25),
    at('cycling', periodS * 0.4, 0.02),
  ]).flat();

describe('cycling', () => {
  it.each([0.3, 1, 4, 12, 30])(
    'finds a loop of %d s within two cycles, with its period',
    (periodS) => {
      const report = readDraw(
        [OFF, WAITS, ...loop(periodS, 2), at('cycling', 0.3 * periodS, 0.1)],
        {
          settings: KNOWN,
          logging: { hz: 50 },
        },
      );
      expect(namesOf(report)).toContain('cycling');
      const stage = report.stages.find((s) => s.stage === 'cycling')!;
      expect(stage.periodS! / periodS).toBeCloseTo(1, 1);
      expect(stage.reason).toMatch(/rose to 0\.25\d A and fell back to 0\.02\d A 2 times/);
    },
  );

  it('says when the supply’s own limit may be what restarts the board', () => {
    const restarts = Array.from({ length: 5 }, () => [
      at('cycling', 0.5, 0.15, 12),
      { ...at('cycling', 0.4, 0.3, 7), regulation: 'cc' as const },
      at('cycling', 1.1, 0.02, 12),
    ]).flat();
    const report = readDraw([OFF, WAITS, ...restarts], {
      settings: { ...KNOWN, limitA: 0.3 },
      logging: { regulation: true },
    });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'cycling']);
    expect(report.stages[2]!.reason).toContain('Each time the supply reaches its limit');
  });

  it.each([1.5, 2.5, 4])(
    'does not take a square load of %d s on a running board for a loop',
    (periodS) => {
      const duty: Stretch = {
        label: 'running',
        seconds: 30,
        amps: square(0.42, 0.7, periodS, 0.4),
      };
      const report = readDraw([...HEALTHY, duty], { settings: KNOWN });
      expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'running']);
      expect(namesOf(readDraw([...HEALTHY, duty]))).not.toContain('cycling');
    },
  );

  it('does not take load steps of a running board for a climb or a loop', () => {
    const load: Stretch = {
      label: 'running',
      seconds: 30,
      amps: square(0.66, 1.1, 3.1, 0.5),
      volts: 5,
    };
    expect(namesOf(readDraw([load], { settings: { runningA: 0.66 } }))).toEqual(['running']);
  });

  it('does not take the bursts of a board asleep for a loop', () => {
    const asleep: Stretch = {
      label: 'fell-back',
      seconds: 20,
      amps: square(0.02, 0.15, 2.2, 0.08),
    };
    const report = readDraw([...HEALTHY, asleep], { settings: KNOWN, logging: { hz: 50 } });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'running', 'fell-back']);
    expect(report.stages[4]!.reason).toContain('short bursts');
  });

  it('does not take two power cycles by hand for a loop', () => {
    const report = readDraw([...HEALTHY, ...HEALTHY], { settings: KNOWN });
    const once = ['off', 'flat-low', 'stepping', 'running'];
    expect(namesOf(report)).toEqual([...once, ...once]);
  });
});

describe('a restart', () => {
  // A small board: running 30 mA, 6 mA held in reset, 15, 20, 16, 18, 12, back to 30 in 1.3 s.
  const reset = [
    at('running', 5, 0.03, 5),
    at('stepping', 0.3, 0.006),
    ...[0.015, 0.02, 0.016, 0.018, 0.012].map((a) => at('stepping', 0.2, a)),
    at('running', 6, 0.03),
  ];

  it.each([50, 200, 1000])('of 1.3 s is seen at %d readings a second', (hz) => {
    const report = readDraw(reset, {
      settings: { runningA: 0.03 },
      logging: { hz, noiseA: 0.0002, countA: 0.0001 },
    });
    expect(namesOf(report)).toEqual(['running', 'stepping', 'running']);
    expect(report.stages[1]!.reason).toMatch(
      /A restart: the draw dipped from 0\.0\d+ A to 0\.006\d A/,
    );
    expect(report.stages[1]!.endS - report.stages[1]!.startS).toBeCloseTo(1.3, 1);
  });
});

describe('slopes and exponentials are no staircases', () => {
  it('a capacitor that fills for a second or two is an inrush', () => {
    const fills: Stretch = {
      label: 'flat-low',
      seconds: 12,
      amps: settle(0.5, 0.02, 0.4),
      volts: 12,
    };
    const report = readDraw([OFF, fills], { settings: KNOWN, logging: { hz: 50 } });
    expect(namesOf(report)).toEqual(['off', 'flat-low']);
    expect(marksOf(report)).toContain('inrush');
    expect(report.steps).toEqual([]);
  });

  it('a board that warms to its level by 8 % over minutes is running', () => {
    const warms: Stretch = {
      label: 'running',
      seconds: 180,
      amps: settle(0.39, 0.42, 50),
      volts: 12,
    };
    expect(namesOf(readDraw([OFF, warms], { settings: KNOWN }))).toEqual(['off', 'running']);
  });

  it('a cell that charges, its draw falling for minutes, creeps', () => {
    const charges: Stretch = {
      label: 'creeping',
      seconds: 120,
      amps: settle(1.5, 0.4, 60),
      volts: 12,
    };
    const report = readDraw([OFF, charges], { settings: { ...KNOWN, runningA: 0.6 } });
    expect(namesOf(report)).toEqual(['off', 'creeping']);
  });
});

describe('a change of feed', () => {
  it('from 5 to 20 V at the same watts is a mark, neither a fall nor a step', () => {
    const report = readDraw(
      [
        OFF,
        at('flat-low', 2, 0.2, 5),
        at('flat-low', 2, 0.05, 20),
        { label: 'stepping', seconds: 1, amps: flat(0.4) },
        { label: 'running', seconds: 10, amps: busy(0.9, 0.05) },
      ],
      { settings: { runningA: 0.9, setV: 20 } },
    );
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'running']);
    const mark = report.marks.find((m) => m.mark === 'feed-change')!;
    expect(mark.text).toMatch(/Feed from 5\.00 V to 20\.00 V: 1\.0\d W before, 1\.0\d W after/);
    expect(Math.abs(mark.atS - 4)).toBeLessThan(0.1);
  });

  it('of a running board keeps it running', () => {
    const report = readDraw(
      [
        { label: 'running', seconds: 8, amps: busy(0.42, 0.05), volts: 20 },
        { label: 'running', seconds: 8, amps: busy(1.68, 0.05), volts: 5 },
      ],
      { settings: { runningA: 0.42, setV: 20 } },
    );
    expect(namesOf(report)).toEqual(['running']);
    expect(marksOf(report)).toEqual(['feed-change']);
  });
});

describe('marks', () => {
  it('back-fed: no current while the volts stand above what is set', () => {
    const report = readDraw([OFF, at('no-draw', 4, 0, 12), at('no-draw', 6, 0, 13.4)], {
      settings: KNOWN,
    });
    const mark = report.marks.find((m) => m.mark === 'back-fed')!;
    expect(mark.text).toMatch(
      /13\.40 V on the board .* with 12\.00 V set: something else feeds it/,
    );
    expect(namesOf(report)).toEqual(['off', 'no-draw']);
  });

  it.each([1.8, 6.5])('gap: %d s without readings do not end a stage', (s) => {
    const report = readDraw(HEALTHY, { settings: KNOWN, logging: { gaps: [{ atS: 10, s }] } });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'running']);
    const mark = report.marks.find((m) => m.mark === 'gap')!;
    expect(mark.atS).toBeCloseTo(10, 0);
    expect(mark.text).toContain(`No readings for ${s}`);
  });

  it('no gap for single lost readings, nor at one reading a second', () => {
    const lossy = readDraw(HEALTHY, { settings: KNOWN, logging: { dropouts: 0.1 } });
    expect(marksOf(lossy)).not.toContain('gap');
    expect(marksOf(readDraw(HEALTHY, { settings: KNOWN, logging: { hz: 1 } }))).not.toContain(
      'gap',
    );
  });

  it('output off at the end', () => {
    const report = readDraw([...HEALTHY, OFF], { settings: KNOWN });
    expect(namesOf(report).at(-1)).toBe('off');
    expect(marksOf(report).at(-1)).toBe('output-off');
  });
});

describe('without a running level', () => {
  it('calls a busy draw running and a flat one stalled, says that level cannot tell, and is less sure', () => {
    const moves = readDraw(HEALTHY);
    const rests = readDraw([...HEALTHY.slice(0, 5), at('stalled', 12, 0.42)]);
    expect(namesOf(moves).at(-1)).toBe('running');
    expect(namesOf(rests).at(-1)).toBe('stalled');
    for (const report of [moves, rests]) {
      const last = report.stages.at(-1)!;
      expect(last.reason).toContain(
        'stalled, running and flat high cannot be told apart by level alone',
      );
      expect(last.confidence).toBeLessThan(0.85);
      expect(report.reach.share).toBeNull();
    }
  });
});

describe('without volts', () => {
  it('gives the same stages from amps alone, and says what it cannot see', () => {
    const report = readDraw(HEALTHY, { settings: { runningA: 0.42 }, logging: { volts: false } });
    expect(namesOf(report).slice(1)).toEqual(['flat-low', 'stepping', 'running']);
    expect(report.stages[0]!.reason).toContain('no volts column');
    expect(report.energyWh).toBeNull();
    expect(report.stages[3]!.meanV).toBeNull();
  });
});
