import { type TrackerSettings, UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import type { CorpusDraw } from './drawn-corpus.ts';
import { busy, Dice, flat, logDraw, ramp, type Stretch, settle, square } from './drawn-draws.ts';

/**
 * A second set of drawn boards, written afresh from how technicians describe draws: other shapes,
 * other rates and other flaws of logging than `drawn-boards.ts`, which thresholds were looked at
 * with. Common practice, no source; the figures of real traces in the comments were seen on
 * supplies, probes and meters.
 */
interface Described {
  readonly stretches: Stretch[];
  readonly runA: number | null;
  readonly setV: number;
  readonly limitA: number | null;
}

type Write = (d: Dice) => Described;
type Amps = Stretch['amps'];

const stage = (
  label: Stretch['label'],
  seconds: number,
  amps: number | Amps,
  more: Partial<Stretch> = {},
): Stretch => ({ label, seconds, amps: typeof amps === 'number' ? flat(amps) : amps, ...more });

const unfed = (d: Dice) => stage('off', d.between(1.5, 5), 0, { volts: 0 });

/** A level with a fan's or lamp's duty cycle on it. */
const withFan = (a: number, addA: number, periodS: number) => square(a, a + addA, periodS, 0.5);

/** Work that comes in tasks: a base and plateaus of load of random length. */
function tasks(base: number, share: number): Amps {
  let level = base;
  let until = 0;
  return (t, _u, dice) => {
    if (t >= until) {
      until = t + dice.between(0.2, 2.5);
      level = base * (1 + share * dice.between(-1, 1.4));
    }
    return level * (1 + 0.03 * dice.normal());
  };
}

function boot(d: Dice, lowA: number, runA: number, v: number, waitS = d.between(1, 2)): Stretch[] {
  const rush = stage('flat-low', 0.006, runA * d.between(0.8, 2), { volts: v });
  const wait = stage('flat-low', waitS, settle(lowA * 1.4, lowA, 0.12), { volts: v });
  const steps = d.whole(2, 3);
  const climb = Array.from({ length: steps }, (_, i) => {
    const to = lowA + ((runA * 0.72 - lowA) * (i + d.between(0.6, 1))) / steps;
    return stage('stepping', d.between(0.6, 2.2), settle(to * 0.94, to, 0.08));
  });
  return [rush, wait, ...climb];
}

const laptop = (d: Dice) => ({ runA: d.between(0.4, 1.5), lowA: d.between(0.01, 0.035), v: 19 });
const phone = (d: Dice) => ({ runA: d.between(0.18, 0.7), lowA: d.between(0.012, 0.03), v: 4.1 });
const any = (d: Dice) => (d.next() < 0.5 ? laptop(d) : phone(d));

const told = (
  stretches: Stretch[],
  b: { runA: number; v: number },
  limitA: number | null = null,
) => ({
  stretches,
  runA: b.runA,
  setV: b.v,
  limitA,
});

/** Boards by what a technician would say of them. */
export const DESCRIBED_BOARDS: Readonly<Record<string, Write>> = {
  'phone woken by its button': (d) => {
    const b = phone(d);
    const [, ...climb] = boot(d, b.lowA * 2, b.runA, b.v);
    return told(
      [
        stage('no-draw', d.between(2, 6), 0.0005, { volts: b.v }),
        ...climb,
        stage('running', d.between(8, 25), tasks(b.runA, 0.12)),
      ],
      b,
      2,
    );
  },
  'laptop that negotiates 20 V': (d) => {
    const runA = d.between(0.5, 1.4);
    return told(
      [
        unfed(d),
        stage('flat-low', d.between(0.6, 1.5), 0.06, { volts: 5.1 }),
        stage('flat-low', d.between(1, 2.5), 0.018, { volts: 20 }),
        stage('stepping', d.between(0.6, 2), runA * 0.3),
        stage('stepping', d.between(0.6, 2), runA * 0.6),
        stage('running', d.between(8, 25), busy(runA, d.between(0.05, 0.1))),
      ],
      { runA, v: 20 },
      3,
    );
  },
  'console with high peaks': (d) => {
    const b = { runA: d.between(3, 9), lowA: d.between(0.08, 0.25), v: 12 };
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, b.runA, b.v),
        stage('running', d.between(8, 20), busy(b.runA, 0.1)),
      ],
      b,
      20,
    );
  },
  'controller at 24 V': (d) => {
    const runA = d.between(0.1, 0.6);
    return told(
      [
        unfed(d),
        stage('running', 0.004, runA * 5, { volts: 24 }),
        stage('running', d.between(10, 30), settle(runA * 1.05, runA, 3), { volts: 24 }),
      ],
      { runA, v: 24 },
      2,
    );
  },
  'reset while it runs': (d) => {
    // Seen: running 30 mA, 6 held in reset, 15, 20, 16, 18, 12, back to 30, all within 1.3 s.
    const runA = d.between(0.2, 0.5);
    const shares = [0.2, 0.5, 0.67, 0.53, 0.6, 0.4];
    const each = d.between(0.7, 1.25) / shares.length;
    const b = any(d);
    const dip = shares.map((s) => stage('stepping', each, runA * s, { finest: 0.1 }));
    return told(
      [
        unfed(d),
        ...boot(d, 0.012, runA, b.v),
        stage('running', 8, busy(runA, 0.04)),
        ...dip,
        stage('running', 9, busy(runA, 0.04)),
      ],
      { ...b, runA },
    );
  },
  'stalls with a fan turning': (d) => {
    const b = laptop(d);
    const stop = b.runA * d.between(0.35, 0.6);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, stop, b.v),
        stage('stalled', d.between(8, 25), withFan(stop * 0.97, stop * 0.06, d.between(1.5, 3))),
      ],
      b,
    );
  },
  'stalls flat': (d) => {
    const b = any(d);
    const stop = b.runA * d.between(0.3, 0.68);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, stop, b.v),
        stage('stalled', d.between(6, 25), settle(stop * 0.98, stop, 4)),
      ],
      b,
    );
  },
  'waits long, then goes on': (d) => {
    const b = laptop(d);
    const at = b.runA * d.between(0.35, 0.6);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, at, b.v),
        stage('stalled', d.between(13, 20), at),
        stage('stepping', d.between(1, 2.5), b.runA * 0.74),
        stage('running', d.between(8, 15), busy(b.runA, 0.07)),
      ],
      b,
    );
  },
  'polarity reversed': (d) => {
    const limit = d.pick([0.3, 0.5, 1, 2]);
    const b = any(d);
    return told(
      [
        unfed(d),
        stage('limited', d.between(3, 9), limit * d.between(0.972, 1), {
          volts: d.between(0.65, 0.75),
          regulation: 'cc',
        }),
      ],
      b,
      limit,
    );
  },
  'short after the second step': (d) => {
    const b = any(d);
    const limit = b.runA * d.between(1.5, 2.5);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, b.runA, b.v),
        stage('limited', d.between(3, 10), limit * d.between(0.975, 1), {
          volts: b.v * d.between(0.1, 0.6),
          regulation: 'cc',
        }),
      ],
      b,
      limit,
    );
  },
  'drying liquid': (d) => {
    const b = any(d);
    const from = b.lowA * 1.2;
    return told(
      [
        unfed(d),
        stage('flat-low', d.between(7, 12), from, { volts: b.v }),
        stage(
          'creeping',
          d.between(20, 50),
          ramp(from, Math.min(from * d.between(1.8, 2.6), 0.19 * b.runA + from)),
        ),
      ],
      b,
    );
  },
  'something hot above its level': (d) => {
    const b = any(d);
    const a = b.runA * d.between(1.5, 2.4);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, b.runA, b.v),
        stage('flat-high', d.between(9, 25), settle(a * 0.97, a, 5)),
      ],
      b,
      b.runA * 4,
    );
  },
  'boot loop': (d) => {
    const b = any(d);
    const period = d.pick([d.between(1.5, 4), d.between(4, 9), d.between(12, 28)]);
    const n = period > 10 ? d.whole(2, 3) : d.whole(3, 7);
    const out = [unfed(d), ...boot(d, b.lowA, b.runA, b.v).slice(0, 2)];
    for (let i = 0; i < n; i++) {
      const p = period * d.between(0.96, 1.04);
      out.push(stage('cycling', p * 0.25, b.runA * 0.3, { finest: period * 0.2 }));
      out.push(stage('cycling', p * 0.4, busy(b.runA * 0.6, 0.05)));
      out.push(stage('cycling', p * 0.35, b.lowA));
    }
    return told(out, b);
  },
  'watchdog loop that reaches running': (d) => {
    const b = laptop(d);
    const out = [unfed(d), ...boot(d, b.lowA, b.runA, b.v).slice(0, 2)];
    const period = d.between(4, 8);
    for (let i = 0; i < 4; i++) {
      out.push(stage('cycling', period * 0.3, b.runA * 0.4));
      out.push(stage('cycling', period * 0.3, b.runA * 0.95));
      out.push(stage('cycling', period * 0.4, b.lowA));
    }
    return told(out, b);
  },
  'falls asleep with beats': (d) => {
    const b = phone(d);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, b.runA, b.v),
        stage('running', d.between(6, 12), tasks(b.runA, 0.1)),
        stage(
          'fell-back',
          d.between(10, 25),
          square(b.lowA * 0.8, b.runA * 0.3, d.between(2, 4), 0.06),
          { finest: 0.12 },
        ),
      ],
      b,
    );
  },
  'drops out and stays out': (d) => {
    const b = any(d);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, b.runA, b.v),
        ...(d.next() < 0.5 ? [stage('running', d.between(4, 10), busy(b.runA, 0.06))] : []),
        stage('fell-back', d.between(6, 18), d.next() < 0.4 ? 0 : b.lowA),
      ],
      b,
    );
  },
  'second press of the button helps': (d) => {
    const b = any(d);
    const again = boot(d, b.lowA, b.runA, b.v).slice(2);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, b.runA, b.v),
        stage('fell-back', d.between(4, 9), b.lowA),
        ...again,
        stage('running', d.between(8, 15), busy(b.runA, 0.07)),
      ],
      b,
    );
  },
  'reads a little under zero and draws nothing': (d) => {
    const b = any(d);
    return told([unfed(d), stage('no-draw', d.between(6, 20), -0.0015, { volts: b.v })], b, 1);
  },
  'standby lamp blinks': (d) => {
    const b = laptop(d);
    return told(
      [
        unfed(d),
        stage('flat-low', d.between(8, 25), square(b.lowA * 1.15, b.lowA, 1, 0.1), { volts: b.v }),
      ],
      b,
    );
  },
  'runs flat and steady': (d) => {
    const b = any(d);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, b.runA, b.v),
        stage('running', d.between(8, 25), settle(b.runA * 0.97, b.runA, 6)),
      ],
      b,
    );
  },
  'heavy load comes and goes': (d) => {
    const b = { runA: d.between(0.6, 1.1), lowA: 0.03, v: 5 };
    // Seen: steps of 0.66 to 1.1 A on a running single-board computer.
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, b.runA, b.v),
        stage(
          'running',
          d.between(12, 25),
          square(b.runA, b.runA + d.between(0.4, 0.7), d.between(1.5, 4), 0.4),
        ),
      ],
      b,
      3,
    );
  },
  'stalls, switched off': (d) => {
    const b = any(d);
    const stop = b.runA * d.between(0.35, 0.65);
    return told(
      [
        unfed(d),
        ...boot(d, b.lowA, stop, b.v),
        stage('stalled', d.between(6, 15), stop),
        { ...unfed(d), seconds: 3 },
      ],
      b,
    );
  },
};

