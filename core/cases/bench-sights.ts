import type { Finding, FindingOrigin } from '../finding/finding.ts';
import type { BoardFacts, Reading, Run } from '../job/job.ts';
import type { StageReport } from '../stages/stage.ts';
import { formatQuantity } from '../units/format.ts';
import { sightFinding } from './sight-finding.ts';

/** A stated figure is met within this share. */
const NEAR = 0.05;
/** A diode at the limit holds the supply between these volts. */
const DIODE_V = [0.4, 1.1] as const;
/** Below this share of the set volts there is no feed at the board at all. */
const NONE_SHARE = 0.05;
/** A draw this near to its limit was cut by it, between two readings at least. */
const AT_LIMIT_SHARE = 0.9;
/** Below this a board draws nothing to speak of. */
const DRAWS_A = 0.003;
/** What a reading of a dead or unconnected meter stays under. */
const DEAD_V = 0.05;
/** Two volts readings that say nothing are one too many. */
const LEAST_DEAD = 2;

/** Where a meter touches to see what the supply gives the board. */
const AT_BOARD =
  /^\s*(the\s+)?(board|charger|dc|supply|feed)?[\s-]*(input|in|jack)\b|\bat the board\b/i;

interface Seen {
  readonly run: Run;
  readonly report: StageReport;
  readonly board: BoardFacts;
  /** Readings taken while the run went on. */
  readonly readings: readonly Reading[];
}

/**
 * What one powered run and the readings taken in it say of the bench itself: its limit against what the
 * board needs, the volts that arrive against those that are set, leads, protection, and whether the
 * meter can be believed. Each answers a question of the cause table.
 */
export function benchSights(seen: Seen): readonly Finding[] {
  return [
    ...limitSight(seen),
    ...feedSight(seen),
    ...boardVoltsSight(seen),
    ...offSight(seen),
    ...meterSight(seen),
    ...wakeSight(seen),
  ];
}

const amps = (value: number | null) => formatQuantity(value, 'A', null, { digits: 3 });
const volts = (value: number | null) => formatQuantity(value, 'V', null, { digits: 4 });
const runOrigin = (run: Run): FindingOrigin => ({ kind: 'run', id: run.id });

/** A limit below the need is to blame only where the draw came up to it. */
function limitSight({ run, report, board }: Seen): readonly Finding[] {
  const { limitA } = run;
  const need = Math.max(board.statedLimitA ?? 0, board.runningA ?? 0);
  if (limitA === null || need === 0) return [];
  const isBelow = limitA < need * (1 - NEAR);
  const isHit = report.stages.some(({ stage }) => stage === 'limited' || stage === 'cycling');
  const peakA = report.peakA ?? run.peakA;
  const isNear = peakA === null || peakA >= limitA * AT_LIMIT_SHARE;
  const isLow = isBelow && (isHit || isNear);
  const needed =
    board.statedLimitA !== null && board.statedLimitA === need
      ? `the board states ${amps(need)}`
      : `it runs at ${amps(need)}`;
  const unused =
    isBelow && !isLow && peakA !== null
      ? ` The draw peaked at ${amps(peakA)} and never came up to it.`
      : '';
  return [
    sightFinding(
      'limit',
      isLow ? 'too-low' : 'enough',
      `The limit was ${amps(limitA)}; ${needed}.${unused}`,
      { at: run.startedAt, from: [runOrigin(run)], value: limitA, unit: 'A', room: 'bench' },
    ),
  ];
}

function feedSight({ run, board }: Seen): readonly Finding[] {
  if (run.setV === null || board.statedInputV === null) return [];
  const isStated = Math.abs(run.setV / board.statedInputV - 1) <= NEAR;
  return [
    sightFinding(
      'feed',
      isStated ? 'as-stated' : 'other',
      `Fed with ${volts(run.setV)}; the board states ${volts(board.statedInputV)}.`,
      { at: run.startedAt, from: [runOrigin(run)], value: run.setV, unit: 'V', room: 'bench' },
    ),
  ];
}

/**
 * The volts that arrive. A meter at the board's input says most: it tells leads from a limit. Without
 * one the supply's own reading says whether the limit holds it down, or a diode does.
 */
