import type { CopyState } from '../../core/contract/copy-calls.ts';
import { type Trouble, troubleOf } from '../../core/errors.ts';
import type { Ledger } from '../ledger/ledger-client.ts';

/** First look after the start, when the bench has come up; then every so often. */
const FIRST_MS = 60_000;
const EVERY_MS = 15 * 60_000;

/**
 * Backs the ledger up by itself when the plan says that it is time. A failure is an alarm once, until
 * it fails in another way or a backup succeeds: a pulled drive is not told every quarter of an hour.
 */
export function startBackupClock(o: {
  readonly ledger: Pick<Ledger, 'copies'>;
  readonly told: (state: CopyState) => void;
  readonly alarm: (trouble: Trouble) => void;
  readonly firstMs?: number;
  readonly everyMs?: number;
}): { stop(): void } {
  let timer: ReturnType<typeof setTimeout> | null = null;
  let toldCode: string | null = null;
  let isStopped = false;
  const look = async (): Promise<void> => {
    try {
      if ((await o.ledger.copies.backUpWhenDue(null)) !== null) {
        toldCode = null;
        o.told(await o.ledger.copies.state(null));
      }
    } catch (thrown) {
      const trouble = troubleOf(thrown, 'backup');
      if (isStopped || trouble.code === 'cancelled') return;
      if (trouble.code !== toldCode) o.alarm(trouble);
      toldCode = trouble.code;
      o.told(await o.ledger.copies.state(null));
    }
  };
  const wait = (ms: number): void => {
    timer = setTimeout(() => {
      void look()
        .catch(() => {})
        .finally(() => {
          if (!isStopped) wait(o.everyMs ?? EVERY_MS);
        });
    }, ms);
  };
  wait(o.firstMs ?? FIRST_MS);
  return {
    stop() {
      isStopped = true;
      if (timer !== null) clearTimeout(timer);
    },
  };
}
