import { Fragment, useState } from 'react';
import type { JobWalk } from '../../core/rails/job-walk.ts';
import { formatReading } from '../../core/units/format-reading.ts';
import { JudgedLine } from './judged-line.tsx';
import { aimOf, type ProbeAim } from './probe-aim.ts';
import type { Probe } from './use-probe.ts';
import { VerdictSign } from './verdict-sign.tsx';

interface Props {
  readonly rails: JobWalk['rails'];
  readonly again: JobWalk['again'];
  readonly goodIds: readonly string[];
  readonly open: string | null;
  readonly probe: Probe;
  readonly onOpen: (rail: string | null) => void;
  readonly onAim: (aim: ProbeAim) => void;
}

/** More rails than this are listed once they were read, or all when asked. */
const MOST_SHOWN = 40;

/** Every rail with its verdict; the working opens under it. */
export function RailLines({ rails, again, goodIds, open, probe, onOpen, onAim }: Props) {
  const [isAll, setAll] = useState(false);
  const isLong = rails.length > MOST_SHOWN;
  const isWanted = ({ rail, now, before }: JobWalk['rails'][number]) =>
    now.length + before.length > 0 || rail.name === open;
  const shown = isLong && !isAll ? rails.filter(isWanted) : rails;
  const isChanged = rails.some(({ verdictBefore }) => verdictBefore !== null);
  return (
    <>
      <table className="rail-lines">
        <thead>
          <tr>
            <th scope="col">Rail</th>
            {isChanged && <th scope="col">Before the part</th>}
            <th scope="col">{isChanged ? 'Since' : 'Verdict'}</th>
            <th scope="col">Newest reading</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((line) => {
            const { rail, now, before } = line;
            const isOpen = open === rail.name;
            const newest = now[0]?.reading;
            const asked = again.filter(({ reading }) => reading.rail === rail.name);
            return (
              <Fragment key={rail.name}>
                <tr>
                  <th scope="row">
                    <button
                      type="button"
                      className="rail-open"
                      aria-expanded={isOpen}
                      onClick={() => onOpen(isOpen ? null : rail.name)}
                    >
                      {rail.name}
                    </button>
                  </th>
                  {line.verdictBefore !== null && (
                    <td>
                      <VerdictSign verdict={line.verdictBefore} isOdd={line.isOddBefore} />
                    </td>
                  )}
                  <td>
                    <VerdictSign verdict={line.verdict} isOdd={line.isOdd} />
                  </td>
                  <td className="number">
                    {newest === undefined ? (
                      <span className="quiet">–</span>
                    ) : (
                      formatReading({ ...newest, decimals: null })
                    )}{' '}
                    {asked.length > 0 && <span className="again-word">again</span>}
                  </td>
                </tr>
                {isOpen && (
                  <tr className="rail-working">
                    <td colSpan={isChanged ? 4 : 3}>
                      {now.length + before.length === 0 && (
                        <p className="quiet">Nothing was read here.</p>
                      )}
                      {asked.map(({ key, reading }) => (
                        <p key={key}>
                          Read {formatReading({ ...reading, decimals: null })} before a part was
                          changed:{' '}
                          <button
                            type="button"
                            className="in-text"
                            onClick={() => onAim(aimOf(reading))}
                          >
                            measure it again
                          </button>
                          .
                        </p>
                      ))}
                      {now.map((judged) => (
                        <JudgedLine
                          key={judged.reading.id}
                          judged={judged}
                          isGood={goodIds.includes(judged.reading.id)}
                          onGood={(good) => void probe.markGood(judged.reading.id, good)}
                        />
                      ))}
                      {before.length > 0 && <h3>Before a part was changed</h3>}
                      {before.map((judged) => (
                        <JudgedLine
                          key={judged.reading.id}
                          judged={judged}
                          isGood={goodIds.includes(judged.reading.id)}
                          onGood={(good) => void probe.markGood(judged.reading.id, good)}
                        />
                      ))}
                    </td>
                  </tr>
                )}
              </Fragment>
            );
          })}
        </tbody>
      </table>
      {isLong && (
        <button type="button" className="plain rails-all" onClick={() => setAll(!isAll)}>
          {isAll ? 'Only the rails that were read' : `All ${rails.length} rails`}
        </button>
      )}
    </>
  );
}
