import { BackupPart } from './backup-part.tsx';
import { CopyProgress } from './copy-progress.tsx';
import { ExportPart } from './export-part.tsx';
import { MergePart } from './merge-part.tsx';
import { useCopies } from './use-copies.ts';

/** Backups, export and taking in another ledger: what is done with the ledger as a whole. */
export function CopiesPane() {
  const { state, progress, read } = useCopies();
  return (
    <section className="copies-pane" aria-label="Backups and copies" aria-busy={state === null}>
      <h1>Backups and copies</h1>
      {progress !== null && <CopyProgress progress={progress} />}
      {state === null ? (
        <p className="quiet">Looking where the backups stand…</p>
      ) : (
        <>
          <BackupPart state={state} read={read} />
          <ExportPart busy={state.busy} />
          <MergePart busy={state.busy} />
        </>
      )}
    </section>
  );
}
