import { useEffect, useState } from 'react';
import { saySpread } from '../../core/figures/say-spread.ts';
import { HELD_FOR_DAYS, type ShopFigures } from '../../core/figures/shop-figures.ts';
import { dayAfter } from '../../core/search/search-days.ts';
import type { ShopSettings } from '../../core/shop/job-terms.ts';
import { formatPercent } from '../../core/units/format.ts';
import { VERDICT_WORDS } from '../job-book/job-words.ts';
import { HeadedTable } from '../parts/headed-table.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { ShopForm } from './shop-form.tsx';
import { localDay } from './shop-words.ts';

const PERIODS = [
  [30, 'Last 30 days'],
  [90, 'Last 90 days'],
  [365, 'Last year'],
] as const;

/** What the shop looks at, over a period that is chosen. */
export function FiguresPage() {
  const version = useDeskState((state) => state.jobsVersion);
  const { tryAsk, ask } = useActions();
  const today = localDay(Date.now());
  const [period, setPeriod] = useState({ first: dayAfter(today, -364), last: today });
  const [figures, setFigures] = useState<ShopFigures | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [shop, setShop] = useState<ShopSettings | null>(null);
  const [reads, setReads] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job changes the figures
  useEffect(() => {
    let isWanted = true;
    if (period.first === '' || period.last === '') return;
    void tryAsk('readFigures', period).then((answer) => {
      if (!isWanted) return;
      setFigures(answer.ok ? answer.value : null);
      setWrong(answer.ok ? null : `${answer.trouble.what}. ${answer.trouble.todo}`);
    });
    return () => {
      isWanted = false;
    };
  }, [period, version, tryAsk]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read again once it was kept
  useEffect(() => {
    void ask('readShop', {}).then((told) => told !== null && setShop(told));
  }, [ask, reads]);
  return (
    <section className="figures" aria-label="Figures">
      <h1>Figures</h1>
      <div className="figures-period">
        {PERIODS.map(([days, words]) => (
          <button
            key={days}
            type="button"
            className="plain"
            aria-pressed={period.last === today && period.first === dayAfter(today, 1 - days)}
            onClick={() => setPeriod({ first: dayAfter(today, 1 - days), last: today })}
          >
            {words}
          </button>
        ))}
        <label className="field">
          From
          <input
            type="date"
            className="field-input"
            value={period.first}
            onChange={(event) => setPeriod({ ...period, first: event.target.value })}
          />
        </label>
        <label className="field">
          To
          <input
            type="date"
            className="field-input"
            value={period.last}
            onChange={(event) => setPeriod({ ...period, last: event.target.value })}
          />
        </label>
      </div>
      {wrong !== null && (
        <p role="alert" className="form-wrong">
          {wrong}
        </p>
      )}
      {figures !== null && <Figures figures={figures} />}
      <section className="shop-settings" aria-label="The shop">
        <h2>The shop</h2>
        {shop !== null && (
          <ShopForm
            key={shop.currency ?? 'none'}
            shop={shop}
            onKept={() => setReads((n) => n + 1)}
          />
        )}
      </section>
    </section>
  );
}

/** Hours as a shop says them: minutes below one, days from two on. */
function hoursWords(hours: number): string {
  if (hours < 1) return `${Math.round(hours * 60)} min`;
  if (hours < 48) return `${hours < 10 ? hours.toFixed(1) : Math.round(hours)} h`;
  return daysWords(hours / 24);
}
const daysWords = (days: number): string =>
  `${days < 10 ? days.toFixed(1) : Math.round(days)} days`;

function Figures({ figures }: { figures: ShopFigures }) {
  const { firstPass, comebacks, diagnosisH } = figures;
  if (figures.closed === 0 && figures.takenIn === 0 && figures.donors.length === 0) {
    return (
      <p className="quiet">
        Nothing was taken in or closed in this period. Choose a longer one, or close a job with its
        outcome.
      </p>
    );
  }
  const verdicts = Object.entries(VERDICT_WORDS)
    .map(([key, words]) => [words, figures.verdicts[key as keyof ShopFigures['verdicts']]] as const)
    .filter(([, count]) => count > 0)
    .map(([words, count]) => `${words.toLowerCase()} ${count}`);
  return (
    <dl className="figure-list">
      <div>
        <dt>Jobs</dt>
        <dd>
          {figures.takenIn} taken in, {figures.closed} closed
          {verdicts.length > 0 && `: ${verdicts.join(', ')}`}.
        </dd>
      </div>
      <div>
        <dt>Time to diagnosis</dt>
        <dd>
          {saySpread(diagnosisH, hoursWords, ['diagnosis', 'diagnoses'])}{' '}
          <span className="quiet">
            From taking in to the first part lifted or fitted
            {figures.diagnosedWithoutPart > 0 &&
              `; ${figures.diagnosedWithoutPart} without a part: to the closing`}
            . Nights and waiting are in it.
          </span>
        </dd>
      </div>
      <div>
        <dt>Repairs that held</dt>
        <dd>
          {firstPass.interval === null
            ? 'None is old enough to tell.'
            : `${firstPass.held} of ${firstPass.count}${
                firstPass.count < 5
                  ? '. Too few to say more.'
                  : `, ${formatPercent(firstPass.held / firstPass.count)}; with so few the true share lies between ${formatPercent(firstPass.interval.low)} and ${formatPercent(firstPass.interval.high)} (95 %).`
              }`}{' '}
          <span className="quiet">
            Closed as waking, not opened again, not back within {HELD_FOR_DAYS} days.
            {firstPass.tooYoung > 0 && ` ${firstPass.tooYoung} younger than that, not counted.`}
            {firstPass.withoutSerial > 0 &&
              ` ${firstPass.withoutSerial} without a serial number, not counted.`}
          </span>
        </dd>
      </div>
      <div>
        <dt>Comebacks</dt>
        <dd>
          {comebacks.count === 0 ? 'None.' : `${comebacks.count} of ${figures.takenIn} taken in. `}
          {comebacks.daysBetween !== null &&
            saySpread(comebacks.daysBetween, daysWords, ['return', 'returns'])}
        </dd>
      </div>
      <div>
        <dt>Causes by board</dt>
        <dd>
          {figures.boards.length === 0 ? (
            'No job closed in this period.'
          ) : (
            <HeadedTable heads={['Board', 'Closed', 'Cause', 'Proved', 'Guessed']}>
              {figures.boards.flatMap((board) => {
                const rows = board.causes.map(({ cause, proved, guessed }) => ({
                  cause,
                  proved: `${proved}`,
                  guessed: `${guessed}`,
                }));
                if (board.unsolved > 0) {
                  rows.push({
                    cause: `${board.unsolved} without a cause`,
                    proved: '–',
                    guessed: '–',
                  });
                }
                const name = board.boardName ?? 'Board unknown';
                return rows.map((row, i) => (
                  <tr key={`${name} ${row.cause}`}>
                    <td>{i === 0 ? name : ''}</td>
                    <td className="number">{i === 0 ? board.jobs : ''}</td>
                    <td>{row.cause}</td>
                    <td className="number">{row.proved}</td>
                    <td className="number">{row.guessed}</td>
                  </tr>
                ));
              })}
            </HeadedTable>
          )}
        </dd>
      </div>
      <div>
        <dt>Donors used</dt>
        <dd>
          {figures.donors.length === 0
            ? 'No part taken from a donor.'
            : figures.donors
                .map(
                  ({ boardModel, parts, boards }) =>
                    `${boardModel}: ${parts} ${parts === 1 ? 'part' : 'parts'} from ${boards} ${boards === 1 ? 'board' : 'boards'}`,
                )
                .join('; ')}
        </dd>
      </div>
    </dl>
  );
}
