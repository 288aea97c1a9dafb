import type { LikeRun } from '../../core/contract/match-calls.ts';
import { runName } from '../compare/run-name.ts';
import { VERDICT_WORDS } from '../job-book/job-words.ts';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly like: LikeRun;
  readonly isPicked: boolean;
  readonly onPick: () => void;
}

/** An earlier run: how alike, whether it was fed alike, and how its job ended. */
export function LikeLine({ like, isPicked, onPick }: Props) {
  const { replay } = useActions();
  const { outcome, unlikeFeed } = like;
  const name = runName(like);
  return (
    <li className="like-line">
      <label className="like-pick">
        <input type="checkbox" checked={isPicked} onChange={onPick} />
        <span>
          <strong>{like.likeness}</strong> {name}
        </span>
      </label>
      <p>
        {outcome === null
          ? 'Its job is not closed.'
          : `${VERDICT_WORDS[outcome.verdict]}${outcome.cause === '' ? '' : `: ${outcome.cause}`}`}
      </p>
      <p className={unlikeFeed === null ? 'quiet' : 'unlike'}>
        {unlikeFeed === null ? 'Fed alike.' : `Not fed alike: ${unlikeFeed}.`}
      </p>
      <button
        type="button"
        className="plain"
        aria-label={`Replay ${name}`}
        onClick={() => replay(like.run.id)}
      >
        Replay
      </button>
    </li>
  );
}
