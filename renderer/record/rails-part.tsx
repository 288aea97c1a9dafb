import type { RailFound, RailSection } from '../../core/record/record-content.ts';

/** Rails at the same points before parts were changed and since, with verdicts and their working. */
export function RailsPart({ rails }: { readonly rails: RailSection }) {
  const { isChanged, rows, workings, notes } = rails;
  return (
    <section>
      <h2>Rails</h2>
      <p className="rail-notes" dir="auto">
        {notes.join(' ')}
      </p>
      <table>
        <colgroup>
          <col className="col-rail" />
          <col className="col-rail-what" />
          <col />
          {isChanged && <col />}
        </colgroup>
        <thead>
          <tr>
            <th scope="col">Rail</th>
            <th scope="col">Measured</th>
            {isChanged && <th scope="col">Before parts were changed</th>}
            <th scope="col">{isChanged ? 'Since' : 'Found'}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
            <tr key={i}>
              <th scope="row" dir="auto">
                {row.rail}
              </th>
              <td dir="auto">{row.measured}</td>
              {isChanged && <Found found={row.before} isOdd={row.isOddBefore} />}
              <Found found={row.since} isOdd={row.isOddSince} />
            </tr>
          ))}
        </tbody>
      </table>
      {workings.length > 0 && (
        <ul className="rail-workings">
          {workings.map((text, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
            <li key={i} dir="auto">
              {text}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function Found({ found, isOdd }: { readonly found: RailFound; readonly isOdd: boolean }) {
  return (
    <td>
      <span className="found">{found.value}</span>{' '}
      <span className={isOdd ? 'off-mark' : undefined}>{found.verdict}</span>{' '}
      <span className="when-under">{found.at}</span>
    </td>
  );
}
