import type { PartRow, ReadingRow } from '../../core/record/record-content.ts';

/** Readings with what was expected and found; readings of one place stand together. */
export function ReadingsTable({ rows }: { readonly rows: readonly ReadingRow[] }) {
  if (rows.length === 0) return <p>No readings were taken.</p>;
  return (
    <table>
      <colgroup>
        <col className="col-place" />
        <col className="col-measured" />
        <col className="col-expected" />
        <col className="col-found" />
        <col />
        <col className="col-when" />
        <col className="col-source" />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Place</th>
          <th scope="col">Measured</th>
          <th scope="col" className="number">
            Expected
          </th>
          <th scope="col" className="number">
            Found
          </th>
          <th scope="col">Verdict</th>
          <th scope="col">When</th>
          <th scope="col">From</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => {
          const again = sameAsBefore(rows, i);
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
            <tr key={i} className={again ? 'again' : undefined}>
              <th scope="row" dir="auto">
                {row.place === '' ? '–' : row.place}
              </th>
              <td>{row.measured}</td>
              <td className="number">{row.expected}</td>
              <td className="number found">{row.found}</td>
              <td
                className={row.verdict === 'low' || row.verdict === 'high' ? 'off-mark' : undefined}
              >
                {row.verdict}
              </td>
              <td>{row.at}</td>
              <td>{row.from}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function sameAsBefore(rows: readonly ReadingRow[], i: number): boolean {
  const before = rows[i - 1];
  const row = rows[i];
  return before !== undefined && before.place === row?.place && before.measured === row.measured;
}

/** Parts lifted and fitted. */
export function PartsTable({ rows }: { readonly rows: readonly PartRow[] }) {
  if (rows.length === 0) return <p>No parts were lifted or fitted.</p>;
  return (
    <table>
      <colgroup>
        <col className="col-part" />
        <col className="col-action" />
        <col />
        <col className="col-part" />
        <col />
        <col />
        <col className="col-when" />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Part</th>
          <th scope="col">Done</th>
          <th scope="col">Kind and value</th>
          <th scope="col">Rail</th>
          <th scope="col">State found</th>
          <th scope="col">From</th>
          <th scope="col">When</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
          <tr key={i}>
            <th scope="row" dir="auto">
              {orDash(row.designator)}
            </th>
            <td>{row.action}</td>
            <td dir="auto">{orDash(row.what)}</td>
            <td dir="auto">{orDash(row.rail)}</td>
            <td dir="auto">{orDash(row.found)}</td>
            <td dir="auto">{orDash(row.from)}</td>
            <td>{row.at}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function orDash(text: string): string {
  return text.trim() === '' ? '–' : text;
}
