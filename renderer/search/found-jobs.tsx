import type { SearchAnswer } from '../../core/contract/search-calls.ts';
import type { SearchWhy } from '../../core/search/search-piece.ts';
import { JobLineButton } from '../job-book/job-lines.tsx';

interface Props {
  readonly answer: SearchAnswer;
  readonly openId: string | null;
  readonly onOpen: (jobId: string, why: SearchWhy | null) => void;
}

/** What answers a search, best first, each with where it does. */
export function FoundJobs({ answer, openId, onOpen }: Props) {
  const { found, hasMore, waiting } = answer;
  return (
    <>
      {waiting > 0 && (
        <p role="status" className="quiet">
          {waiting} older jobs are still being read and may be missing here.
        </p>
      )}
      <ol className="job-lines found-jobs">
        {found.map(({ line, whys }) => (
          <li key={line.id}>
            <JobLineButton
              line={line}
              isOpen={line.id === openId}
              onOpen={() => onOpen(line.id, null)}
            />
            {whys.length > 0 && (
              <ul className="found-whys">
                {whys.map((why) => (
                  <li key={`${why.refId} ${why.label} ${why.parts.map((p) => p.text).join('')}`}>
                    <button
                      type="button"
                      className="found-why"
                      onClick={() => onOpen(line.id, why)}
                    >
                      <span className="quiet">{why.label}: </span>
                      {why.parts.map((part, at) =>
                        part.isHit ? (
                          // biome-ignore lint/suspicious/noArrayIndexKey: pieces of one text in order
                          <mark key={at}>{part.text}</mark>
                        ) : (
                          // biome-ignore lint/suspicious/noArrayIndexKey: pieces of one text in order
                          <span key={at}>{part.text}</span>
                        ),
                      )}
                    </button>
                  </li>
                ))}
              </ul>
            )}
          </li>
        ))}
      </ol>
      {hasMore && (
        <p className="quiet">
          The {answer.isWeighed ? 'best' : 'newest'} {found.length} are shown. Add a word, a board
          or a month to see fewer.
        </p>
      )}
    </>
  );
}
