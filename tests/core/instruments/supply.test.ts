import { describe, expect, it } from 'vitest';
import { type Trouble, WakelineError } from '../../../core/errors.ts';
import { openSupply, type Supply } from '../../../core/instruments/supply.ts';
import type { SupplyDialect } from '../../../core/instruments/supply-dialect.ts';
import { openSession } from '../../../core/scpi/session.ts';
import { errorQueue, type Feeding, fed, feeding, scpiTable } from '../../support/odd-supplies.ts';
import { type Answer, type Manners, tableLink } from '../../support/table-link.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

type Table = readonly (readonly [RegExp, Answer])[];

async function open(table: Table, manners: Manners = {}, known?: SupplyDialect) {
  const clock = virtualClock();
  const link = tableLink(clock, table, manners);
  const session = openSession(link, clock);
  const found: SupplyDialect[] = [];
  const work = openSupply(session, { known, onDialect: (dialect) => found.push(dialect) });
  return { clock, link, session, found, supply: await clock.settle(work) };
}

async function openScpi(
  state: Feeding,
  form: Parameters<typeof scpiTable>[1] = {},
  manners: Manners = {},
) {
  const { table, errors } = scpiTable(state, form);
  return open(table, { unknown: () => errors.push('-113,"Undefined header"'), ...manners });
}

async function troubleIn(work: Promise<unknown>): Promise<Trouble> {
  const thrown = await work.then(
    () => null,
    (error: unknown) => error,
  );
  if (thrown instanceof WakelineError) return thrown.trouble;
  throw thrown ?? new Error('nothing was thrown');
}

const isQuery = (message: string) =>
  message.split(';').every((unit) => unit.split(' ')[0]!.endsWith('?'));

