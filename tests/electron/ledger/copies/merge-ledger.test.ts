import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { mergeRuleOf } from '../../../../core/copies/merge-rule.ts';
import { mergeLedger } from '../../../../electron/ledger/copies/merge-ledger.ts';
import { readShapes } from '../../../../electron/ledger/copies/read-shapes.ts';
import { stageLedger } from '../../../../electron/ledger/copies/stage-ledger.ts';
import type { Ledger } from '../../../../electron/ledger/ledger-client.ts';
import { openLedgerInThread } from '../../../../electron/ledger/open-ledger-in-thread.ts';
import { asideEntry } from '../../../support/aside-entry.ts';
import { ledgerRows, lookInto } from '../../../support/ledger-rows.ts';
import { jobFields, report, runStart, samples } from '../../../support/ledger-samples.ts';
import { openBare } from '../../../support/ledger-schema.ts';
import { openSeededLedger } from '../../../support/seed-ledger.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const folder = tempFolder('merge');
const at = (name: string) => path.join(folder, name);
const open: Ledger[] = [];
afterAll(async () => {
  for (const ledger of open) await ledger.close().catch(() => {});
});
let clock = Date.UTC(2026, 2, 2, 8);
const openAt = async (name: string) => {
  const ledger = await openLedgerInThread({ path: at(name), now: () => clock, asideEntry });
  open.push(ledger);
  return ledger;
};
let staged = 0;

/** Merges a ledger file into another that nobody has open; answers what was told. */
async function merge(into: string, from: string) {
  staged += 1;
  const other = at(`staged-${staged}`);
  await stageLedger({ source: at(from), staged: other, tell: () => {} });
  const sqlite = openBare(at(into));
  try {
    sqlite.pragma('foreign_keys = ON');
    sqlite.prepare('attach database ? as other').run(other);
    sqlite.exec('begin immediate');
    const merged = mergeLedger(sqlite);
    sqlite.exec('commit');
    expect(sqlite.pragma('main.foreign_key_check')).toEqual([]);
    return merged.report;
  } finally {
    sqlite.close();
  }
}

/** A ledger and a copy of it that went on elsewhere. */
async function twoBenches(name: string) {
  const made = await openSeededLedger(at(`${name}-a.sqlite`));
  await made.ledger.close();
  const copy = await openAt(`${name}-b.sqlite`);
  await copy.close();
  await merge(`${name}-b.sqlite`, `${name}-a.sqlite`);
  return made.seeded;
}

describe('the rules of a merge', () => {
  it('are there for every table of the schema, by its own shape or by name', async () => {
    await (await openAt('shapes.sqlite')).close();
    const shapes = lookInto(at('shapes.sqlite'), readShapes);
    const rules = Object.fromEntries(shapes.map((shape) => [shape.name, mergeRuleOf(shape)]));
    expect(rules.jobs).toEqual({ kind: 'row', newer: { by: 'time', column: 'updated_at' } });
    expect(rules.chunks).toEqual({ kind: 'whole', owner: { column: 'track_id', table: 'tracks' } });
    expect(rules.part_details).toMatchObject({ newer: { by: 'owner', owner: { table: 'parts' } } });
    expect(rules.settings).toEqual({ kind: 'local' });
    expect(rules.search_jobs).toEqual({ kind: 'local' });
    for (const { name, key } of shapes) {
      if (rules[name]?.kind !== 'local') expect(key.length, `${name} has a key`).toBeGreaterThan(0);
    }
  });
});

