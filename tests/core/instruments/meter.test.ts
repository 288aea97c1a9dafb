import { describe, expect, it } from 'vitest';
import { type Trouble, WakelineError } from '../../../core/errors.ts';
import { openMeter } from '../../../core/instruments/meter.ts';
import type { Quantity } from '../../../core/job/job.ts';
import { openSession } from '../../../core/scpi/session.ts';
import { oddMeter, WORD_OF } from '../../support/odd-meter.ts';
import { type Answer, type Manners, tableLink } from '../../support/table-link.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

async function open(table: readonly (readonly [RegExp, Answer])[], manners: Manners = {}) {
  const clock = virtualClock();
  const link = tableLink(clock, table, manners);
  const meter = await clock.settle(openMeter(openSession(link, clock)));
  return { clock, link, meter };
}

async function openOdd(manners: Manners = {}) {
  const odd = oddMeter();
  const unknown = () => odd.errors.push('-113,"Undefined header"');
  return { odd, ...(await open(odd.table, { unknown, ...manners })) };
}

async function troubleIn(work: Promise<unknown>): Promise<Trouble> {
  const thrown = await work.then(
    () => null,
    (error: unknown) => error,
  );
  if (thrown instanceof WakelineError) return thrown.trouble;
  throw thrown ?? new Error('nothing was thrown');
}

describe('a meter', () => {
  it('is read in the function that it is found in, with queries only', async () => {
    const { odd, meter, clock, link } = await openOdd();
    odd.word = 'DIOD';
    odd.reading = '+5.61000000E-01';
    expect(await clock.settle(meter.read())).toMatchObject({
      quantity: 'diode',
      value: 0.561,
      overload: false,
      decimals: 9,
    });
    const others = link.taken.filter((message) => !/\?$/.test(message));
    expect(others).toEqual([]);
  });

  it('tells over range, no data and a value apart, whichever way over range is told', async () => {
    const { odd, meter, clock } = await openOdd();
    odd.word = 'RES';
    for (const reading of ['+9.90000000E+37', '9.99999999e+37', '1E9', 'OL', '-9.90000000E+37']) {
      odd.reading = reading;
      const read = await clock.settle(meter.read());
      expect(read, reading).toMatchObject({ quantity: 'ohms', value: null, overload: true });
    }
    odd.reading = '9.91000000E+37';
    expect(await clock.settle(meter.read())).toMatchObject({ value: null, overload: false });
  });

  it('is put in each function by its standard command', async () => {
    const { odd, meter, clock } = await openOdd();
    for (const quantity of ['volts', 'ohms', 'diode', 'continuity', 'amps'] as Quantity[]) {
      await clock.settle(meter.configure(quantity));
      expect(odd.word).toBe(WORD_OF[quantity]);
      expect(meter.quantity()).toBe(quantity);
    }
  });

  it('in a function that is not used here says which, and what to set', async () => {
    const { odd, meter, clock } = await openOdd();
    for (const word of ['FREQ', 'VOLT:AC', 'CAP', 'TEMP']) {
      odd.word = word;
      const trouble = await clock.settle(troubleIn(meter.read()));
      expect(trouble.what).toBe(`The meter is set to "${word}"`);
      expect(trouble.todo).toContain('DC volts');
    }
  });

  it('whose switch is turned between two readings never gives one under the other name', async () => {
    for (const compound of ['standard', 'none'] as const) {
      const { odd, meter, clock } = await openOdd({ compound });
      odd.word = 'VOLT';
      odd.reading = '+3.30000000E+00';
      expect(await clock.settle(meter.read())).toMatchObject({ quantity: 'volts', value: 3.3 });
      odd.word = 'RES';
      odd.reading = '+4.70000000E+03';
      expect(await clock.settle(meter.read())).toMatchObject({ quantity: 'ohms', value: 4700 });
    }
  });

  it('is read with a unit after the number, with several readings, and with time and count', async () => {
    const { odd, meter, clock } = await openOdd();
    odd.reading = '+1.73730000E-03 VDC';
    expect(await clock.settle(meter.read())).toMatchObject({ value: 1.7373e-3 });
    odd.reading = '+4.27150000E-03,5.27150000E-03';
    expect(await clock.settle(meter.read())).toMatchObject({ value: 5.2715e-3 });
    odd.word = 'CURR';
    odd.reading = '+198.4891E-12NADC,+0007633.858813secs,+58454RDNG#';
    const { value } = await clock.settle(meter.read());
    expect(value).toBeCloseTo(198.4891e-12, 20);
  });

  it('whose reading has the unit of another function is not believed', async () => {
    const { odd, meter, clock } = await openOdd();
    odd.word = 'VOLT';
    odd.reading = '+4.70000000E+03 OHM';
    expect((await clock.settle(troubleIn(meter.read()))).code).toBe('bad-reply');
  });

  it('that only fetches is read, and its silence without data is no reading', async () => {
    const odd = oddMeter();
    const rows = odd.table.map(([pattern, answer]) =>
      pattern.source.includes('READ')
        ? ([/^:?FETC\?$/i, answer] as const)
        : ([pattern, answer] as const),
    );
    const { meter, clock } = await open(rows, {
      unknown: () => odd.errors.push('-113,"Undefined header"'),
    });
    expect(meter.dialect).toBe('fetch-meter');
    expect(await clock.settle(meter.read())).toMatchObject({ value: 3.3021 });
  });

  it('takes a second for a reading that dribbles in, and is not one behind afterwards', async () => {
    const { odd, meter, clock } = await openOdd({ latencyMs: 400 });
    for (let i = 1; i <= 5; i += 1) {
      odd.reading = `+${i}.00000000E+00`;
      expect(await clock.settle(meter.read())).toMatchObject({ value: i });
    }
  });
});
