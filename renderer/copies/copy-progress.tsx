import type { CopyWork, CopyProgress as Progress } from '../../core/contract/copy-calls.ts';
import { useActions } from '../state/use-desk.ts';

const WORK_WORDS: Readonly<Record<CopyWork, string>> = {
  backup: 'Backing up',
  export: 'Exporting',
  import: 'Reading the other ledger',
  merge: 'Taking it in',
  restore: 'Restoring',
};

/** What is under way with the whole ledger, how far it is, and a way to call it off. */
export function CopyProgress({ progress }: { readonly progress: Progress }) {
  const { ask } = useActions();
  const { work, words, done, total } = progress;
  const share = total > 0 ? Math.min(1, done / total) : null;
  return (
    <div className="copy-progress">
      <p role="status">
        {WORK_WORDS[work]}: {words.replaceAll('_', ' ')}
        {share === null ? '…' : `, ${Math.floor(share * 100)} %`}
      </p>
      {share === null ? (
        <progress aria-label={WORK_WORDS[work]} />
      ) : (
        <progress aria-label={WORK_WORDS[work]} max={1} value={share} />
      )}
      <button type="button" className="plain" onClick={() => void ask('cancelCopy', {})}>
        Call it off
      </button>
    </div>
  );
}
