import { useCallback, useEffect, useState } from 'react';
import type { BackupLine, CopyState } from '../../core/contract/copy-calls.ts';
import { backupAgeWords, isOverdue } from '../../core/copies/backup-plan.ts';
import type { Trouble } from '../../core/errors.ts';
import { Pick } from '../parts/pick.tsx';
import { dayWords, timeWords } from '../parts/time-words.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions } from '../state/use-desk.ts';
import { bytesWords } from '../trace-files/bytes-words.ts';

interface Props {
  readonly state: CopyState;
  readonly read: () => Promise<void>;
}

const KEEPS = [3, 7, 14, 30, 90];
const EVERY = [1, 2, 7, 30];

/** Backups: where to, how old the last one is, what is there, and the way back. */
export function BackupPart({ state, read }: Props) {
  const { ask, tryAsk } = useActions();
  const { plan, last, failed, busy } = state;
  const [lines, setLines] = useState<readonly BackupLine[] | null>(null);
  const [words, setWords] = useState('');
  const [missing, setMissing] = useState<Trouble | null>(null);
  const list = useCallback(async () => {
    if (plan.folder === null) return;
    // Told here and not as the window's trouble: nobody asked for the list.
    const answer = await tryAsk('listBackups', {});
    setLines(answer.ok ? answer.value : []);
    setMissing(answer.ok ? null : answer.trouble);
  }, [tryAsk, plan.folder]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new backup is a new line
  useEffect(() => void list(), [list, last?.name]);

  const choose = async (): Promise<void> => {
    if ((await ask('chooseBackupFolder', {})) !== null) await read();
  };
  const backUp = async (): Promise<void> => {
    setWords('');
    const made = await ask('backUpNow', {});
    if (made !== null) {
      setWords(
        `Backed up and read back: ${bytesWords(made.bytes)}, ${made.jobs.toLocaleString('en')} jobs, ${made.pictures.toLocaleString('en')} pictures.`,
      );
    }
    await read();
  };
  const change = (keep: number, everyDays: number | null) =>
    void ask('changeBackupPlan', { keep, everyDays }).then(read);
  const restore = async (name: string, as: 'file' | 'ledger'): Promise<void> => {
    const done = await ask('restoreBackup', { name, as });
    if (done === null) return;
    setWords(
      done.startsAgain
        ? 'Restored. The app starts again with it; the ledger of today stays beside it.'
        : `Restored to ${done.path}: ${done.jobs.toLocaleString('en')} jobs, ${done.pictures.toLocaleString('en')} pictures.`,
    );
  };
  const now = Date.now();
  return (
    <section className="copies-part" aria-label="Backups">
      <h2>Backups</h2>
      <p data-overdue={isOverdue(last?.madeAt ?? null, now)} className="backup-age">
        {backupAgeWords(last?.madeAt ?? null, now)}
        {last !== null && `, ${bytesWords(last.bytes)}`}
        {(last?.picturesLost ?? 0) > 0 &&
          `; ${last?.picturesLost} pictures were missing or damaged where they should lie`}
        .
      </p>
      {failed !== null && (
        <p className="form-wrong">
          The newest try, {dayWords(failed.at)} {timeWords(failed.at)}, failed:{' '}
          {failed.trouble.what}. {failed.trouble.todo}
        </p>
      )}
      <p className="quiet">
        {plan.folder === null
          ? 'Choose a folder, best on another disk than the ledger. Recording goes on while it is copied.'
          : `To ${plan.folder}. The ledger and its pictures are copied while recording goes on, and read back.`}
      </p>
      <div className="copies-keys">
        <button
          type="button"
          className={plan.folder === null ? 'plain strong' : 'plain'}
          onClick={() => void choose()}
        >
          {plan.folder === null ? 'Choose the folder' : 'Another folder'}
        </button>
        {plan.folder !== null && (
          <>
            <button
              type="button"
              className="plain strong"
              disabled={busy !== null}
              onClick={() => void backUp()}
            >
              Back up now
            </button>
            <Pick
              label="By itself"
              value={String(plan.everyDays ?? '')}
              onPick={(days) => change(plan.keep, days === '' ? null : Number(days))}
            >
              <option value="">never</option>
              {EVERY.map((days) => (
                <option key={days} value={days}>
                  {days === 1 ? 'every day' : `every ${days} days`}
                </option>
              ))}
            </Pick>
            <Pick
              label="Keep"
              value={String(plan.keep)}
              onPick={(keep) => change(Number(keep), plan.everyDays)}
            >
              {[...new Set([...KEEPS, plan.keep])]
                .sort((a, b) => a - b)
                .map((keep) => (
                  <option key={keep} value={keep}>
                    the last {keep}
                  </option>
                ))}
            </Pick>
          </>
        )}
      </div>
      <p role="status">{words}</p>
      {missing !== null && (
        <p className="form-wrong">
          {missing.what}. {missing.todo}
        </p>
      )}
      {lines !== null && lines.length === 0 && missing === null && (
        <p className="quiet">No backup lies in this folder yet.</p>
      )}
      <ol className="backup-lines" aria-label="Backups that can be restored">
        {lines?.map((line) => (
          <li key={line.name} className="backup-line">
            <span>
              {dayWords(line.madeAt)} {timeWords(line.madeAt)}
            </span>
            <span className="quiet">
              {line.jobs.toLocaleString('en')} {line.jobs === 1 ? 'job' : 'jobs'},{' '}
              {bytesWords(line.bytes)}
              {line.isOther && ', of another ledger'}
            </span>
            <button
              type="button"
              className="plain"
              disabled={busy !== null}
              onClick={() => void restore(line.name, 'file')}
            >
              Restore to a file
            </button>
            <TwoPress
              words="Make it the ledger"
              sure="Press again: the app starts again with it, today's ledger is kept beside"
              onSure={() => void restore(line.name, 'ledger')}
            />
          </li>
        ))}
      </ol>
    </section>
  );
}
