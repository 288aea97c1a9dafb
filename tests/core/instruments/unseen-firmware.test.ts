/*
 * Instruments written from descriptions of how firmware misbehaves, none from our own encoder:
 * each is connected, polled and switched. Common practice, no source, where nothing else is said.
 */
import { describe, expect, it } from 'vitest';
import { openMeter } from '../../../core/instruments/meter.ts';
import { openSupply } from '../../../core/instruments/supply.ts';
import type { SupplyDialect } from '../../../core/instruments/supply-dialect.ts';
import { openSession } from '../../../core/scpi/session.ts';
import { findInstrument } from '../../../electron/bench/find-instrument.ts';
import { oddMeter } from '../../support/odd-meter.ts';
import { type Feeding, fed, feeding, scpiTable } from '../../support/odd-supplies.ts';
import { type Answer, type Manners, tableLink } from '../../support/table-link.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

type Table = readonly (readonly [RegExp, Answer])[];

/** Does something, and answers nothing or what it is told to. */
const does = (act: () => void, answer: string | null = null) => {
  act();
  return answer;
};

const isQuery = (message: string) =>
  message.split(';').every((unit) => unit.trim().split(' ')[0]!.endsWith('?'));

async function supplyOf(table: Table, manners: Manners = {}) {
  const clock = virtualClock();
  const link = tableLink(clock, table, manners);
  const session = openSession(link, clock);
  const found: SupplyDialect[] = [];
  const supply = await clock.settle(
    openSupply(session, { onDialect: (dialect) => found.push(dialect) }),
  );
  return { clock, link, supply, found, tookMs: clock.nowMs() };
}

/** A plain supply whose every answer goes through `say`. */
function spoken(state: Feeding, say: (answer: string) => string) {
  const { table, errors } = scpiTable(state);
  const rows: Table = table.map(([pattern, answer]): readonly [RegExp, Answer] => [
    pattern,
    (found) => {
      const told = typeof answer === 'function' ? answer(found) : answer;
      return told === null ? null : say(told);
    },
  ]);
  return { rows, unknown: () => errors.push('-113,"Undefined header"') };
}

const isReading = (text: string) => /^-?\d+\.\d+$/.test(text);

