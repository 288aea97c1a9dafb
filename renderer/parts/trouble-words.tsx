import type { Trouble } from '../../core/errors.ts';

/** What went wrong, where, and what to do about it, as one paragraph's words. */
export function TroubleWords({ trouble }: { trouble: Trouble }) {
  return (
    <>
      <strong>{trouble.what}</strong> <span className="quiet">({trouble.where})</span>.{' '}
      {trouble.todo}
    </>
  );
}