describe('connecting a supply', () => {
  it('sends queries only, whatever form of supply it is', async () => {
    const forms = [{}, { suffix: '1' }, { list: '\\(@1\\)' }, { mode: true }];
    for (const form of forms) {
      const state = feeding({ isOn: true });
      const before = { ...state };
      const { link } = await openScpi(state, form);
      expect(link.taken.filter((message) => !isQuery(message))).toEqual([]);
      expect(state).toEqual(before);
    }
  });

  it('finds ranges, digits and the compound form of a plain one', async () => {
    const { supply, found } = await openScpi(feeding());
    expect(supply).toMatchObject({
      identity: 'BENCHWORKS,ODD-ONE,000021,2.0',
      dialect: 'plain',
      canSwitch: true,
      maxV: 30,
      maxA: 5,
      voltsDecimals: 4,
      ampsDecimals: 5,
      offMessage: 'OUTP OFF',
    });
    expect(found[0]?.compound).toBe('full');
  });

  it('finds a channel suffix, a channel list and a selected channel', async () => {
    const suffix = await openScpi(feeding(), { suffix: '1' });
    expect(suffix.found[0]).toMatchObject({ key: 'channel-suffix', compound: 'full' });
    const list = await openScpi(feeding(), { list: '\\(@1\\)' });
    expect(list.found[0]).toMatchObject({ key: 'channel-list' });
    const { table, errors } = scpiTable(feeding());
    const select = await open([...table, [/^:?INST:NSEL\?$/, '2']], {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    expect(select.found[0]?.channel).toEqual({ form: 'select', number: 2 });
  });

  it('takes all channels in one reply for no reading of one', async () => {
    const state = feeding({ isOn: true });
    const { table, errors } = scpiTable(state, { list: '\\(@1\\)' });
    const rows: Table = [
      [/^:?MEAS:VOLT\?$/i, '5.000,0.000,12.000'],
      [/^:?MEAS:CURR\?$/i, '0.1,0.2,0.3'],
      ...table,
    ];
    const { supply, clock } = await open(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    expect(supply.dialect).toBe('channel-list');
    expect(await clock.settle(supply.read())).toMatchObject({ volts: 5, amps: 0.1 });
  });

  it('uses full headers without colons where the parser begins anew at each semicolon', async () => {
    const state = feeding({ isOn: true });
    const { supply, found, clock } = await openScpi(state, { colon: false }, { compound: 'naive' });
    expect(found[0]?.compound).toBe('bare');
    expect(await clock.settle(supply.read())).toMatchObject({ volts: 5, amps: 0.1 });
  });

  it('never takes the set current for a measured one where a parser drops to the root', async () => {
    const state = feeding({ isOn: true, limitA: 2 });
    const { table, errors } = scpiTable(state, { colon: false });
    // Knows only pairs, and answers the second of `MEAS:VOLT?;CURR?` with its set current.
    const rows: Table = [
      [/^MEAS:VOLT\?;CURR\?$/, () => `${fed(state).volts.toFixed(4)};${state.limitA.toFixed(3)}`],
      ...table,
    ];
    const { supply, found, clock } = await open(rows, {
      compound: 'none',
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    expect(found[0]?.compound).toBe('separate');
    expect(await clock.settle(supply.read())).toMatchObject({ volts: 5, amps: 0.1 });
  });

  it('uses the relative pair where it truly measures', async () => {
    const state = feeding({ isOn: true, limitA: 2 });
    const { table, errors } = scpiTable(state, { colon: false });
    const rows: Table = [
      [
        /^MEAS:VOLT\?;CURR\?$/,
        () => `${fed(state).volts.toFixed(4)};${fed(state).amps.toFixed(5)}`,
      ],
      ...table,
    ];
    const { supply, found, clock } = await open(rows, {
      compound: 'none',
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    expect(found[0]?.compound).toBe('relative');
    expect(await clock.settle(supply.read())).toMatchObject({
      volts: 5,
      amps: 0.1,
      outputOn: true,
    });
  });

  it('reads an inline meter without output or set-points, and says that it cannot switch', async () => {
    const errors = errorQueue();
    const { supply, clock } = await open(
      [
        [/^\*IDN\?$/, 'INLINE,POWER-METER,7,1.0'],
        errors.row,
        [/^:?MEAS:VOLT\?$/, '19.02'],
        [/^:?MEAS:CURR\?$/, '0.231'],
      ],
      { unknown: () => errors.push('-113,"Undefined header"') },
    );
    expect(supply).toMatchObject({ canSwitch: false, maxV: null, maxA: null, offMessage: null });
    expect(await clock.settle(supply.read())).toMatchObject({
      volts: 19.02,
      amps: 0.231,
      regulation: null,
      outputOn: null,
    });
    const acts = [() => supply.outputOff(), () => supply.outputOn(), () => supply.setVolts(5)];
    for (const act of acts) {
      expect((await clock.settle(troubleIn(act()))).code).toBe('cannot-switch');
    }
  });

  it('reads a supply that repeats headers and glues units on, and is no SCPI at all', async () => {
    const state = feeding({ isOn: true });
    const { supply, clock, link } = await open([
      [/^\*IDN\?$/, 'BENCHWORKS,LETTERS,3,1.01'],
      [/^V1O\?$/, () => `${fed(state).volts.toFixed(3)}V`],
      [/^I1O\?$/, () => `${fed(state).amps.toFixed(3)}A`],
      [/^V1\?$/, () => `V1 ${state.setV.toFixed(3)}`],
      [/^I1\?$/, () => `I1 ${state.limitA.toFixed(3)}`],
      [
        /^V1 (.*)$/,
        ([, value]) => {
          state.setV = Number(value);
          return null;
        },
      ],
      [/^OP1\?$/, () => (state.isOn ? '1' : '0')],
      [
        /^OP1 (\d)$/,
        ([, value]) => {
          state.isOn = value === '1';
          return null;
        },
      ],
    ]);
    expect(supply.dialect).toBe('letters');
    expect(link.taken.filter((message) => !isQuery(message))).toEqual([]);
    expect(await clock.settle(supply.read())).toMatchObject({
      volts: 5,
      amps: 0.1,
      outputOn: true,
    });
    await clock.settle(supply.setVolts(3.3));
    await clock.settle(supply.outputOff());
    expect(state).toMatchObject({ setV: 3.3, isOn: false });
  });

  it('reads a low-cost supply whose replies never end', async () => {
    const state = feeding({ isOn: true });
    const { supply, clock } = await open(
      [
        [/^\*IDN\?$/, 'MODELV2.0'],
        [/^VOUT1\?$/, () => fed(state).volts.toFixed(2)],
        [/^IOUT1\?$/, () => fed(state).amps.toFixed(3)],
        [/^VSET1\?$/, () => state.setV.toFixed(2)],
        [/^ISET1\?$/, () => state.limitA.toFixed(3)],
        [
          /^OUT0$/,
          () => {
            state.isOn = false;
            return null;
          },
        ],
      ],
      { end: '', takes: '' },
    );
    expect(supply.dialect).toBe('out-and-set');
    expect(await clock.settle(supply.read())).toMatchObject({
      volts: 5,
      amps: 0.1,
      regulation: 'cv',
      outputOn: null,
    });
    await clock.settle(supply.outputOff());
    expect(state.isOn).toBe(false);
  });

  it('says what to do when it is no supply that is known here', async () => {
    const clock = virtualClock();
    const link = tableLink(clock, [[/^\*IDN\?$/, 'MAKER,OVEN,1,1']]);
    const trouble = await clock.settle(troubleIn(openSupply(openSession(link, clock))));
    expect(trouble.code).toBe('instrument-refused');
    expect(trouble.todo).toContain('dialect');
  });

  it('starts from the dialect it was found with before, without probing again', async () => {
    const state = feeding({ isOn: true });
    const first = await openScpi(state, { mode: true });
    const { table, errors } = scpiTable(state, { mode: true });
    const again = await open(
      table,
      { unknown: () => errors.push('-113,"Undefined header"') },
      first.found[0],
    );
    expect(again.link.taken.length).toBeLessThan(first.link.taken.length - 3);
    expect(await again.clock.settle(again.supply.read())).toMatchObject({ regulation: 'cv' });
  });
});

describe('regulation', () => {
  it('is told by a mode query in words', async () => {
    const state = feeding({ isOn: true });
    const { supply, clock } = await openScpi(state, { mode: true });
    const told = async () => (await clock.settle(supply.read())).regulation;
    expect(await told()).toBe('cv');
    state.loadOhm = 1;
    expect(await told()).toBe('cc');
    state.isOn = false;
    expect(await told()).toBe('off');
  });

  // The four codings that bench-supply manuals print; A and B contradict each other.
  const codings = [
    { name: 'A: questionable 1 = CC, 2 = CV', ask: /^:?STAT:QUES:COND\?$/, cv: 2, cc: 1 },
    { name: 'B: questionable 1 = CV, 2 = CC', ask: /^:?STAT:QUES:COND\?$/, cv: 1, cc: 2 },
    { name: 'C: operation 256 = CV, 1024 = CC', ask: /^:?STAT:OPER:COND\?$/, cv: 256, cc: 1024 },
    { name: 'D: operation 1 = CV, 2 = CC', ask: /^:?STAT:OPER:COND\?$/, cv: 1, cc: 2 },
  ];
  for (const coding of codings) {
    it(`is learned where a register tells it, ${coding.name}`, async () => {
      const state = feeding({ isOn: true });
      const { supply, clock, found } = await openScpi(state, { coding });
      expect(found[0]?.regulation.by).toBe('learning');
      for (let i = 0; i < 30; i += 1) {
        expect((await clock.settle(supply.read())).regulation).toBe('cv');
        await clock.pass(100);
      }
      expect(found.at(-1)?.regulation).toMatchObject({ by: 'register' });
      // From here on the register tells, also where the readings alone would not.
      state.limitA = 0.1;
      state.loadOhm = 49;
      const reading = await clock.settle(supply.read());
      expect(fed(state).mode).toBe('cc');
      expect(reading.regulation).toBe('cc');
    });
  }

  it('is inferred where nothing tells it, and left open where readings do not settle it', async () => {
    const state = feeding({ isOn: true, limitA: 0.2 });
    const { supply, clock } = await openScpi(state);
    const told = async () => (await clock.settle(supply.read())).regulation;
    expect(await told()).toBe('cv');
    state.loadOhm = 2;
    expect(await told()).toBe('cc');
    state.loadOhm = 25.2;
    expect(await told()).toBeNull();
  });
});

describe('a set-point', () => {
  it('out of range throws before a byte is sent', async () => {
    const { supply, clock, link } = await openScpi(feeding());
    const sent = link.taken.length;
    for (const volts of [30.1, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      const trouble = await clock.settle(troubleIn(supply.setVolts(volts)));
      expect(trouble.code).toBe('out-of-range');
      expect(trouble.what).toContain('from 0 to 30 V');
    }
    expect((await clock.settle(troubleIn(supply.setLimit(5.01)))).code).toBe('out-of-range');
    expect(link.taken).toHaveLength(sent);
  });

  it('is sent in plain digits and read back', async () => {
    const state = feeding();
    const { supply, clock, link } = await openScpi(state);
    await clock.settle(supply.setVolts(1e-3));
    await clock.settle(supply.setLimit(0.1 + 0.2));
    expect(link.taken).toContain('VOLT 0.001');
    expect(link.taken).toContain('CURR 0.3');
    expect(await clock.settle(supply.setpoints())).toEqual({ setV: 0.001, limitA: 0.3 });
  });

  it('is asked for together where each alone is not answered, and gives the range too', async () => {
    const state = feeding({ isOn: true });
    const { table, errors } = scpiTable(state);
    const rows: Table = [
      [/^:?(VOLT|CURR)\?( MAX)?$/i, () => errors.push('-113,"Undefined header"')],
      [
        /^:?APPL\?$/i,
        () => `CH1:40.00V/5.000A, ${state.setV.toFixed(2)}, ${state.limitA.toFixed(4)}`,
      ],
      ...table,
    ];
    const { supply, clock } = await open(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    expect(supply).toMatchObject({ maxV: 40, maxA: 5, canSwitch: true });
    await clock.settle(supply.setVolts(3.3));
    expect(await clock.settle(supply.setpoints())).toEqual({ setV: 3.3, limitA: 1 });
    expect(await clock.settle(supply.read())).toMatchObject({ volts: 3.3, regulation: 'cv' });
  });

  it('that a supply clips in silence is refused with what it holds', async () => {
    const state = feeding();
    const { table, errors } = scpiTable(state);
    const rows: Table = [
      [
        /^:?VOLT ([\d.]+)$/i,
        ([, value]) => {
          state.setV = Math.min(10, Number(value));
          return null;
        },
      ],
      ...table,
    ];
    const { supply, clock } = await open(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    const trouble = await clock.settle(troubleIn(supply.setVolts(12)));
    expect(trouble.code).toBe('instrument-refused');
    expect(trouble.what).toBe('It was set to 12 V and holds 10 V');
  });

  it('takes remote control when it is refused for want of it, and not before', async () => {
    const state = feeding();
    let isRemote = false;
    const { table, errors } = scpiTable(state);
    const rows: Table = [
      [
        /^:?SYST:REM$/i,
        () => {
          isRemote = true;
          return null;
        },
      ],
      [
        /^:?VOLT ([\d.]+)$/i,
        ([, value]) => {
          if (!isRemote) return errors.push('-203,"Command protected"');
          state.setV = Number(value);
          return null;
        },
      ],
      ...table,
    ];
    const { supply, clock, link } = await open(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    expect(link.taken).not.toContain('SYST:REM');
    await clock.settle(supply.setVolts(3.3));
    expect(state.setV).toBe(3.3);
    expect(link.taken.filter((message) => message === 'SYST:REM')).toHaveLength(1);
  });

  it('of a supply that refuses remote says what to do at its front panel', async () => {
    const { table, errors } = scpiTable(feeding());
    const rows: Table = [
      [/^:?(VOLT [\d.]+|SYST:REM)$/i, () => errors.push('-203,"Command protected"')],
      ...table,
    ];
    const { supply, clock } = await open(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    const trouble = await clock.settle(troubleIn(supply.setVolts(3.3)));
    expect(trouble.what).toBe('VOLT 3.3 was refused: -203 Command protected');
    expect(trouble.todo).toContain('front panel');
  });
});

describe('the output', () => {
  const busy = async (): Promise<{
    supply: Supply;
    state: Feeding;
    all: Awaited<ReturnType<typeof openScpi>>;
  }> => {
    const state = feeding({ isOn: true });
    const all = await openScpi(state, {}, { latencyMs: 100 });
    return { supply: all.supply, state, all };
  };

  it('goes off while a reading is pending and others wait', async () => {
    const { supply, state, all } = await busy();
    const reads = [supply.read(), supply.read(), supply.read()];
    await all.clock.pass(10);
    const off = supply.outputOff();
    await all.clock.pass(1);
    expect(state.isOn).toBe(false);
    await all.clock.settle(off);
    const order = all.link.taken.slice(all.link.taken.indexOf('OUTP OFF'));
    expect(order.slice(0, 2)).toEqual(['OUTP OFF', 'OUTP?']);
    await all.clock.settle(Promise.all(reads));
  });

  it('is switched off again when it is still on, taking remote control', async () => {
    const state = feeding({ isOn: true });
    let isRemote = false;
    const { table, errors } = scpiTable(state);
    const rows: Table = [
      [
        /^:?SYST:REM$/i,
        () => {
          isRemote = true;
          return null;
        },
      ],
      [
        /^:?OUTP OFF$/i,
        () => {
          if (isRemote) state.isOn = false;
          return null;
        },
      ],
      ...table,
    ];
    const { supply, clock } = await open(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    await clock.settle(supply.outputOff());
    expect(state.isOn).toBe(false);
  });

  it('stays off when OFF is asked for while ON is still being tried, whenever that is', async () => {
    for (let atMs = 0; atMs < 60; atMs += 2) {
      const state = feeding();
      let isRemote = false;
      const { table, errors } = scpiTable(state);
      const rows: Table = [
        [
          /^:?SYST:REM$/i,
          () => {
            isRemote = true;
            return null;
          },
        ],
        [
          /^:?OUTP ON$/i,
          () => {
            if (!isRemote) return errors.push('-203,"Command protected"');
            state.isOn = true;
            return null;
          },
        ],
        ...table,
      ];
      const { supply, clock } = await open(rows, {
        latencyMs: 5,
        unknown: () => errors.push('-113,"Undefined header"'),
      });
      const on = supply.outputOn();
      on.catch(() => {});
      await clock.pass(atMs);
      await clock.settle(supply.outputOff());
      await clock.pass(500);
      expect(state.isOn, `OFF ${atMs} ms after ON`).toBe(false);
    }
  });

  it('that stays on says so: switch it off by hand', async () => {
    const { table, errors } = scpiTable(feeding({ isOn: true }));
    const rows: Table = [[/^:?OUTP (ON|OFF)$/i, null], ...table];
    const { supply, clock } = await open(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    const trouble = await clock.settle(troubleIn(supply.outputOff()));
    expect(trouble.code).toBe('instrument-refused');
    expect(trouble.todo).toBe('Switch it off by hand, now.');
  });

  it('that stays off when switched on says so', async () => {
    const { table, errors } = scpiTable(feeding());
    const rows: Table = [[/^:?OUTP ON$/i, null], ...table];
    const { supply, clock } = await open(rows, {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    const trouble = await clock.settle(troubleIn(supply.outputOn()));
    expect(trouble.what).toContain('stayed off');
  });
});

describe('another channel', () => {
  it('selected at the instrument is never read as the one being watched', async () => {
    let selected = 1;
    const { table, errors } = scpiTable(feeding({ isOn: true }));
    const { supply, clock } = await open([...table, [/^:?INST:NSEL\?$/i, () => `${selected}`]], {
      unknown: () => errors.push('-113,"Undefined header"'),
    });
    expect(await clock.settle(supply.read())).toMatchObject({ volts: 5 });
    selected = 2;
    const trouble = await clock.settle(troubleIn(supply.read()));
    expect(trouble.what).toBe(
      'Channel 2 is selected at the supply, and channel 1 is being watched',
    );
  });
});
