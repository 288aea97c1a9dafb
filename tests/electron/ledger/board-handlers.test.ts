import { copyFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';
import { TERN_TABLE } from '../../support/tern-rails.ts';

const folder = tempFolder('boards');
const file = path.join(folder, 'ledger.sqlite');
const clock = { ms: Date.UTC(2026, 1, 2, 8) };
const ledger = await openLedgerInThread({ path: file, now: () => clock.ms });
afterAll(() => ledger.close());
const { handlers } = ledger;

const troubleOf = (call: () => unknown) =>
  Promise.resolve()
    .then(call)
    .then(
      () => null,
      (e: unknown) => (e instanceof WakelineError ? e.trouble : e),
    );

describe('a board', () => {
  it('is kept with rails, feeds, enables, states, points, known-good and facts', async () => {
    const saved = await handlers.saveBoard({ name: 'Tern 14', was: null, table: TERN_TABLE });
    expect(saved.stated).toMatchObject({
      name: 'Tern 14',
      statedInputV: 19,
      statedLimitA: 2.5,
      runningA: 0.9,
      runsFlat: false,
    });
    expect(saved.stated.rails.map(({ name }) => name)).toEqual([
      'DC_FUSED',
      'MAIN_8V6',
      'ALW_3V3',
      'SYS_5V',
      'SYS_3V3',
    ]);
    expect(saved.stated.rails[4]).toMatchObject({
      fedBy: ['MAIN_8V6'],
      enabledBy: ['ALW_3V3'],
      points: [{ name: 'SYS_3V3', role: 'output', cost: 2, volts: null }],
      expectedOhms: { median: 420, count: 1 },
    });
    // Another opening of the same file reads what this one wrote.
    const copy = path.join(folder, 'copy.sqlite');
    copyFileSync(file, copy);
    copyFileSync(`${file}-wal`, `${copy}-wal`);
    const other = await openLedgerInThread({ path: copy });
    expect(await other.handlers.readBoard({ name: ' TERN14 ' })).toEqual(saved);
    await other.close();
  });

  it('comes back out as CSV that saves as the same board', async () => {
    const before = await handlers.readBoard({ name: 'Tern 14' });
    const saved = await handlers.saveBoard({
      name: 'Tern 14',
      was: 'Tern 14',
      table: before!.csv,
    });
    expect(saved).toEqual(before);
  });

  it.each([
    ['a feed that is no rail', 'MAIN\t8\nCORE\t1\t\tMIAN', /row 2.*CORE/],
    ['a loop of feeds', 'A\t5\t\tB\nB\t5\t\tA', /row 1.*A/],
    ['a rail without volts', 'MAIN\t8\nCORE', /row 2, column volts/],
    ['the same rail twice', 'MAIN\t8\nMAIN\t9', /row 2/],
  ])(
    'with %s is refused with the row named, and the old one stays whole',
    async (_, table, where) => {
      const before = await handlers.readBoard({ name: 'Tern 14' });
      const trouble = await troubleOf(() =>
        handlers.saveBoard({ name: 'Tern 14', was: 'Tern 14', table }),
      );
      expect(trouble).toMatchObject({ code: 'bad-input', where: expect.stringMatching(where) });
      expect(await handlers.readBoard({ name: 'Tern 14' })).toEqual(before);
      expect(await troubleOf(() => handlers.readBoardTable({ name: 'Tern 14', table }))).toEqual(
        trouble,
      );
    },
  );

  it('may have enables that go round in a loop', async () => {
    const table = 'IN\t12\nA\t5\t\tIN\t\tB\nB\t3.3\t\tIN\t\tA';
    const saved = await handlers.saveBoard({ name: 'Looping', was: null, table });
    expect(saved.stated.rails[1]?.enabledBy).toEqual(['B']);
    await handlers.deleteBoard({ name: 'Looping' });
    expect(await handlers.readBoard({ name: 'Looping' })).toBeNull();
  });

  it('can be renamed, but not onto another one', async () => {
    await handlers.saveBoard({ name: 'Wren', was: null, table: 'IN\t5' });
    expect(
      await troubleOf(() => handlers.saveBoard({ name: 'tern 14', was: 'Wren', table: 'IN\t9' })),
    ).toMatchObject({ code: 'bad-input', what: expect.stringContaining('already') });
    await handlers.saveBoard({ name: 'Wren 2', was: 'Wren', table: 'IN\t9' });
    expect((await handlers.listBoards({})).map(({ name, rails }) => [name, rails])).toEqual([
      ['Tern 14', 5],
      ['Wren 2', 1],
    ]);
  });

  it('is linked to jobs by name, whatever the case and spaces', async () => {
    await handlers.createJob(jobFields({ boardModel: 'tern  14' }));
    const [tern] = await handlers.listBoards({});
    expect(tern).toMatchObject({ name: 'Tern 14', jobs: 1, goodReadings: 0 });
  });

  it('gives the tracker what its jobs do not say themselves', async () => {
    const unknown = { statedInputV: null, statedLimitA: null, runningA: null, runsFlat: null };
    const feed = {
      point: 'charger-input',
      cells: false,
      screen: false,
      drive: false,
      note: '',
    } as const;
    const settings = async (board: typeof unknown | { runningA: number }) => {
      const job = await handlers.createJob(
        jobFields({ boardModel: 'Tern 14', board: { ...unknown, ...board } }),
      );
      return ledger.recorder.settingsFor({ jobId: job.id, setV: 19, limitA: 2.5, feed });
    };
    expect((await settings(unknown)).runningA).toBe(0.9);
    expect((await settings(unknown)).runsFlat).toBe(false);
    expect((await settings({ runningA: 0.4 })).runningA).toBe(0.4);
  });
});

describe('cells of a table', () => {
  it('are sorted by their headings, whatever separates them', async () => {
    const wanted = [['MAIN', '8.6', '', 'IN', '', '', '', '', '', '', '']];
    for (const text of [
      'fed by\tvolts\tname\nIN\t8.6\tMAIN',
      'fed by;volts;name\nIN;8.6;MAIN\n',
      'fed by,volts,name\r\nIN,8.6,MAIN',
      'MAIN\t8.6\t\tIN',
    ]) {
      expect(await handlers.readRailCells({ text })).toEqual(wanted);
    }
  });
});

describe('states of the shop', () => {
  it('are kept without doubles and named beside those that boards use', async () => {
    await handlers.saveBoard({
      name: 'Wren 3',
      was: null,
      table: 'rail,volts,fed by,states\nIN,12,,\nP5,5,IN,run + parked\n',
    });
    const saved = await handlers.saveShopStates({ states: ['stop', 'Run', 'run'] });
    expect(saved.defined).toEqual(['stop', 'Run']);
    expect((await handlers.readShopStates({})).used).toEqual(
      expect.arrayContaining(['run', 'parked']),
    );
  });

  it('are asked after at the row that names another', async () => {
    const table = 'IN,12,,\nP5,5,5%,IN,,,parked\n';
    const { warnings } = await handlers.readBoardTable({ name: 'b', table });
    expect(warnings).toContainEqual({
      row: 2,
      text: "P5 is up in parked, which is none of the shop's states (stop, Run).",
    });
  });
});
