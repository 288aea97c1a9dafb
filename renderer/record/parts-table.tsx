import type { PartRow } from '../../core/record/record-content.ts';

/** Parts lifted and fitted. */
export function PartsTable({ rows }: { readonly rows: readonly PartRow[] }) {
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
