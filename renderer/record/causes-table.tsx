import type { CauseRow } from '../../core/record/record-content.ts';

/** The likeliest causes with their interval and the cases that they rest on. */
export function CausesTable({ rows }: { readonly rows: readonly CauseRow[] }) {
  if (rows.length === 0) return null;
  return (
    <table className="causes">
      <colgroup>
        <col className="col-cause" />
        <col className="col-likely" />
        <col className="col-between" />
        <col />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Cause</th>
          <th scope="col" className="number">
            Likely
          </th>
          <th scope="col">95 % between</th>
          <th scope="col">Earlier boards alike</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.cause}>
            <th scope="row" dir="auto">
              {row.cause}
            </th>
            <td className="number">{row.likely}</td>
            <td>{row.between}</td>
            <td>{row.counted}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
