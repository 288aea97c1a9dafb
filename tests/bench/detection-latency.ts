import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Bin } from '../../core/stages/bin.ts';
import { Cusum } from '../../core/stages/control-chart.ts';
import { Segmenter } from '../../core/stages/segmenter.ts';
import { Dice } from '../support/drawn-draws.ts';
import { type LatencyCurve, latencyPicture } from './latency-picture.ts';
import { type Measure, measure, median } from './measure.ts';

const HZ = 20;
const SIGMA_A = 0.002;
const LEVEL_A = 0.02;
/** Readings of flat noise that false alarms are counted in: 28 hours. */
const FLAT = 2_000_000;
const TRIALS = 200;
/** Slack and limit of the segmenter's own CUSUM, in sigma. */
const SLACK = 0.7;
const LIMIT = 9;

const hours = (readings: number) => readings / HZ / 3600;

/** False alarms an hour of a CUSUM with this limit on noise alone. */
function falseAlarms(limit: number): number {
  const cusum = new Cusum(SLACK, limit);
  const dice = new Dice(11);
  let alarms = 0;
  for (let i = 0; i < FLAT; i++) {
    if (cusum.push(Math.max(-4, Math.min(4, dice.normal()))) === 0) continue;
    alarms++;
    cusum.reset();
  }
  return alarms / hours(FLAT);
}

/** Seconds in the middle from a step of `sigmas` to the alarm. */
function delay(limit: number, sigmas: number): number {
  const dice = new Dice(23 + sigmas);
  const waits: number[] = [];
  for (let trial = 0; trial < TRIALS; trial++) {
    const cusum = new Cusum(SLACK, limit);
    for (let i = 0; i < 50; i++) if (cusum.push(dice.normal()) !== 0) cusum.reset();
    let n = 1;
    while (n < 4000 && cusum.push(Math.max(-4, Math.min(4, sigmas + dice.normal()))) === 0) n++;
    waits.push(n / HZ);
  }
  return median(waits);
}

function binOf(i: number, amps: number): Bin {
  const tick = i * (10_000 / HZ);
  const read = Math.round(amps * 1000) / 1000;
  return {
    tick,
    lastTick: tick,
    samples: 1,
    amps: read,
    ampsMin: read,
    ampsMax: read,
    ampsSum: read,
    withinSquares: 0,
    volts: 12,
    regulation: null,
    outputOn: null,
    afterGap: false,
  };
}

/** What the tracker does with a reading: the resolution is learned from it, then it is cut or joined. */
function read(segmenter: Segmenter, i: number, amps: number): void {
  const bin = binOf(i, amps);
  segmenter.noise.seeReading(bin.amps);
  segmenter.push(bin, 'on');
}

/** Seconds in the middle from a step of so many sigma until the whole segmenter has cut there. */
function segmenterDelay(sigmas: number): number {
  const dice = new Dice(31 + sigmas);
  const waits: number[] = [];
  for (let trial = 0; trial < TRIALS; trial++) {
    const segmenter = new Segmenter();
    let i = 0;
    for (; i < 100; i++) read(segmenter, i, LEVEL_A + SIGMA_A * dice.normal());
    const at = i;
    const isCut = () => (segmenter.pieces.at(-1)?.tick ?? 0) >= (at - 4) * (10_000 / HZ);
    while (i < at + 4000 && !isCut()) {
      read(segmenter, i, LEVEL_A + SIGMA_A * (sigmas + dice.normal()));
      i++;
    }
    waits.push((i - at) / HZ);
  }
  return median(waits);
}

/** Cuts an hour that the segmenter offers on flat quantised noise, before the exact pass. */
function segmenterAlarms(): number {
  const segmenter = new Segmenter();
  const dice = new Dice(47);
  const readings = 200_000;
  for (let i = 0; i < readings; i++) {
    read(segmenter, i, LEVEL_A + SIGMA_A * dice.normal());
  }
  return (segmenter.pieces.length - 1) / hours(readings);
}

/**
 * How long a change goes unseen against how often nothing is taken for one: the curve of the CUSUM
 * over its limit, drawn into `folder`, and the point at which the segmenter works. What it offers
 * falsely is taken back by the exact pass, so that more of it costs time and no stage.
 */
export function measureDetection(folder: string | null): readonly Measure[] {
  const limits = [2, 2.5, 3, 3.5, 4, 4.5, 5, 6];
  const alarms = limits.map((limit) => Math.max(falseAlarms(limit), 0.5 / hours(FLAT)));
  const curves: LatencyCurve[] = [1.5, 2, 3, 5].map((sigmas) => ({
    words: `step of ${sigmas} sigma`,
    points: limits.map((limit, k) => ({ alarmsAnHour: alarms[k]!, delayS: delay(limit, sigmas) })),
  }));
  if (folder !== null) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(path.join(folder, 'detection-latency.svg'), latencyPicture(curves));
  }
  const offered = segmenterAlarms();
  const at = (sigmas: number) =>
    measure(
      `a step of ${sigmas} sigma seen live after, middle, 20 Hz`,
      segmenterDelay(sigmas),
      's',
      'within two seconds from 2 sigma on',
      { name: 'a CUSUM alone at the same limit', value: delay(LIMIT, sigmas) },
    );
  return [
    measure(
      'cuts offered an hour on flat noise, 20 Hz',
      offered,
      '1/h',
      'taken back by the exact pass',
    ),
    measure(
      'false alarms an hour of the CUSUM alone at its limit',
      falseAlarms(LIMIT),
      '1/h',
      'under 0.1',
      { name: 'the same with half the limit', value: falseAlarms(LIMIT / 2) },
    ),
    at(1.5),
    at(2),
    at(3),
    at(5),
    at(10),
  ];
}