describe('two ledgers that began as one', () => {
  it('come together without doubles, the newer job winning, and twice changes nothing', async () => {
    const { jobs } = await twoBenches('newer');
    clock += 60_000;
    const a = await openAt('newer-a.sqlite');
    await a.handlers.changeJob({ id: jobs.fresh, fields: { symptom: 'No picture, told by A' } });
    const onlyA = await a.handlers.createJob(
      jobFields({ serialNumber: 'ONLY-A', customer: 'Ash' }),
    );
    await a.close();
    clock += 60_000;
    const b = await openAt('newer-b.sqlite');
    await b.handlers.changeJob({ id: jobs.fresh, fields: { symptom: 'No picture, told by B' } });
    await b.handlers.addPart({
      jobId: jobs.fresh,
      part: {
        action: 'lifted',
        designator: 'C9',
        kind: '',
        value: '',
        rail: '',
        stateFound: '',
        from: '',
      },
    });
    const onlyB = await b.handlers.createJob(
      jobFields({ serialNumber: 'ONLY-B', customer: 'Birch' }),
    );
    await b.close();
    expect(onlyA.number).toBe(onlyB.number);

    const told = await merge('newer-a.sqlite', 'newer-b.sqlite');
    expect(told).toMatchObject({
      jobsAdded: 1,
      jobsChanged: 1,
      renumbered: [{ from: onlyB.number, to: onlyB.number + 1 }],
      told: [],
    });
    const after = await openAt('newer-a.sqlite');
    const whole = await after.handlers.readJob({ id: jobs.fresh });
    expect(whole.job.symptom).toBe('No picture, told by B');
    expect(whole.parts).toHaveLength(1);
    expect(await after.handlers.listJobs({ search: '', limit: 99 })).toHaveLength(7);
    // The next number comes after all that were given on either bench.
    expect((await after.handlers.createJob(jobFields())).number).toBe(onlyB.number + 2);
    await after.close();

    const before = ledgerRows(at('newer-a.sqlite'), { withKept: true });
    expect(await merge('newer-a.sqlite', 'newer-b.sqlite')).toMatchObject({ tables: [] });
    expect(ledgerRows(at('newer-a.sqlite'), { withKept: true })).toEqual(before);

    // The other way round both hold the same, but for what each numbers for itself.
    await merge('newer-b.sqlite', 'newer-a.sqlite');
    expect(ledgerRows(at('newer-b.sqlite'))).toEqual(ledgerRows(at('newer-a.sqlite')));
  });

  it('keep the fuller recording of a run, whole, and never mix chunks of two', async () => {
    await twoBenches('fuller');
    const a = await openAt('fuller-a.sqlite');
    const job = await a.handlers.createJob(jobFields());
    const run = await a.recorder.startRun(runStart({ jobId: job.id, startedAt: clock }));
    await a.recorder.appendSupply({ runId: run.id, columns: samples(700) });
    await a.handlers.readSamples({ id: run.id, fromTick: 0, toTick: 1e9, limit: 9 });
    // Taken in by the other bench while it is still going on here.
    await merge('fuller-b.sqlite', 'fuller-a.sqlite');
    const half = lookInto(at('fuller-b.sqlite'), (sqlite) =>
      sqlite.prepare('select samples, end_reason from runs where id = ?').get(run.id),
    );
    expect(half).toEqual({ samples: 700, end_reason: 'recovered' });
    // Back again while it goes on: what is being recorded stays as it is.
    await a.recorder.appendSupply({
      runId: run.id,
      columns: samples(900, { fromTick: 700 * 500 }),
    });
    const plan = await a.copies.plan({ source: at('fuller-b.sqlite') });
    expect(plan.report).toMatchObject({ runsAdded: 0 });
    const refused = await a.copies.merge({ token: plan.token }).then(
      () => null,
      (e: { trouble: { code: string } }) => e.trouble.code,
    );
    expect(refused).toBe('gate-closed');
    await a.recorder.endRun({
      runId: run.id,
      endedAt: clock + 80_000,
      end: 'output-off',
      report: report({ samples: 1_600 }),
      settings: runStart().settings,
    });
    await a.close();
    const ended = await openAt('fuller-a.sqlite');
    await ended.close();
    await merge('fuller-b.sqlite', 'fuller-a.sqlite');
    const chunks = (file: string) =>
      lookInto(at(file), (sqlite) =>
        sqlite
          .prepare(
            'select seq, samples, hex(columns) as bytes from chunks where track_id in (select id from tracks where run_id = ?) order by seq',
          )
          .all(run.id),
      );
    const whole = chunks('fuller-a.sqlite') as { samples: number }[];
    expect(whole.reduce((sum, one) => sum + one.samples, 0)).toBe(1_600);
    expect(chunks('fuller-b.sqlite')).toEqual(whole);
    await merge('fuller-a.sqlite', 'fuller-b.sqlite');
    expect(chunks('fuller-a.sqlite')).toEqual(whole);
  });
});