function boardVoltsSight({ run, report, readings }: Seen): readonly Finding[] {
  const { setV } = run;
  const stages = report.stages.filter(({ stage }) => stage !== 'off');
  const last = stages.at(-1);
  const limited = stages.findLast(({ stage }) => stage === 'limited');
  const supplyV = limited?.meanV ?? last?.meanV ?? null;
  const drawA = limited?.meanA ?? last?.meanA ?? null;
  const origin = runOrigin(run);
  const touch = readings.filter(isAtBoard).at(-1);
  const isDiode = (v: number) => v >= DIODE_V[0] && v <= DIODE_V[1];
  const canDiode = setV === null || setV > DIODE_V[1] * 2;
  if (touch !== undefined && touch.value !== null && setV !== null) {
    const size = Math.abs(touch.value);
    const shown = volts(touch.value);
    const told = (outcome: string, claim: string) => [
      sightFinding('board-volts', outcome, claim, {
        at: touch.takenAt,
        from: [{ kind: 'reading', id: touch.id }, origin],
        value: touch.value,
        unit: 'V',
        room: 'bench',
      }),
    ];
    const set = `set to ${volts(setV)}`;
    if (touch.value < -DIODE_V[0]) {
      return told(
        'about-a-diode',
        `At the board it reads ${shown}, the wrong way round: reversed.`,
      );
    }
    if (limited !== undefined && canDiode && isDiode(size)) {
      return told('about-a-diode', `At the limit the board is held at ${shown}, about a diode.`);
    }
    if (size < setV * NONE_SHARE) {
      // A board that draws has volts: then it is the meter that is not there.
      return (drawA ?? 0) > DRAWS_A && limited === undefined
        ? []
        : told('none', `Nothing arrives at the board (${shown}) with the supply ${set}.`);
    }
    const lost = (supplyV ?? setV) - size;
    if (lost > setV * NEAR) {
      const ohms =
        drawA === null || drawA <= DRAWS_A
          ? ''
          : `: ${formatQuantity(lost / drawA, 'Ω', null, { digits: 2 })} of leads at ${amps(drawA)}`;
      return told(
        'dropped',
        `The board gets ${shown} of the ${volts(supplyV ?? setV)} that the supply gives${ohms}.`,
      );
    }
    if (supplyV !== null && supplyV < setV * (1 - NEAR)) return heldDown(run, supplyV, limited);
    return told('as-set', `The board gets ${shown} with the supply ${set}.`);
  }
  if (limited === undefined || supplyV === null) return [];
  if (canDiode && isDiode(supplyV)) {
    return [
      sightFinding(
        'board-volts',
        'about-a-diode',
        `At the limit the supply was held at ${volts(supplyV)}, about a diode.`,
        { at: run.startedAt, from: [origin], value: supplyV, unit: 'V', room: 'bench' },
      ),
    ];
  }
  if (setV === null || supplyV >= setV * (1 - NEAR)) return [];
  return heldDown(run, supplyV, limited);
}

function heldDown(run: Run, supplyV: number, limited: unknown): readonly Finding[] {
  const by = limited === undefined ? '' : ' at its limit';
  return [
    sightFinding(
      'board-volts',
      'held-down',
      `The supply itself gave only ${volts(supplyV)}${by}, set to ${volts(run.setV)}.`,
      { at: run.startedAt, from: [runOrigin(run)], value: supplyV, unit: 'V', room: 'bench' },
    ),
  ];
}

/** The guard's own off, and a lost instrument, are told; the supply's cannot be told from a hand's. */
function offSight({ run, report }: Seen): readonly Finding[] {
  const trip = report.marks.find(({ mark }) => mark === 'guard-trip');
  if (run.end !== 'guard' && trip === undefined) return [];
  return [
    sightFinding(
      'supply-off',
      'tripped',
      `The guard switched off: ${trip?.text ?? 'see the run'}`,
      {
        at: run.startedAt,
        from: [runOrigin(run)],
        room: 'bench',
      },
    ),
  ];
}

/** A meter that reads nothing anywhere on a board that draws is not measuring volts there. */
function meterSight({ run, report, readings }: Seen): readonly Finding[] {
  const read = readings.filter(({ quantity, value }) => quantity === 'volts' && value !== null);
  const isDead = ({ value }: Reading) => Math.abs(value ?? 0) < DEAD_V;
  const from = read.map(({ id }): FindingOrigin => ({ kind: 'reading', id }));
  const at = read.at(-1)?.takenAt ?? run.startedAt;
  const drawA = report.reach.heldA;
  const draws = drawA !== null && drawA > DRAWS_A;
  const isLimited = report.stages.some(({ stage }) => stage === 'limited');
  if (draws && !isLimited && read.length >= LEAST_DEAD && read.every(isDead)) {
    const claim = `Every volts reading says nothing (${read.length} of ${read.length}) while the board draws ${amps(drawA)}.`;
    return [sightFinding('meter', 'contradicts', claim, { at, from, room: 'bench' })];
  }
  const touch = read.filter(isAtBoard).at(-1);
  if (touch?.value == null || run.setV === null) return [];
  if (draws && !isLimited && isDead(touch)) {
    const claim = `The meter reads ${volts(touch.value)} at the input of a board that draws ${amps(drawA)}.`;
    return [sightFinding('meter', 'contradicts', claim, { at, from, room: 'bench' })];
  }
  if (Math.abs(touch.value / run.setV - 1) > NEAR) return [];
  const claim = `The meter agrees with the supply at the board's input (${volts(touch.value)}).`;
  return [sightFinding('meter', 'agrees', claim, { at, from, room: 'bench' })];
}

function wakeSight({ run, report }: Seen): readonly Finding[] {
  if (!report.marks.some(({ mark }) => mark === 'wake-request')) return [];
  const claim = 'It was asked to wake in this run.';
  return [
    sightFinding('wake', 'asked', claim, {
      at: run.startedAt,
      from: [runOrigin(run)],
      room: 'bench',
    }),
  ];
}

function isAtBoard({ quantity, place, value }: Reading): boolean {
  return quantity === 'volts' && value !== null && AT_BOARD.test(place);
}