export const DESCRIBED_RATES = [1, 2, 10, 50, 200, 1000];

/** Every described board for each seed at each rate, logged with the flaws that real logs have. */
export function* describedCorpus(
  from: number,
  seeds: number,
  volts: boolean,
  only = '',
): Generator<CorpusDraw> {
  for (const [maker, write] of Object.entries(DESCRIBED_BOARDS)) {
    if (!maker.includes(only) || (!volts && maker.includes('negotiates'))) continue;
    for (let seed = from; seed < from + seeds; seed++) {
      for (const hz of DESCRIBED_RATES) {
        const dice = new Dice(seed * 7001 + hz * 13 + maker.length * 104_729);
        const board = write(dice);
        if (board.stretches.some((x) => (x.finest ?? 99) * hz < 2)) continue;
        const total = board.stretches.reduce((s, x) => s + x.seconds, 0);
        const coarse = (board.runA ?? 1) > 0.25;
        const countA = dice.pick([0.001, 0.001, coarse ? 0.01 : 0.001, 0.0001, 0]);
        const noise = dice.pick([1, 1, 3, 10]);
        // Seen: logs with gaps of 1.8 to 6.5 s.
        const gaps =
          dice.next() < 0.25
            ? [{ atS: dice.between(0.75, 0.85) * total, s: dice.between(1.8, 3) }]
            : [];
        const stretches =
          hz >= 200 && dice.next() < 0.6 ? rippled(board.stretches, dice) : board.stretches;
        const draw = logDraw(
          stretches,
          {
            hz,
            countA,
            noiseA: noise * dice.between(0.0002, 0.0007),
            zeroA: dice.between(-0.00015, 0.003),
            jitter: dice.between(0, 0.4),
            dropouts: dice.pick([0, 0, 0.01, 0.05]),
            gaps,
            volts,
            regulation: volts && dice.next() < 0.25,
          },
          dice,
        );
        const settings: TrackerSettings = {
          ...UNKNOWN_BOARD,
          runningA: board.runA,
          setV: board.setV,
          limitA: board.limitA,
        };
        yield { maker, seed, hz, noise, countA, draw, settings };
      }
    }
  }
}

/** A converter's ripple that a fast probe shows: 4 to 15 % of the level at some 70 to 400 Hz. */
function rippled(stretches: readonly Stretch[], dice: Dice): Stretch[] {
  const share = dice.between(0.04, 0.15);
  const hz = dice.between(70, 400);
  let begun = 0;
  return stretches.map((s) => {
    const from = begun;
    begun += s.seconds;
    const still = ['off', 'no-draw', 'limited'].includes(s.label);
    return {
      ...s,
      amps: (t, u, rolls) =>
        s.amps(t, u, rolls) * (still ? 1 : 1 + share * Math.sin(2 * Math.PI * hz * (from + t))),
    };
  });
}
