/** When and where backups are made. */
export interface BackupPlan {
  /** Null = nobody has chosen a folder. */
  readonly folder: string | null;
  /** How many of the newest are kept. */
  readonly keep: number;
  /** Days between backups that the app makes by itself; null = only when asked. */
  readonly everyDays: number | null;
}

export const FIRST_PLAN: BackupPlan = { folder: null, keep: 7, everyDays: 1 };
export const DAY_MS = 86_400_000;
/** After so many days without one, the window says so loudly. */
export const OVERDUE_DAYS = 7;

/** A backup's folder name by the minute it was made, UTC: `wakeline-backup-20260105-093000`. */
export function backupName(atMs: number): string {
  const iso = new Date(atMs).toISOString();
  return `wakeline-backup-${iso.slice(0, 10).replaceAll('-', '')}-${iso.slice(11, 19).replaceAll(':', '')}`;
}

/** Whether a folder's name is a backup's. */
export function isBackupName(name: string): boolean {
  return /^wakeline-backup-\d{8}-\d{6}$/.test(name);
}

/** Names of the backups that go when only the newest `keep` stay: names sort by their time. */
export function backupsToDrop(names: readonly string[], keep: number): readonly string[] {
  return [...names].sort().slice(0, Math.max(0, names.length - Math.max(1, keep)));
}

/** Whether the app should make one by itself now. Times in UTC ms. */
export function isBackupDue(plan: BackupPlan, lastAt: number | null, now: number): boolean {
  if (plan.folder === null || plan.everyDays === null) return false;
  return lastAt === null || now - lastAt >= plan.everyDays * DAY_MS;
}

/** How old the newest backup is, in words for the window. Times in UTC ms. */
export function backupAgeWords(lastAt: number | null, now: number): string {
  if (lastAt === null) return 'No backup yet';
  const days = Math.floor((now - lastAt) / DAY_MS);
  if (days < 0) return 'Last backup is dated in the future: check the clock';
  if (days === 0) return 'Last backup today';
  return days === 1 ? 'Last backup 1 day ago' : `Last backup ${days} days ago`;
}

/** Whether that is too long ago, or never. */
export function isOverdue(lastAt: number | null, now: number): boolean {
  return lastAt === null || now - lastAt >= OVERDUE_DAYS * DAY_MS;
}
