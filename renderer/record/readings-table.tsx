import type { FoundLine, ReadingPairs } from '../../core/record/record-content.ts';

/** Every reading, one place a row: before parts were changed and since, side by side. */
export function ReadingsTable({ readings }: { readonly readings: ReadingPairs }) {
  const { isChanged, rows } = readings;
  return (
    <table>
      <colgroup>
        <col className="col-place" />
        <col className="col-measured" />
        <col className="col-expected" />
        <col />
        {isChanged && <col />}
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Place</th>
          <th scope="col">Measured</th>
          <th scope="col">Expected</th>
          <th scope="col">{isChanged ? 'Before parts were changed' : 'Found'}</th>
          {isChanged && <th scope="col">Since</th>}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
          <tr key={i}>
            <th scope="row" dir="auto">
              {row.place === '' ? '–' : row.place}
            </th>
            <td>{row.measured}</td>
            <td>{row.expected}</td>
            <Side lines={row.before} />
            {isChanged && <Side lines={row.since} />}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The newest in ink, those before it below in quiet. */
function Side({ lines }: { readonly lines: readonly FoundLine[] }) {
  if (lines.length === 0) return <td className="quiet">not measured</td>;
  return (
    <td>
      {lines.map((line, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
        <p key={i} className={i === 0 ? undefined : 'under'}>
          <span className={i === 0 ? 'found' : undefined}>{line.value}</span>{' '}
          {line.verdict !== '–' && (
            <span
              className={line.verdict === 'low' || line.verdict === 'high' ? 'off-mark' : undefined}
            >
              {line.verdict}
            </span>
          )}{' '}
          <span className="when-under">
            {line.at}
            {line.from === 'meter' ? '' : `, ${line.from}`}
          </span>
        </p>
      ))}
    </td>
  );
}
