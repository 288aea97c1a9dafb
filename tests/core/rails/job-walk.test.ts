import { describe, expect, it } from 'vitest';
import { checkFinding } from '../../../core/finding/finding.ts';
import { countAdvised } from '../../../core/rails/count-advised.ts';
import { type JobWalkFacts, walkJob } from '../../../core/rails/job-walk.ts';
import type { RailReading } from '../../../core/rails/rail-reading.ts';
import { readRailTable } from '../../../core/rails/rail-table.ts';
import { TERN_RAILS } from '../../support/tern-rails.ts';

const { board } = readRailTable(TERN_RAILS, 'Tern 14');

let next = 0;
const read = (rail: string, value: number, fields: Partial<RailReading> = {}): RailReading => {
  next += 1;
  const quantity = fields.quantity ?? 'volts';
  return {
    id: `r${next}`,
    rail,
    point: 'output',
    quantity,
    against: null,
    value,
    overload: false,
    state: null,
    powered: quantity === 'volts',
    wires: 4,
    leadOhm: null,
    accuracy: { percent: 0.1, offset: 0 },
    at: next,
    ...fields,
  };
};
const ohms = (rail: string, value: number, fields: Partial<RailReading> = {}) =>
  read(rail, value, { quantity: 'ohms', ...fields });

const walked = (readings: readonly RailReading[], facts: Partial<JobWalkFacts> = {}) =>
  walkJob({
    board,
    readings,
    changedAt: [],
    state: null,
    liquid: false,
    drawBefore: null,
    drawNow: null,
    cannotReach: [],
    adviceFor: countAdvised,
    isPowered: true,
    at: 1e9,
    ...facts,
  });
const main = (job: ReturnType<typeof walked>) => job.rails[1]!;

describe('the rails of a job', () => {
  it('are called by the newest reading of each kind, the gravest first', () => {
    expect(main(walked([read('MAIN_8V6', 8.6)])).verdict).toBe('present');
    const both = [read('MAIN_8V6', 2.7), ohms('MAIN_8V6', 2.1)];
    expect(main(walked(both)).verdict).toBe('shorted');
    // Read again, the later reading counts and the earlier stays to be seen.
    const again = main(walked([...both, ohms('MAIN_8V6', 8200), read('MAIN_8V6', 8.6)]));
    expect(again).toMatchObject({ verdict: 'present', isOdd: false });
    expect(again.now).toHaveLength(4);
  });

  it('are not called by what was read at their input or enable', () => {
    const job = walked([read('MAIN_8V6', 19, { point: 'input' })]);
    expect(main(job).verdict).toBe('not-measured');
    expect(main(job).now).toHaveLength(1);
  });

  it('keep what was read before parts were changed apart from what was read since', () => {
    const before = [read('MAIN_8V6', 2.7), ohms('MAIN_8V6', 2.1), read('SYS_5V', 0)];
    const changedAt = [next + 1, next + 2];
    next += 2;
    const since = [ohms('MAIN_8V6', 8200), read('MAIN_8V6', 8.6)];
    const job = walked([...before, ...since], { changedAt });
    expect(main(job)).toMatchObject({ verdict: 'present', verdictBefore: 'shorted' });
    expect(job.again.map(({ reading }) => reading.rail)).toEqual(['SYS_5V']);
    expect(job.walkBefore?.suspects[0]?.faults[0]?.key).toBe('short:MAIN_8V6');
    expect(job.walk.suspects[0]?.faults[0]?.key).not.toBe('short:MAIN_8V6');
    expect(job.taken).toBe(3);
  });

  it('count the advice only once a suspect is more likely than not', () => {
    expect(walked([]).advised).toBeNull();
    expect(walked([read('DC_FUSED', 19)]).advised).toBeNull();
    const job = walked([read('MAIN_8V6', 2.7), ohms('MAIN_8V6', 2.1)]);
    expect(job.advised).toMatchObject({ fault: 'a short to ground on MAIN_8V6' });
    expect(job.advised?.count).toBeGreaterThan(0);
  });

  it('write a sound finding for each reading and one for where the walk stands', () => {
    const readings = [read('MAIN_8V6', 2.7), ohms('MAIN_8V6', 2.1)];
    const { findings } = walked(readings);
    expect(findings.map(({ key }) => key)).toEqual([
      'rail:MAIN_8V6:volts:low',
      'rail:MAIN_8V6:ohms:shorted',
      'walk:short:MAIN_8V6',
    ]);
    for (const finding of findings) expect(checkFinding(finding)).toBe(finding);
    expect(walked([]).findings).toEqual([]);
  });

  it('take the supply at its limit for a sign of a short on the input', () => {
    const p = (drawNow: JobWalkFacts['drawNow']) =>
      walked([], { drawNow }).walk.suspects.find(({ faults }) =>
        faults.some(({ key }) => key === 'short:DC_FUSED'),
      )?.probability ?? 0;
    expect(p('limited')).toBeGreaterThan(3 * p('some'));
  });
});
