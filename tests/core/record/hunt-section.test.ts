import { describe, expect, it } from 'vitest';
import { huntSections } from '../../../core/record/hunt-section.ts';
import { shopClock } from '../../../core/record/record-time.ts';
import type { Hunt, HuntPoint } from '../../../core/shorts/hunt.ts';
import { huntGradient } from '../../../core/shorts/hunt-gradient.ts';
import { runBefore, TAKEN_IN } from '../../support/record-job.ts';

const point = (name: string, zeroV: number, firstV: number, secondV: number): HuntPoint => ({
  id: name,
  name,
  alongMm: null,
  onPicture: null,
  readings: [
    [zeroV, 0],
    [firstV, 1],
    [secondV, 2],
  ].map(([volts, amps], at) => ({
    id: `${name}${at}`,
    volts: volts!,
    decimals: 6,
    amps: amps!,
    source: 'meter',
    takenAt: TAKEN_IN + at,
  })),
});

const hunt = (points: readonly HuntPoint[], fields: Partial<Hunt> = {}): Hunt => ({
  id: 'hunt',
  jobId: 'job',
  rail: 'MAIN_8V6',
  reference: 'the screw by the socket',
  leadOhm: 0.11,
  leadFrom: 'measured',
  meterSigmaV: 5e-6,
  mostA: null,
  ratings: [],
  beganAt: TAKEN_IN,
  points,
  runIds: ['injected'],
  finding: null,
  concludedAt: null,
  ...fields,
});

const printed = (one: Hunt) => {
  const { run } = runBefore({ id: 'injected', setV: 0.5, limitA: 2, durationS: 12 });
  const [section] = huntSections([{ hunt: one, found: huntGradient(one) }], [run], shopClock(60));
  const plain = (text: string) => text.replaceAll('\u00a0', ' ');
  return {
    title: section!.title,
    facts: section!.facts.map(({ label, text }) => plain(`${label}: ${text}`)),
    heads: section!.heads.map(plain),
    rows: section!.rows.map((row) => row.map(plain)),
    notes: section!.notes.map(plain),
  };
};

describe('a hunt for a short on paper', () => {
  const told = printed(
    hunt([point('C210', 0.00001, 0.03121, 0.06241), point('C214', 0.00001, 0.01241, 0.02481)]),
  );

  it('says what was put in and what the points can be told apart by', () => {
    expect(told.title).toBe('MAIN_8V6, against the screw by the socket');
    expect(told.facts).toEqual(
      expect.arrayContaining([
        'Put in: at most 0.5 V, limit 2 A, once, 12 s in all',
        'Leads: 110 mΩ both, measured',
      ]),
    );
    expect(told.facts.at(-1)).toMatch(/^Told apart from: 15.0 µV up \(three sigma/);
  });

  it('ranks the points with the zero taken off, the lowest first, as Ohm’s law has it', () => {
    expect(told.heads).toEqual([
      'Point',
      'No current',
      'At 1.00 A',
      'At 2.00 A',
      'Drop, zero taken off',
      'Where it goes',
    ]);
    // 0.01241 V less 0.00001 V at 1 A: 12.4 mV, 12.4 milliohms.
    expect(told.rows).toEqual([
      ['C214', '0.010 mV', '12.410 mV', '24.810 mV', '12.400 mV', 'nearest'],
      ['C210', '0.010 mV', '31.210 mV', '62.410 mV', '31.200 mV', ''],
    ]);
    expect(told.notes[0]).toContain('C214 is nearest');
  });

  it('calls ties ties, and claims nothing that the meter cannot tell', () => {
    const tie = printed(
      hunt([
        point('C210', 0, 0.0312, 0.0624),
        point('C214', 0, 0.0124, 0.0248),
        point('C215', 0, 0.012401, 0.024802),
      ]),
    );
    expect(tie.rows.map((row) => row.at(-1))).toEqual(['ties', 'ties', '']);
    const flat = printed(hunt([point('a', 0, 0.0124, 0.0248), point('b', 0, 0.012401, 0.0248)]));
    expect(flat.rows.every((row) => row.at(-1) === '')).toBe(true);
    expect(flat.notes[0]).toContain('cannot be told');
  });

  it('prints a hunt that only began, and names the points that were not read', () => {
    const begun = printed(hunt([{ ...point('C210', 0, 0, 0), readings: [] }], { leadOhm: null }));
    expect(begun.rows).toEqual([['C210', '–', '–', '–', '']]);
    expect(begun.facts).toContain('Leads: not measured');
    expect(begun.notes.at(-1)).toBe('Not read: C210.');
  });
});
