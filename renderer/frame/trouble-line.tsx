import { TroubleWords } from '../parts/trouble-words.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** What the last thing asked for ran into: what, where, what to do. */
export function TroubleLine() {
  const trouble = useDeskState((state) => state.trouble);
  const { dismissTrouble } = useActions();
  return (
    <div role="alert" className="trouble-holder">
      {trouble !== null && (
        <div className="trouble-line" data-testid="trouble" data-code={trouble.code}>
          <p>
            <TroubleWords trouble={trouble} />
          </p>
          <button type="button" className="plain" onClick={dismissTrouble}>
            Close message
          </button>
        </div>
      )}
    </div>
  );
}
