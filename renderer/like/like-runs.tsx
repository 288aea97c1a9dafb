import { useEffect, useState } from 'react';
import type { LikeRuns as Found } from '../../core/contract/match-calls.ts';
import { MOST_COMPARED } from '../../core/match/compare-runs.ts';
import { useActions } from '../state/use-desk.ts';
import { LikeLine } from './like-line.tsx';

const SHOWN = 5;

/** Where have I seen this? The earlier runs that drew most like this one, and how they ended. */
export function LikeRuns({ runId }: { runId: string }) {
  const { ask, compare } = useActions();
  const [found, setFound] = useState<Found | null>(null);
  const [picked, setPicked] = useState<readonly string[]>([]);
  useEffect(() => {
    setFound(null);
    setPicked([]);
    let isWanted = true;
    void ask('likeRuns', { runId, limit: SHOWN }).then((answer) => {
      if (isWanted) setFound(answer);
    });
    return () => {
      isWanted = false;
    };
  }, [runId, ask]);
  const toggle = (id: string) =>
    setPicked(picked.includes(id) ? picked.filter((one) => one !== id) : [...picked, id]);
  return (
    <section className="like-runs" aria-label="Where have I seen this?" aria-busy={found === null}>
      <div className="part-head">
        <h3>Where have I seen this?</h3>
        <button
          type="button"
          className="plain"
          onClick={() => compare([runId, ...picked].slice(0, MOST_COMPARED))}
        >
          {picked.length === 0 ? 'Compare' : `Compare with ${picked.length}`}
        </button>
      </div>
      {found === null && <p className="quiet">Looking through the ledger…</p>}
      {found?.why != null && <p className="quiet">{found.why}</p>}
      {found !== null && found.runs.length > 0 && (
        <>
          <p className="quiet">Among {found.among} runs, whatever their job; nearest first.</p>
          <ol>
            {found.runs.map((like) => (
              <LikeLine
                key={like.run.id}
                like={like}
                isPicked={picked.includes(like.run.id)}
                onPick={() => toggle(like.run.id)}
              />
            ))}
          </ol>
        </>
      )}
    </section>
  );
}
