import { backupAgeWords, isOverdue } from '../../core/copies/backup-plan.ts';
import { useCopies } from './use-copies.ts';

/** How old the last backup is, in a line; loud once it is too old. */
export function BackupAge() {
  const { state } = useCopies();
  if (state === null) return null;
  const last = state.last?.madeAt ?? null;
  const now = Date.now();
  return (
    <p className="backup-age" data-overdue={isOverdue(last, now)}>
      {backupAgeWords(last, now)}
      {state.failed !== null && ': the newest try failed'}.
    </p>
  );
}
