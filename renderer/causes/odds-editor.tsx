import { useState } from 'react';
import type { ShopCauseTable } from '../../core/contract/evidence-calls.ts';
import type { Trouble } from '../../core/errors.ts';
import { ANY_OTHER_CAUSE } from '../../core/finding/finding.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly table: ShopCauseTable;
  readonly onTable: (table: ShopCauseTable) => void;
}

/** How often a question comes out one way under each cause: per cent, a row a cause. */
export function OddsEditor({ table, onTable }: Props) {
  const [asked, setAsked] = useState(table.questions[0]?.key ?? '');
  const question = table.questions.find(({ key }) => key === asked);
  if (question === undefined) return null;
  const named = [
    ...table.causes.filter(({ key, isRetired }) => !isRetired || key in question.odds),
    { key: ANY_OTHER_CAUSE, text: 'any other cause' },
  ];
  return (
    <section className="odds-editor" aria-label="Odds">
      <h2>Odds</h2>
      <Pick label="Of" value={asked} onPick={setAsked}>
        {table.questions.map(({ key, text }) => (
          <option key={key} value={key}>
            {text}
          </option>
        ))}
      </Pick>
      <p className="quiet">
        Per cent of boards with the cause; what a row leaves over is shared by its empty cells. An
        empty row goes by the cause it belongs under. Starter rows are common practice, no source.
      </p>
      <div className="odds-scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">Cause</th>
              {question.outcomes.map((outcome) => (
                <th key={outcome} scope="col">
                  {outcome.replaceAll('-', ' ')}
                </th>
              ))}
              <th scope="col">From</th>
            </tr>
          </thead>
          <tbody>
            {named.map(({ key, text }) => {
              const isOwn = table.ownRows.some(
                (row) => row.question === question.key && row.cause === key,
              );
              return (
                <OddsRow
                  key={`${question.key} ${key} ${isOwn}`}
                  question={question.key}
                  cause={key}
                  text={text}
                  outcomes={question.outcomes}
                  odds={question.odds[key] ?? null}
                  isOwn={isOwn}
                  onTable={onTable}
                />
              );
            })}
          </tbody>
        </table>
      </div>
    </section>
  );
}

interface RowProps {
  readonly question: string;
  readonly cause: string;
  readonly text: string;
  readonly outcomes: readonly string[];
  readonly odds: Readonly<Record<string, number>> | null;
  readonly isOwn: boolean;
  readonly onTable: (table: ShopCauseTable) => void;
}

const shown = (share: number | undefined): string =>
  share === undefined ? '' : String(Number((share * 100).toFixed(2)));

function OddsRow({ question, cause, text, outcomes, odds, isOwn, onTable }: RowProps) {
  const { tryAsk } = useActions();
  const given = outcomes.map((outcome) => shown(odds?.[outcome]));
  const [cells, setCells] = useState<readonly string[]>(given);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const isChanged = cells.some((cell, at) => cell !== given[at]);
  const save = async (next: Readonly<Record<string, number>> | null): Promise<void> => {
    const answer = await tryAsk('saveOdds', { question, cause, odds: next });
    if (!answer.ok) return setTrouble(answer.trouble);
    setTrouble(null);
    onTable(answer.value);
  };
  const typed = (): Record<string, number> =>
    Object.fromEntries(
      outcomes.flatMap((outcome, at) => {
        const cell = (cells[at] ?? '').trim().replace(',', '.');
        return cell === '' ? [] : [[outcome, Number(cell) / 100]];
      }),
    );
  return (
    <>
      <tr data-own={isOwn}>
        <th scope="row">{text}</th>
        {outcomes.map((outcome, at) => (
          <td key={outcome}>
            <input
              className="odds-cell"
              inputMode="decimal"
              aria-label={`${text}, ${outcome.replaceAll('-', ' ')}, per cent`}
              value={cells[at] ?? ''}
              onChange={(event) =>
                setCells(cells.map((cell, i) => (i === at ? event.target.value : cell)))
              }
              onKeyDown={(event) => {
                if (event.key === 'Enter') void save(typed());
                if (event.key === 'Escape') setCells(given);
              }}
            />
          </td>
        ))}
        <td className="odds-from">
          {isChanged ? (
            <button type="button" className="plain strong" onClick={() => void save(typed())}>
              Keep
            </button>
          ) : isOwn ? (
            <button
              type="button"
              className="plain"
              aria-label={`Back to the starter row of ${text}`}
              onClick={() => void save(null)}
            >
              This shop: back
            </button>
          ) : odds === null ? (
            <span className="quiet">the wider cause</span>
          ) : (
            <span className="quiet">starter</span>
          )}
        </td>
      </tr>
      {trouble !== null && (
        <tr>
          <td colSpan={outcomes.length + 2}>
            <p role="alert" className="form-wrong">
              {trouble.what}. {trouble.todo}
            </p>
          </td>
        </tr>
      )}
    </>
  );
}
