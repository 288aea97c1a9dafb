import { describe, expect, it } from 'vitest';
import { type Trouble, WakelineError } from '../../../core/errors.ts';
import { findInstrument, USUAL_BAUDS } from '../../../electron/bench/find-instrument.ts';
import { oddMeter } from '../../support/odd-meter.ts';
import { errorQueue, feeding, scpiTable } from '../../support/odd-supplies.ts';
import { type Answer, tableLink } from '../../support/table-link.ts';
import { type VirtualClock, virtualClock } from '../../support/virtual-clock.ts';

type Table = readonly (readonly [RegExp, Answer])[];

/** A port where the device is heard at one speed only; at others it sees and sends garbage. */
function port(clock: VirtualClock, rightBaud: number, table: Table, unknown: () => null) {
  const opened: (number | null)[] = [];
  return {
    opened,
    open: async (baud: number | null) => {
      opened.push(baud);
      return baud === rightBaud
        ? tableLink(clock, table, { unknown, baud })
        : tableLink(clock, [[/./, '\xf8\x00\x9f']], { end: '\xfe' });
    },
  };
}

async function troubleIn(work: Promise<unknown>): Promise<Trouble> {
  const thrown = await work.then(
    () => null,
    (error: unknown) => error,
  );
  expect(thrown).toBeInstanceOf(WakelineError);
  return (thrown as WakelineError).trouble;
}

describe('finding an instrument', () => {
  it('looks at the usual speeds until somebody answers', async () => {
    const clock = virtualClock();
    const { table, errors } = scpiTable(feeding({ isOn: true }), { mode: true });
    const { open, opened } = port(clock, 38_400, table, () =>
      errors.push('-113,"Undefined header"'),
    );
    const found = await clock.settle(findInstrument({ open, bauds: USUAL_BAUDS, clock }));
    expect(opened).toEqual([9600, 115_200, 19_200, 38_400]);
    expect(found).toMatchObject({
      baud: 38_400,
      role: 'supply',
      dialect: 'plain',
      canSwitch: true,
      reading: '5.0000 V, 0.10000 A',
    });
    expect(found.rateHz).toBeGreaterThan(10);
  });

  it('knows a meter without asking it anything that changes its function', async () => {
    const clock = virtualClock();
    const odd = oddMeter();
    const asked: string[] = [];
    const rows: Table = [
      [
        /^:?MEAS.*$/i,
        ([message]) => {
          asked.push(message);
          odd.word = 'VOLT';
          return '+0.0E+00';
        },
      ],
      ...odd.table,
    ];
    odd.word = 'RES';
    odd.reading = '+9.90000000E+37';
    const { open } = port(clock, 9600, rows, () => odd.errors.push('-113,"Undefined header"'));
    const found = await clock.settle(findInstrument({ open, bauds: [9600], clock }));
    expect(found).toMatchObject({ role: 'meter', reading: 'ohms: over range' });
    expect(asked).toEqual([]);
    expect(odd.word).toBe('RES');
  });

  it('says that nobody is there, having looked everywhere', async () => {
    const clock = virtualClock();
    let opened = 0;
    const open = async () => {
      opened += 1;
      return tableLink(clock, []);
    };
    const work = troubleIn(findInstrument({ open, bauds: USUAL_BAUDS, clock }));
    expect((await clock.settle(work)).code).toBe('no-answer');
    expect(opened).toBe(USUAL_BAUDS.length);
    // Looking everywhere takes patience, not for ever.
    expect(clock.nowMs()).toBeLessThan(20_000);
  });

  it('says of an instrument of another kind that it answers, and stops looking', async () => {
    const clock = virtualClock();
    const errors = errorQueue();
    const rows: Table = [[/^\*IDN\?$/, 'MAKER,OVEN,1,1'], errors.row];
    const { open, opened } = port(clock, 9600, rows, () => errors.push('-113,"Undefined header"'));
    const trouble = await clock.settle(
      troubleIn(findInstrument({ open, bauds: USUAL_BAUDS, clock })),
    );
    expect(trouble.code).toBe('instrument-refused');
    expect(opened).toEqual([9600]);
  });
});
