import type { TrackerSettings } from '../../core/stages/stage.ts';
import { busy, type Dice, flat, ramp, type Stretch, settle, square } from './drawn-draws.ts';

/** A draw to be logged, and what a technician would know of the board. */
export interface DrawnBoard {
  readonly stretches: Stretch[];
  readonly settings: Pick<TrackerSettings, 'runningA' | 'limitA' | 'setV'>;
}

interface Frame {
  readonly v: number;
  readonly runA: number;
  readonly lowA: number;
}

/** A feed and levels as the trade knows them: phone, laptop, controller, console, small board. */
function frame(dice: Dice): Frame {
  const kind = dice.pick(['phone', 'laptop', 'laptop', 'console', 'small'] as const);
  if (kind === 'phone') {
    return { v: 4, runA: dice.between(0.15, 0.9), lowA: dice.between(0.008, 0.02) };
  }
  if (kind === 'console') {
    return { v: 12, runA: dice.between(2, 12), lowA: dice.between(0.05, 0.25) };
  }
  if (kind === 'small') {
    return { v: 5, runA: dice.between(0.12, 0.5), lowA: dice.between(0.01, 0.02) };
  }
  return {
    v: dice.pick([12, 19, 20]),
    runA: dice.between(0.35, 1.8),
    lowA: dice.between(0.008, 0.04),
  };
}

const off = (dice: Dice): Stretch => ({
  label: 'off',
  seconds: dice.between(1, 4),
  amps: flat(0),
  volts: 0,
});

/** A few milliseconds at two to three times the later draw. */
const inrush = (dice: Dice, f: Frame, later: Stretch['label'], a: number): Stretch => ({
  label: later,
  seconds: dice.between(0.003, 0.012),
  amps: flat(a * dice.between(2, 3)),
  volts: f.v,
});

const waiting = (dice: Dice, f: Frame): Stretch => ({
  label: 'flat-low',
  seconds: dice.between(1, 2.5),
  amps: flat(f.lowA),
  volts: f.v,
});

/** Two to four steps towards, and short of, the running level. */
function staircase(dice: Dice, f: Frame, to: number): Stretch[] {
  const n = dice.whole(1, 3);
  const out: Stretch[] = [];
  let level = f.lowA;
  for (let i = 1; i <= n; i++) {
    level += ((to - level) * dice.between(0.35, 0.8)) / (n - i + 1.3);
    out.push({ label: 'stepping', seconds: dice.between(0.5, 2.5), amps: flat(level) });
  }
  return out;
}

const runs = (dice: Dice, f: Frame, seconds = dice.between(6, 25)): Stretch => ({
  label: 'running',
  seconds,
  amps: dice.next() < 0.75 ? busy(f.runA, dice.between(0.04, 0.12)) : flat(f.runA),
});

function start(dice: Dice, f: Frame): Stretch[] {
  return [off(dice), inrush(dice, f, 'flat-low', f.lowA), waiting(dice, f)];
}

function boots(dice: Dice, f: Frame): Stretch[] {
  return [...start(dice, f), ...staircase(dice, f, f.runA * 0.75), runs(dice, f)];
}

const known = (f: Frame, limitA: number | null = null) => ({
  runningA: f.runA,
  limitA,
  setV: f.v,
});

type Maker = (dice: Dice) => DrawnBoard;

