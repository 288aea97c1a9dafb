import { setImmediate } from 'node:timers/promises';
import type { CurveSignature } from '../../core/match/curve-signature.ts';
import {
  createSignatureIndex,
  type NearRun,
  type SignatureIndex,
} from '../../core/match/signature-index.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import type { Db } from './ledger-context.ts';
import type { RunReader } from './run-reader.ts';
import {
  runsWithoutSignature,
  signatureFromRow,
  signatureOfRun,
  writeSignature,
} from './signature-store.ts';

/** Runs that are given a signature in one transaction. */
const AT_ONCE = 64;
/** Signatures read at once. */
const SLICE = 500;

/** The signatures of the ledger's runs: kept in the file, and in an index once somebody asks. */
export class Signatures {
  readonly #db: Db;
  readonly #reader: RunReader;
  #index: SignatureIndex = createSignatureIndex();
  readonly #indexed = new Set<string>();
  #catchingUp: Promise<void> | null = null;

  constructor(db: Db, reader: RunReader) {
    this.#db = db;
    this.#reader = reader;
  }

  /** How many runs the index holds. */
  get size(): number {
    return this.#index.size;
  }

  /** Runs most like this curve, nearest first. Reads what was added since it was asked last. */
  async nearest(signature: CurveSignature, count: number, except: string): Promise<NearRun[]> {
    this.#catchingUp ??= this.#catchUp().finally(() => {
      this.#catchingUp = null;
    });
    await this.#catchingUp;
    return this.#index.nearest(signature, count, except);
  }

  /** Keeps the signature of a run that has just ended. One that fails is made when somebody asks. */
  async keep(runId: string, report: StageReport): Promise<void> {
    const made = signatureOfRun(this.#db, this.#reader, runId, report);
    await made.then((one) => writeSignature(this.#db, runId, one)).catch(() => {});
  }

  /** Forgets the index: runs were deleted. It is built again when somebody asks. */
  forget(): void {
    this.#index = createSignatureIndex();
    this.#indexed.clear();
  }

  /** Gives the runs that have none a signature, then takes all that are new into the index. */
  async #catchUp(): Promise<void> {
    for (;;) {
      const ids = await runsWithoutSignature(this.#db, AT_ONCE);
      if (ids.length === 0) break;
      const made: (readonly [string, CurveSignature | null])[] = [];
      // A run whose chunks are damaged has no curve to be found by; the rest of the ledger has.
      for (const id of ids) {
        const one = await signatureOfRun(this.#db, this.#reader, id, null).catch(() => null);
        made.push([id, one]);
        // An old ledger has thousands: what is being recorded meanwhile must reach the disk in time.
        await setImmediate();
      }
      await this.#db.transaction().execute(async (trx) => {
        for (const [id, one] of made) await writeSignature(trx, id, one);
      });
    }
    const count = await this.#db
      .selectFrom('signatures')
      .select((eb) => eb.fn.countAll<number>().as('count'))
      .executeTakeFirstOrThrow();
    if (Number(count.count) === this.#indexed.size) return;
    const known = await this.#db.selectFrom('signatures').select('run_id').execute();
    const fresh = known.map((row) => row.run_id).filter((id) => !this.#indexed.has(id));
    for (let i = 0; i < fresh.length; i += SLICE) {
      const ids = fresh.slice(i, i + SLICE);
      const rows = await this.#db
        .selectFrom('signatures')
        .selectAll()
        .where('run_id', 'in', ids)
        .execute();
      for (const row of rows) {
        this.#indexed.add(row.run_id);
        const signature = signatureFromRow(row);
        if (signature !== null) this.#index.add(row.run_id, signature);
      }
      await setImmediate();
    }
  }
}
