import { openBare } from './ledger-schema.ts';

/** Puts `megabytes` of invented jobs into a ledger file that nobody has open. */
export function fillLedger(file: string, megabytes: number): void {
  const sqlite = openBare(file);
  const last =
    sqlite.prepare<[], number>('select coalesce(max(number), 0) from jobs').pluck().get() ?? 0;
  const insert = sqlite.prepare(
    `insert into jobs (id, number, board_model, board_key, serial_number, serial_key, customer, symptom, liquid,
     matters, earlier_repairs, accessories, promised, template, state, created_at, updated_at, search_text)
     values (?, ?, 'Heron 3', 'heron3', '', '', 'Quill', ?, 'no', 'device', '', '', '', 'liquid', 'open', 1, 1, 'heron 3')`,
  );
  sqlite.exec('begin');
  for (let i = 1; i <= megabytes * 256; i += 1) {
    const id = `0190${(i + 1e7).toString(16).padStart(4, '0').slice(-4)}-0000-7000-8000-${i.toString(16).padStart(12, '0')}`;
    insert.run(id, last + i, `Dead ${i} `.repeat(380));
  }
  sqlite
    .prepare(
      "insert into settings (key, value_json) values ('last-job-number', ?) on conflict (key) do update set value_json = excluded.value_json",
    )
    .run(String(last + megabytes * 256));
  sqlite.exec('commit');
  sqlite.close();
}