/** One maker a description; the names say what the technician sees. */
export const MAKERS: Readonly<Record<string, Maker>> = {
  'healthy cold start': (d) => {
    const f = frame(d);
    return { stretches: boots(d, f), settings: known(f, f.runA * 3) };
  },
  'fed before, woken by the button': (d) => {
    const f = frame(d);
    const rest: Stretch = { label: 'no-draw', seconds: d.between(2, 6), amps: flat(0), volts: f.v };
    return {
      stretches: [rest, waiting(d, f), ...staircase(d, f, f.runA * 0.75), runs(d, f)],
      settings: known(f),
    };
  },
  'switched on, nothing drawn': (d) => {
    const f = frame(d);
    return {
      stretches: [
        off(d),
        { label: 'no-draw', seconds: d.between(5, 20), amps: flat(0), volts: f.v },
      ],
      settings: known(f),
    };
  },
  'never leaves flat low draw': (d) => {
    const f = frame(d);
    return {
      stretches: [
        ...start(d, f),
        { label: 'flat-low', seconds: d.between(8, 30), amps: flat(f.lowA) },
      ],
      settings: known(f, 1),
    };
  },
  'stalls after a staircase': (d) => {
    const f = frame(d);
    const stop = f.runA * d.between(0.35, 0.7);
    return {
      stretches: [
        ...start(d, f),
        ...staircase(d, f, stop * 0.75),
        { label: 'stalled', seconds: d.between(6, 25), amps: flat(stop) },
      ],
      settings: known(f),
    };
  },
  'flat at a fraction from the start': (d) => {
    const f = frame(d);
    const a = f.runA * d.between(0.35, 0.7);
    return {
      stretches: [
        off(d),
        inrush(d, f, 'stalled', a),
        { label: 'stalled', seconds: d.between(6, 25), amps: flat(a), volts: f.v },
      ],
      settings: known(f),
    };
  },
  'dead short': (d) => {
    const f = frame(d);
    const limit = d.pick([0.5, 1, 2, 3]);
    return {
      stretches: [
        off(d),
        {
          label: 'limited',
          seconds: d.between(4, 15),
          amps: flat(limit * d.between(0.97, 1.005)),
          volts: limit * d.between(0.03, 0.5),
          regulation: 'cc',
        },
      ],
      settings: known(f, limit),
    };
  },
  'runs, then pulled to the limit': (d) => {
    const f = frame(d);
    const limit = f.runA * d.between(1.6, 2.5);
    return {
      stretches: [
        ...boots(d, f),
        {
          label: 'limited',
          seconds: d.between(3, 10),
          amps: flat(limit * d.between(0.975, 1)),
          volts: f.v * d.between(0.2, 0.9),
          regulation: 'cc',
        },
      ],
      settings: known(f, limit),
    };
  },
  'boot loop': (d) => {
    const f = frame(d);
    const period = d.pick([d.between(0.8, 3), d.between(3, 10), d.between(10, 25)]);
    const low = d.between(0.25, 0.5);
    const n = period > 9 ? d.whole(2, 3) : d.whole(3, 8);
    const a = f.runA * d.between(0.25, 0.4);
    const b = f.runA * d.between(0.55, 0.8);
    const out = start(d, f);
    out[0] = { ...out[0]!, finest: period * Math.min(low, 0.3) };
    for (let i = 0; i < n; i++) {
      const p = period * d.between(0.97, 1.03);
      out.push({ label: 'cycling', seconds: p * (1 - low) * 0.45, amps: flat(a) });
      out.push({ label: 'cycling', seconds: p * (1 - low) * 0.55, amps: flat(b) });
      out.push({ label: 'cycling', seconds: p * low, amps: flat(f.lowA) });
    }
    return { stretches: out, settings: known(f) };
  },
  'hiccup of a rail': (d) => {
    const f = frame(d);
    const period = d.between(0.5, 2);
    const n = d.whole(6, 14);
    const out = start(d, f);
    out[0] = { ...out[0]!, finest: period * 0.35 };
    for (let i = 0; i < n; i++) {
      out.push({ label: 'cycling', seconds: period * 0.35, amps: flat(f.runA * 0.5) });
      out.push({ label: 'cycling', seconds: period * 0.65, amps: flat(f.lowA) });
    }
    return { stretches: out, settings: known(f) };
  },
  'restarts that the limit makes': (d) => {
    const f = frame(d);
    const limit = f.runA * d.between(0.5, 0.7);
    const period = d.between(1, 3);
    const n = d.whole(4, 9);
    const out = start(d, f);
    out[0] = { ...out[0]!, finest: period * 0.2 };
    for (let i = 0; i < n; i++) {
      out.push({ label: 'cycling', seconds: period * 0.3, amps: flat(limit * 0.5), volts: f.v });
      out.push({
        label: 'cycling',
        seconds: period * 0.2,
        amps: flat(limit * 0.99),
        volts: f.v * 0.6,
        regulation: 'cc',
      });
      out.push({ label: 'cycling', seconds: period * 0.5, amps: flat(f.lowA), volts: f.v });
    }
    return { stretches: out, settings: known(f, limit) };
  },
  'falls back': (d) => {
    const f = frame(d);
    const to = d.next() < 0.5 ? f.lowA : 0;
    return {
      stretches: [
        ...boots(d, f),
        { label: 'fell-back', seconds: d.between(5, 20), amps: flat(to) },
      ],
      settings: known(f),
    };
  },
  'stalls and falls back': (d) => {
    const f = frame(d);
    const stop = f.runA * d.between(0.35, 0.65);
    return {
      stretches: [
        ...start(d, f),
        { label: 'stalled', seconds: d.between(5, 12), amps: flat(stop) },
        { label: 'fell-back', seconds: d.between(5, 15), amps: flat(f.lowA) },
      ],
      settings: known(f),
    };
  },
  'creeps after a stall': (d) => {
    const f = frame(d);
    const stop = f.runA * d.between(0.35, 0.5);
    const to = stop * (d.next() < 0.7 ? d.between(1.3, 1.6) : d.between(0.6, 0.75));
    return {
      stretches: [
        ...start(d, f),
        ...staircase(d, f, stop * 0.75),
        { label: 'creeping', seconds: d.between(15, 60), amps: ramp(stop, to) },
      ],
      settings: known(f),
    };
  },
  'creeps at low draw': (d) => {
    const f = frame(d);
    return {
      stretches: [
        ...start(d, f),
        { label: 'flat-low', seconds: d.between(6, 12), amps: flat(f.lowA) },
        {
          label: 'creeping',
          seconds: d.between(20, 60),
          amps: ramp(f.lowA, f.lowA + d.between(0.03, 0.06)),
        },
      ],
      settings: known(f),
    };
  },
  'flat above its running level': (d) => {
    const f = frame(d);
    const a = f.runA * d.between(1.5, 2.2);
    return {
      stretches: [
        ...start(d, f),
        ...staircase(d, f, f.runA * 0.7),
        { label: 'flat-high', seconds: d.between(8, 25), amps: flat(a) },
      ],
      settings: known(f),
    };
  },
  'controller that runs flat': (d) => {
    const a = d.between(0.08, 0.5);
    const f: Frame = { v: 24, runA: a, lowA: 0.01 };
    return {
      stretches: [
        off(d),
        inrush(d, f, 'running', a * 4),
        { label: 'running', seconds: d.between(8, 30), amps: flat(a), volts: 24 },
      ],
      settings: known(f, 1),
    };
  },
  'square load on a running board': (d) => {
    const f = frame(d);
    const period = d.between(1.5, 4);
    return {
      stretches: [
        ...boots(d, f),
        {
          label: 'running',
          seconds: d.between(10, 30),
          amps: square(f.runA * 0.92, f.runA * d.between(1.15, 1.65), period, d.between(0.3, 0.6)),
        },
      ],
      settings: known(f),
    };
  },
  'load steps on a running board': (d) => {
    const f = frame(d);
    const out = boots(d, f);
    for (let i = 0; i < 5; i++) {
      out.push({
        label: 'running',
        seconds: d.between(1, 6),
        amps: busy(f.runA * d.between(0.85, 1.6), 0.05),
      });
    }
    return { stretches: out, settings: known(f) };
  },
  'feed goes from 5 to 20 V': (d) => {
    const f: Frame = { v: 20, runA: d.between(0.35, 0.9), lowA: 0.012 };
    const five = { volts: 5 };
    return {
      stretches: [
        off(d),
        { label: 'flat-low', seconds: d.between(1.5, 3), amps: flat(f.lowA * 4), ...five },
        { label: 'flat-low', seconds: d.between(1.5, 3), amps: flat(f.lowA), volts: 20 },
        ...staircase(d, f, f.runA * 0.75),
        runs(d, f),
      ],
      settings: known(f),
    };
  },
  'feed changes while it runs': (d) => {
    const f: Frame = { v: 20, runA: d.between(0.35, 0.7), lowA: 0.012 };
    return {
      stretches: [
        off(d),
        { label: 'flat-low', seconds: d.between(1.5, 3), amps: flat(f.lowA * 4), volts: 5 },
        { label: 'stepping', seconds: 1.2, amps: flat(f.runA * 2) },
        { label: 'running', seconds: d.between(4, 9), amps: busy(f.runA * 4, 0.05) },
        { label: 'running', seconds: d.between(6, 15), amps: busy(f.runA, 0.05), volts: 20 },
      ],
      settings: known(f),
    };
  },
  'soft start and a warming board': (d) => {
    const f = frame(d);
    const tau = d.between(0.15, 0.5);
    return {
      stretches: [
        off(d),
        { label: 'flat-low', seconds: 2, amps: settle(f.lowA * 4, f.lowA, tau), volts: f.v },
        ...staircase(d, f, f.runA * 0.75),
        { label: 'running', seconds: d.between(20, 60), amps: settle(f.runA * 0.96, f.runA, 12) },
      ],
      settings: known(f),
    };
  },
  'switched off and on again': (d) => {
    const f = frame(d);
    return { stretches: [...boots(d, f), ...boots(d, f), off(d)], settings: known(f) };
  },
  'asleep with bursts': (d) => {
    const f = frame(d);
    return {
      stretches: [
        ...boots(d, f),
        {
          label: 'fell-back',
          finest: 0.3,
          seconds: d.between(10, 25),
          amps: square(f.runA * 0.4, f.lowA, d.between(2, 4), 0.92),
        },
      ],
      settings: known(f),
    };
  },
};