describe('the same thing entered twice under two ids', () => {
  it('is told and kept twice: a board model, a donor board', async () => {
    for (const [name, volts] of [
      ['doubles-a.sqlite', 8.6],
      ['doubles-b.sqlite', 8.4],
    ] as const) {
      const ledger = await openAt(name);
      await ledger.close();
      const sqlite = openBare(at(name));
      const id =
        name === 'doubles-a.sqlite'
          ? '01900000-0000-7000-8000-00000000000a'
          : '01900000-0000-7000-8000-00000000000b';
      sqlite
        .prepare(
          "insert into boards (id, name, name_key, created_at, updated_at) values (?, 'Tern 14', 'tern14', 1, 1)",
        )
        .run(id);
      sqlite
        .prepare(
          "insert into rails (id, board_id, position, name, nominal_v, tolerance, through, fed_by_json, enabled_by_json, states_json, core) values (?, ?, 0, 'MAIN', ?, 0.05, 'converter', '[]', '[]', '[]', 0)",
        )
        .run(id.replace('8000', '9000'), id, volts);
      sqlite
        .prepare(
          "insert into donor_boards (id, board_model, board_key, shelf, note, added_at) values (?, 'Tern 14', 'tern14', 'B2', '', 5)",
        )
        .run(id);
      sqlite.close();
    }
    const merged = await merge('doubles-a.sqlite', 'doubles-b.sqlite');
    expect(merged.told.join(' ')).toMatch(/The board Tern 14 is entered in both under two ids/);
    expect(merged.told.join(' ')).toMatch(/donor board Tern 14 on shelf "B2"/);
    const boards = () =>
      lookInto(at('doubles-a.sqlite'), (sqlite) =>
        sqlite
          .prepare(
            'select b.name, r.nominal_v from boards b join rails r on r.board_id = b.id order by 1',
          )
          .all(),
      );
    expect(boards()).toEqual([
      { name: 'Tern 14', nominal_v: 8.6 },
      { name: 'Tern 14 (other ledger)', nominal_v: 8.4 },
    ]);
    const again = await merge('doubles-a.sqlite', 'doubles-b.sqlite');
    expect(again).toMatchObject({ tables: [] });
    expect(boards()).toHaveLength(2);
  });

  it('keeps a checklist that both edited for the jobs that began with it, and new jobs take ours', async () => {
    for (const name of ['lists-a.sqlite', 'lists-b.sqlite', 'lists-c.sqlite']) {
      await (await openAt(name)).close();
      const mark = name[6] ?? '';
      const sqlite = openBare(at(name));
      const id = `01900000-0000-7000-8000-0000000000${mark === 'a' ? 'a' : mark === 'b' ? 'b' : 'c'}0`;
      // The third bench made the very same version as the first.
      const title = mark === 'b' ? 'Got wet, our way' : 'Got wet';
      sqlite
        .prepare(
          "insert into checklist_templates (id, key, version, title, steps_json, origin, lost_json, made_by, made_at) values (?, 'liquid', 2, ?, '[]', '', '[]', '', 1)",
        )
        .run(id, title);
      sqlite.close();
    }
    const told = (await merge('lists-a.sqlite', 'lists-b.sqlite')).told.join(' ');
    expect(told).toMatch(/checklist Got wet, our way was changed in both/);
    expect((await merge('lists-a.sqlite', 'lists-c.sqlite')).told).toEqual([]);
    expect(await merge('lists-a.sqlite', 'lists-b.sqlite')).toMatchObject({ tables: [] });
    const versions = lookInto(at('lists-a.sqlite'), (sqlite) =>
      sqlite.prepare('select version, title from checklist_templates order by version').all(),
    );
    expect(versions).toEqual([
      { version: -1, title: 'Got wet, our way' },
      { version: 2, title: 'Got wet' },
    ]);
  });
});
