import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { openLedgerInThread } from '../../electron/ledger/open-ledger-in-thread.ts';
import { SEARCH_VERSION } from '../../electron/ledger/search-index-store.ts';
import { jobFields, report, runStart, samples } from '../support/ledger-samples.ts';
import { openBare } from '../support/ledger-schema.ts';
import { type Measure, measure, median } from './measure.ts';

const SIZES = [1_000, 10_000, 100_000] as const;
const RUNS_OF_ONE_JOB = 1_000;
const TRIES = 11;

/** Invented words, common ones first: word k of a text is drawn so that few are in most jobs. */
const WORDS = Array.from({ length: 4_000 }, (_, i) => `w${(i * 7919).toString(36)}x`);
const SYMPTOMS = ['dead', 'no picture', 'stops after an hour', 'tea', 'fan spins', 'charges'];

/** How long a search takes against a scan of the same text with LIKE, and what ending a run costs. */
export async function measureSearch(): Promise<readonly Measure[]> {
  const told: Measure[] = [];
  for (const size of SIZES) told.push(...(await searchAmong(size)));
  told.push(await endRunOfBusyJob());
  return told;
}

function fill(sqlite: BetterSqlite.Database, size: number): void {
  const job = sqlite.prepare('select * from jobs').get() as Record<string, unknown>;
  const columns = Object.keys(job);
  const insertJob = sqlite.prepare(
    `insert into jobs (${columns.join(',')}) values (${columns.map((c) => `@${c}`).join(',')})`,
  );
  const insertText = sqlite.prepare(
    `insert into search_index (rowid, facts, customer, notes, parts, outcome, readings, runs, codes)
     values (?, ?, ?, ?, ?, ?, ?, '', ?)`,
  );
  const insertFact = sqlite.prepare(
    'insert into search_facts (job_number, kind, word, verdict, amount, volts, ref_id) values (?, ?, ?, ?, ?, ?, ?)',
  );
  const insertKnown = sqlite.prepare('insert into search_jobs values (?, ?)');
  let seed = 1;
  const random = () => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return seed / 2_147_483_648;
  };
  const words = (count: number) =>
    Array.from({ length: count }, () => WORDS[Math.floor(WORDS.length * random() ** 3)]).join(' ');
  sqlite.transaction(() => {
    for (let number = 2; number <= size; number += 1) {
      const symptom = `${SYMPTOMS[number % SYMPTOMS.length]} ${words(6)}`;
      const [notes, parts, outcome] = [words(25), words(12), words(12)];
      const readings = 'main rail core 3v3 standby 5v standby charger input';
      const serial = `sn${number * 7}`;
      insertJob.run({
        ...job,
        id: `019c0000-0000-7000-8000-${String(number).padStart(12, '0')}`,
        number,
        symptom,
        serial_number: serial,
        serial_key: serial,
        created_at: Number(job.created_at) + number,
        search_text: [symptom, serial, notes, parts, outcome, readings].join('\n'),
      });
      insertText.run(
        number,
        `${symptom} ${serial}`,
        words(2),
        notes,
        parts,
        outcome,
        readings,
        serial,
      );
      insertKnown.run(number, SEARCH_VERSION);
      for (let run = 0; run < 3; run += 1) {
        const stage = ['stalled', 'running', 'cycling', 'stepping'][Math.floor(random() * 4)];
        insertFact.run(number, 'stage', stage, '', random() * 2, 19, `run ${number} ${run}`);
      }
      const verdict = random() < 0.2 ? 'low' : 'present';
      insertFact.run(number, 'rail', ' main rail', verdict, null, null, `reading ${number}`);
    }
  })();
}

async function timed(call: () => unknown): Promise<{ middle: number; late: number }> {
  const took: number[] = [];
  for (let i = 0; i < TRIES; i += 1) {
    const began = performance.now();
    await call();
    took.push(performance.now() - began);
  }
  took.sort((a, b) => a - b);
  return { middle: took[took.length >>> 1]!, late: took[Math.ceil(took.length * 0.95) - 1]! };
}

async function searchAmong(size: number): Promise<readonly Measure[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-search-'));
  const file = path.join(folder, 'ledger.sqlite');
  try {
    const first = await openLedgerInThread({ path: file });
    await first.handlers.createJob(jobFields());
    await first.close();
    const sqlite = openBare(file);
    fill(sqlite, size);
    const scan = sqlite.prepare(
      `select number from jobs where binned_at is null and search_text like ? and search_text like ?
       order by created_at desc limit 50`,
    );
    const asked = [
      ['a stage with amps and a rail', 'stalled 0.2..0.3 A main rail low', ['stalled', 'low']],
      ['two common words', `${WORDS[0]} main`, [WORDS[0]!, 'main']],
      ['two rare words', `${WORDS[3_000]} ${WORDS[2_500]}`, [WORDS[3_000]!, WORDS[2_500]!]],
    ] as const;
    const scans: number[] = [];
    for (const [, , [one, two]] of asked) {
      scans.push((await timed(() => scan.all(`%${one}%`, `%${two}%`))).middle);
    }
    sqlite.close();
    const ledger = await openLedgerInThread({ path: file });
    const told: Measure[] = [];
    for (const [i, [what, search]] of asked.entries()) {
      const { middle, late } = await timed(() => ledger.handlers.searchJobs({ search, limit: 50 }));
      told.push(
        measure(
          `search of ${size} jobs, ${what}, 50 shown with reasons (95th of 100: ${late.toFixed(1)} ms)`,
          middle,
          'ms',
          'under 100 ms',
          { name: 'scan with LIKE, numbers only', value: scans[i]! },
        ),
      );
    }
    await ledger.close();
    return told;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Ending a run of a job with thousands: against reading all of its runs, which it once did twice. */
async function endRunOfBusyJob(): Promise<Measure> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-busy-'));
  const ledger = await openLedgerInThread({ path: path.join(folder, 'ledger.sqlite') });
  const { handlers, recorder } = ledger;
  const { settings } = runStart();
  const record = async (jobId: string) => {
    const run = await recorder.startRun(runStart({ jobId }));
    await recorder.appendSupply({ runId: run.id, columns: samples(20) });
    const began = performance.now();
    const end = { runId: run.id, endedAt: Date.now(), end: 'output-off' } as const;
    await recorder.endRun({ ...end, report: report(), settings });
    return performance.now() - began;
  };
  try {
    const job = await handlers.createJob(jobFields());
    for (let i = 0; i < RUNS_OF_ONE_JOB; i += 1) await record(job.id);
    const took: number[] = [];
    for (let i = 0; i < TRIES; i += 1) took.push(await record(job.id));
    const all = await timed(() => handlers.readJob({ id: job.id }));
    return measure(
      `ending a run of a job with ${RUNS_OF_ONE_JOB} runs`,
      median(took),
      'ms',
      'as for the first run',
      { name: 'reading the whole job once', value: all.middle },
    );
  } finally {
    await ledger.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
