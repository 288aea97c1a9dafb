import { useActions } from '../state/use-desk.ts';

/** Money waits until the shop has said once what it counts in. */
export function NoCurrency() {
  const { showPane } = useActions();
  return (
    <p className="quiet">
      The shop has no currency yet.{' '}
      <button type="button" className="in-text" onClick={() => showPane('figures')}>
        Set it once
      </button>
      , then quotes and lines can be written.
    </p>
  );
}
