import { describe, expect, it } from 'vitest';
import { countAdvised } from '../../../core/rails/count-advised.ts';
import { type JobWalkFacts, walkJob } from '../../../core/rails/job-walk.ts';
import type { RailReading } from '../../../core/rails/rail-reading.ts';
import { readRailTable } from '../../../core/rails/rail-table.ts';
import { railSection } from '../../../core/record/rail-section.ts';
import { shopClock } from '../../../core/record/record-time.ts';
import { TERN_RAILS } from '../../support/tern-rails.ts';

const { board } = readRailTable(TERN_RAILS, 'Tern 14');
const clock = shopClock(0);
const at = (minute: number) => Date.UTC(2026, 0, 5, 9, minute);

const reading = (fields: Partial<RailReading>): RailReading => ({
  id: `${fields.rail}-${fields.quantity}-${fields.at}`,
  rail: 'MAIN_8V6',
  point: 'output',
  quantity: 'volts',
  against: null,
  value: 0,
  overload: false,
  state: null,
  powered: fields.quantity === undefined || fields.quantity === 'volts',
  wires: 2,
  leadOhm: 0.14,
  accuracy: { percent: 0.1, offset: 0 },
  at: at(0),
  ...fields,
});

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
    isPowered: false,
    at: at(59),
    ...facts,
  });

const before = [
  reading({ value: 2.713, at: at(1) }),
  reading({ quantity: 'ohms', value: 2.24, at: at(2) }),
  reading({ rail: 'SYS_5V', value: 0.002, at: at(3) }),
];

describe('the rails of a record', () => {
  it('are left out when nothing was read on them', () => {
    expect(railSection(null, clock)).toBeNull();
    expect(railSection(walked([]), clock)).toBeNull();
  });

  it('set each point before a part was changed beside the same point since', () => {
    const since = [
      reading({ quantity: 'ohms', value: 8210.14, at: at(20) }),
      reading({ value: 8.604, at: at(21) }),
    ];
    const section = railSection(
      walked([...before, ...since], { changedAt: [at(10), at(11)] }),
      clock,
    )!;
    const words = section.rows.map((row) => [
      row.rail,
      row.measured,
      row.before.verdict,
      row.since.verdict,
    ]);
    expect(words).toEqual([
      ['MAIN_8V6', 'Volts', 'Low', 'Present'],
      ['', 'Ohms to ground', 'Shorted to ground', 'As known-good'],
      ['SYS_5V', 'Volts', 'Missing', ''],
    ]);
    expect(section.rows[0]?.since).toMatchObject({ at: clock.dateTime(at(21)) });
    expect(section.rows[2]?.since.value).toBe('–');
    expect(section.notes.join(' ')).toMatch(/short to ground on MAIN_8V6/);
    expect(section.notes.join(' ')).toMatch(/Not measured again.*SYS_5V \(volts\)/);
  });

  it('carry the working and its source for what is odd', () => {
    const { workings, isChanged } = railSection(walked(before), clock)!;
    expect(isChanged).toBe(false);
    expect(workings).toHaveLength(3);
    expect(workings.join('\n')).toMatch(/2\.24\sΩ − 0\.14\sΩ of leads = 2\.1\sΩ/);
    for (const line of workings) expect(line).toMatch(/Limits: .+\.$/);
  });
});