describe('a supply whose answers are written oddly', () => {
  const cases: readonly (readonly [string, (answer: string) => string])[] = [
    ['with blanks before and behind', (told) => `  ${told}   `],
    ['with a plus sign', (told) => (isReading(told) && !told.startsWith('-') ? `+${told}` : told)],
    [
      'with a blank behind the sign',
      (told) => (isReading(told) ? `+ ${told}`.replace('+ -', '- ') : told),
    ],
    ['in small exponents', (told) => (isReading(told) ? Number(told).toExponential(4) : told)],
    ['in quotes', (told) => (isReading(told) ? `"${told}"` : told)],
    ['with commas for points', (told) => (isReading(told) ? told.replace('.', ',') : told)],
    ['padded with NUL', (told) => `\0${told}\0`],
    ['between XOFF and XON', (told) => `\x13${told}\x11`],
    ['with response headers on', (told) => (/^[01]$/.test(told) ? `:OUTP:STAT ${told}` : told)],
  ];
  for (const [name, say] of cases) {
    it(`${name} is found, read and switched`, async () => {
      const state = feeding({ isOn: true });
      const { rows, unknown } = spoken(state, say);
      const { clock, link, supply } = await supplyOf(rows, { unknown });
      expect(link.taken.filter((message) => !isQuery(message))).toEqual([]);
      expect(await clock.settle(supply.read())).toMatchObject({
        volts: 5,
        amps: 0.1,
        outputOn: true,
      });
      await clock.settle(supply.setVolts(3.3));
      expect(state.setV).toBe(3.3);
      await clock.settle(supply.outputOff());
      expect(state.isOn).toBe(false);
    });
  }

  it('with units glued on tells volts from amps', async () => {
    const state = feeding({ isOn: true });
    const { table, errors } = scpiTable(state);
    const rows: Table = [
      [/^:?MEAS:VOLT\?$/i, () => `${fed(state).volts.toFixed(2)}V`],
      [/^:?MEAS:CURR\?$/i, () => `${(fed(state).amps * 1000).toFixed(1)} mA`],
      ...table,
    ];
    const { clock, supply } = await supplyOf(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    expect(await clock.settle(supply.read())).toMatchObject({ volts: 5, amps: 0.1 });
  });

  it('that writes a word for what it cannot tell gives no reading, never a number', async () => {
    const state = feeding({ isOn: true });
    const { table, errors } = scpiTable(state);
    let amps = fed(state).amps.toFixed(4);
    const rows: Table = [[/^:?MEAS:CURR\?$/i, () => amps], ...table];
    const { clock, supply } = await supplyOf(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    for (amps of [
      'NAN',
      'nan',
      'INF',
      '-inf',
      'OVLD',
      'OL',
      '0L',
      '+OL',
      '9.9E37',
      '9.91e+37',
      '----',
    ]) {
      expect(await clock.settle(supply.read()), amps).toMatchObject({ volts: 5, amps: null });
    }
  });
});

describe('a supply with odd manners', () => {
  const cases: readonly (readonly [string, Manners])[] = [
    ['ends its answers with CR alone', { end: '\r' }],
    ['ends its answers with LF CR', { end: '\n\r' }],
    ['wants CR alone behind messages', { takes: '\r', end: '\r\n' }],
    ['wants and sends CR alone', { takes: '\r', end: '\r' }],
    ['echoes each message', { echo: true }],
    ['echoes each message and prompts', { echo: true, end: '\r\n> ' }],
    ['prompts with a word', { end: '\r\nSCPI> ' }],
    ['says OK behind every answer', { end: '\r\nOK\r\n' }],
    ['is deaf for 100 ms between messages at 4800 baud', { deafMs: 100, baud: 4800 }],
  ];
  for (const [name, manners] of cases) {
    it(`that ${name} is found, read and switched`, async () => {
      const state = feeding({ isOn: true });
      const { table, errors } = scpiTable(state);
      const { clock, link, supply } = await supplyOf(table, {
        ...manners,
        unknown: () => errors.push('-113,"Undefined header"'),
      });
      expect(link.taken.filter((message) => !isQuery(message))).toEqual([]);
      const reading = await clock.settle(supply.read());
      expect(reading).toMatchObject({ volts: 5, amps: 0.1, outputOn: true });
      await clock.settle(supply.outputOff());
      expect(state.isOn).toBe(false);
    });
  }

  it('that restarts when its port is opened, and is deaf for 3 s, is waited for', async () => {
    const clock = virtualClock();
    const { table } = scpiTable(feeding({ isOn: true }));
    let isUp = false;
    const rows: Table = table.map(([pattern, answer]): readonly [RegExp, Answer] => [
      pattern,
      (found) => (!isUp ? null : typeof answer === 'function' ? answer(found) : answer),
    ]);
    const link = tableLink(clock, rows);
    clock.setTimer(() => {
      isUp = true;
      link.say('BENCH PSU boot 1.2\r\nready\r\n');
    }, 3000);
    const supply = await clock.settle(openSupply(openSession(link, clock)));
    expect(supply.identity).toBe('BENCHWORKS,ODD-ONE,000021,2.0');
    expect(await clock.settle(supply.read())).toMatchObject({ volts: 5 });
  });

  it('that identifies itself in three or five fields, or with a byte above ASCII, is known again', async () => {
    for (const who of ['BENCHWORKS,PSU-3,1.0', 'BENCHWORKS,PSU,3,X,1.0', 'W\xe9rk,PSU,3,1.0']) {
      const { table, errors } = scpiTable(feeding({ isOn: true }));
      const { supply } = await supplyOf([[/^\*IDN\?$/i, who], ...table], {
        unknown: () => errors.push('-113,"Undefined header"'),
      });
      expect(supply.identity).toBe(who);
    }
  });

  it('whose error queue answers a code without words still has one', async () => {
    for (const none of ['0', '+0', '0 "No error"', '0, No Error', '"0,No error"', 'No Error']) {
      const queue: string[] = [];
      const { table } = scpiTable(feeding({ isOn: true }));
      const { clock, supply, found } = await supplyOf(
        [[/^:?SYST:ERR\?$/i, () => queue.shift() ?? none], ...table],
        {
          unknown: () => {
            queue.push(none === '0' ? '-113' : '-113,"Undefined header"');
            return null;
          },
        },
      );
      expect(found[0], none).toMatchObject({ errorQueue: true, compound: 'full' });
      expect(await clock.settle(supply.read()), none).toMatchObject({ volts: 5, amps: 0.1 });
    }
  });
});

describe('a supply with another set of commands', () => {
  const unknownTo = (errors: { push(entry: string): null }) => () =>
    errors.push('-113,"Undefined header"');

  it('with its channel as a word in front and behind is found, set and switched', async () => {
    const state = feeding({ isOn: true });
    const { errors } = scpiTable(state);
    const rows: Table = [
      [/^\*IDN\?$/, 'BENCHWORKS,TWO-CHANNEL,7,1'],
      errors.row,
      [/^:?MEAS:VOLT\? CH1$/, () => fed(state).volts.toFixed(3)],
      [/^:?MEAS:CURR\? CH1$/, () => fed(state).amps.toFixed(3)],
      [/^:?CH1:VOLT\?$/, () => state.setV.toFixed(3)],
      [/^:?CH1:CURR\?$/, () => state.limitA.toFixed(3)],
      [
        /^:?CH1:VOLT ([\d.]+)$/,
        ([, v]) =>
          does(() => {
            state.setV = Number(v);
          }),
      ],
      [
        /^:?OUTP CH1,(ON|OFF)$/,
        ([, v]) =>
          does(() => {
            state.isOn = v === 'ON';
          }),
      ],
      [/^:?OUTP\? CH1$/, () => (state.isOn ? 'ON' : 'OFF')],
    ];
    const { clock, link, supply } = await supplyOf(rows, { unknown: unknownTo(errors) });
    expect(link.taken.filter((message) => !isQuery(message))).toEqual([]);
    expect(supply).toMatchObject({ dialect: 'channel-word', canSwitch: true });
    await clock.settle(supply.setVolts(4.2));
    expect(state.setV).toBe(4.2);
    await clock.settle(supply.outputOff());
    expect(state.isOn).toBe(false);
    await clock.settle(supply.outputOn());
    expect(await clock.settle(supply.read())).toMatchObject({ volts: 4.2, outputOn: true });
  });

  it('with plain measuring and set-points and output under other headers is found whole', async () => {
    const state = feeding({ isOn: true });
    const { errors } = scpiTable(state);
    const rows: Table = [
      [/^\*IDN\?$/, 'BENCHWORKS,SOURCE-FIRST,8,1'],
      errors.row,
      [/^:?MEAS:VOLT\?$/, () => fed(state).volts.toFixed(3)],
      [/^:?MEAS:CURR\?$/, () => fed(state).amps.toFixed(3)],
      [/^:?SOUR:VOLT\?$/, () => state.setV.toFixed(3)],
      [/^:?SOUR:CURR\?$/, () => state.limitA.toFixed(3)],
      [
        /^:?SOUR:VOLT ([\d.]+)$/,
        ([, v]) =>
          does(() => {
            state.setV = Number(v);
          }),
      ],
      [
        /^:?OUTP:STAT (ON|OFF)$/,
        ([, v]) =>
          does(() => {
            state.isOn = v === 'ON';
          }),
      ],
      [/^:?OUTP:STAT\?$/, () => (state.isOn ? '1' : '0')],
    ];
    const { clock, supply } = await supplyOf(rows, { unknown: unknownTo(errors) });
    expect(supply.canSwitch).toBe(true);
    await clock.settle(supply.setVolts(4.2));
    expect(state.setV).toBe(4.2);
    await clock.settle(supply.outputOff());
    expect(state.isOn).toBe(false);
  });

  it('that measures all in one answer only is read by that', async () => {
    const state = feeding({ isOn: true });
    const { errors } = scpiTable(state);
    const rows: Table = [
      [/^\*IDN\?$/, 'BENCHWORKS,ALL-IN-ONE,9,1'],
      errors.row,
      [/^:?MEAS:ALL\?$/, () => `${fed(state).volts.toFixed(3)},${fed(state).amps.toFixed(3)},0.5`],
      [/^:?VOLT\?$/, () => state.setV.toFixed(3)],
      [/^:?CURR\?$/, () => state.limitA.toFixed(3)],
      [
        /^:?OUTP (ON|OFF)$/,
        ([, v]) =>
          does(() => {
            state.isOn = v === 'ON';
          }),
      ],
      [/^:?OUTP\?$/, () => (state.isOn ? '1' : '0')],
    ];
    const { clock, supply } = await supplyOf(rows, {
      unknown: unknownTo(errors),
      compound: 'none',
    });
    expect(supply).toMatchObject({ dialect: 'all-in-one', canSwitch: true });
    expect(await clock.settle(supply.read())).toMatchObject({
      volts: 5,
      amps: 0.1,
      outputOn: true,
    });
  });

  it('that takes no compound is read by volts and amps in one answer where it has that', async () => {
    const state = feeding({ isOn: true });
    const { table, errors } = scpiTable(state);
    const rows: Table = [
      [/^:?MEAS:ALL\?$/, () => `${fed(state).volts.toFixed(3)},${fed(state).amps.toFixed(3)}`],
      ...table,
    ];
    const { found } = await supplyOf(rows, { unknown: unknownTo(errors), compound: 'none' });
    expect(found[0]).toMatchObject({ compound: 'separate', measureBoth: 'MEAS:ALL?' });
    // Amps first, or something else altogether, is not believed.
    const swapped: Table = [
      [/^:?MEAS:ALL\?$/, () => `${fed(state).amps.toFixed(3)},${fed(state).volts.toFixed(3)}`],
      ...table,
    ];
    const other = await supplyOf(swapped, { unknown: unknownTo(errors), compound: 'none' });
    expect(other.found[0]).toMatchObject({ compound: 'separate', measureBoth: null });
  });

  it('that tells its selected channel as a word never lets another be read for it', async () => {
    const { table, errors } = scpiTable(feeding({ isOn: true }));
    let selected = 'CH2';
    const { clock, supply, found } = await supplyOf([[/^:?INST\?$/, () => selected], ...table], {
      unknown: unknownTo(errors),
    });
    expect(found[0]?.channel).toEqual({ form: 'select', number: 2 });
    selected = 'CH1';
    await expect(clock.settle(supply.read())).rejects.toThrow(/Channel 1 is selected/);
  });

  it('in local control that ignores sets without a word is taken into remote, once it is set', async () => {
    for (const remote of ['SYST:REM', 'SYST:RWL']) {
      const state = feeding({ isOn: false });
      let isRemote = false;
      const { table, errors } = scpiTable(state);
      const rows: Table = [
        [
          new RegExp(`^:?${remote}$`),
          () =>
            does(() => {
              isRemote = true;
            }),
        ],
        // Swallowed.
        ...(['VOLT', 'CURR', 'OUTP'] as const).map((header): readonly [RegExp, Answer] => [
          new RegExp(`^:?${header} (.*)$`),
          ([, value]) => {
            if (!isRemote || value === undefined) return null;
            if (header === 'OUTP') state.isOn = value === 'ON';
            else if (header === 'VOLT') state.setV = Number(value);
            else state.limitA = Number(value);
            return null;
          },
        ]),
        ...table,
      ];
      const { clock, link, supply } = await supplyOf(rows, { unknown: unknownTo(errors) });
      expect(link.taken).not.toContain(remote);
      await clock.settle(supply.outputOn());
      expect(state.isOn, remote).toBe(true);
      isRemote = false;
      await clock.settle(supply.setVolts(3.3));
      expect(state.setV).toBe(3.3);
    }
  });

  it('whose relay takes half a second tells its output late, and is believed', async () => {
    const clock = virtualClock();
    const state = feeding({ isOn: false });
    const { table, errors } = scpiTable(state);
    const rows: Table = [
      [
        /^:?OUTP (ON|OFF)$/,
        ([, value]) => {
          clock.setTimer(() => {
            state.isOn = value === 'ON';
          }, 400);
          return null;
        },
      ],
      ...table,
    ];
    const link = tableLink(clock, rows, { unknown: unknownTo(errors) });
    const supply = await clock.settle(openSupply(openSession(link, clock)));
    await clock.settle(supply.outputOn());
    expect(state.isOn).toBe(true);
    await clock.settle(supply.outputOff());
    expect(state.isOn).toBe(false);
  });
});

describe('a meter not seen before', () => {
  async function meterOf(
    part: { word?: string; reading?: string },
    manners: Manners = {},
    rows: Table = [],
  ) {
    const clock = virtualClock();
    const odd = oddMeter();
    Object.assign(odd, part);
    const link = tableLink(clock, [...rows, ...odd.table], {
      unknown: () => odd.errors.push('-113,"Undefined header"'),
      ...manners,
    });
    const meter = await clock.settle(openMeter(openSession(link, clock)));
    return { clock, link, odd, meter };
  }

  it('that integrates for 1.5 s or 4 s is found and read, and found out who it is', async () => {
    for (const integrateMs of [1500, 4000]) {
      const clock = virtualClock();
      const odd = oddMeter();
      const slow: Table = [[/^:?READ\?$/i, () => null], ...odd.table];
      const link = tableLink(clock, slow, {
        unknown: () => odd.errors.push('-113,"Undefined header"'),
      });
      // Answers READ? after its integration; everything else at once.
      const write = link.write.bind(link);
      link.write = (bytes) => {
        if (/READ\?/.test(String.fromCharCode(...bytes))) {
          clock.setTimer(() => link.say(`${odd.reading}\r\n`), integrateMs);
        } else write(bytes);
      };
      const meter = await clock.settle(openMeter(openSession(link, clock)));
      expect(await clock.settle(meter.read()), String(integrateMs)).toMatchObject({
        quantity: 'volts',
        value: 3.3021,
      });
    }
  });

  it('tells its function in all the ways seen', async () => {
    for (const [word, quantity] of [
      ['VOLT:DC', 'volts'],
      ['DCV', 'volts'],
      ['DC VOLTAGE', 'volts'],
      ['RES', 'ohms'],
      ['2WR', 'ohms'],
      ['4W', 'ohms'],
      ['DIODE', 'diode'],
      ['CONT', 'continuity'],
      ['DC CURRENT', 'amps'],
    ] as const) {
      const { clock, meter } = await meterOf({ word });
      expect(await clock.settle(meter.read()), word).toMatchObject({ quantity });
    }
  });

  it('over range is told in words, glued on or not', async () => {
    const { clock, meter, odd } = await meterOf({ word: 'RES' });
    for (const reading of [
      'OL',
      '0L',
      'OVLD',
      'OVER RANGE',
      '+9.9E37',
      '1e+38',
      'OPEN',
      '9.90000000E+37 OHM',
    ]) {
      odd.reading = reading;
      expect(await clock.settle(meter.read()), reading).toMatchObject({
        value: null,
        overload: true,
      });
    }
    for (const [reading, value] of [
      ['1.2 k\xce\xa9', 1200],
      ['470 \xea', 470],
      ['0,470E+03', 470],
    ] as const) {
      odd.reading = reading;
      const read = await clock.settle(meter.read());
      expect(read.value, reading).toBeCloseTo(value, 6);
    }
  });

  it('is known as a meter without a question that would change its function', async () => {
    for (const ask of ['SENS:FUNC?', 'FUNC1?']) {
      const clock = virtualClock();
      const odd = oddMeter();
      const asked: string[] = [];
      const rows: Table = [
        [/^:?MEAS:.*$/i, ([message]) => does(() => asked.push(message), '+0.0E+00')],
        [/^:?(FUNC|CONF)\?$/i, () => odd.errors.push('-113,"Undefined header"')],
        [new RegExp(`^:?${ask.replace('?', '\\?')}$`), '"RES"'],
        ...odd.table,
      ];
      const open = async () =>
        tableLink(clock, rows, { unknown: () => odd.errors.push('-113,"Undefined header"') });
      const found = await clock.settle(findInstrument({ open, bauds: null, clock }));
      expect(found.role, ask).toBe('meter');
      expect(asked).toEqual([]);
    }
  });
});
