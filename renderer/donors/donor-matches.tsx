import type { DonorMatch, DonorSearch } from '../../core/donors/donor-board.ts';
import { EquivalenceLines } from './equivalence-lines.tsx';

interface Props {
  readonly found: DonorSearch;
  /** Null = no job on the bench: a part is only marked as gone. */
  readonly jobNumber: number | null;
  readonly onTake: (match: DonorMatch) => void;
}

/** What the shelves hold for a part that is wanted, each judged rule by rule. */
export function DonorMatches({ found, jobNumber, onTake }: Props) {
  return (
    <div className="donor-found" role="status">
      <p className="quiet">
        {found.why ?? `${found.matches.length} may do`}
        {found.notEqual > 0 && `; ${found.notEqual} of ${found.lookedThrough} would not`}
      </p>
      <ol>
        {found.matches.map((match) => (
          <li key={`${match.donorId}-${match.part.designator}`} className="donor-match">
            <span>
              <strong>{match.part.designator}</strong> {match.part.text} of {match.boardModel}
              {match.shelf !== '' && `, shelf ${match.shelf}`}
            </span>
            <button type="button" className="plain" onClick={() => onTake(match)}>
              {jobNumber === null ? 'Take it off' : `Take it into job ${jobNumber}`}
            </button>
            <EquivalenceLines equivalence={match.equivalence} />
          </li>
        ))}
      </ol>
      {found.combinations.map((one) => (
        <p key={one.parts.join('-') + one.how} className="quiet">
          {one.arithmetic} ({one.parts.map((index) => found.stock[index]).join(' with ')}).{' '}
          {one.cautions.join(' ')}
        </p>
      ))}
    </div>
  );
}
