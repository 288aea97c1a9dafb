import type { ChecklistPhase, ChecklistRow } from '../../core/record/record-content.ts';

/** Our own three shapes: a tick, a step over, an empty ring. The word stands beside each. */
const STATE_SHAPES: Readonly<Record<ChecklistRow['state'], string>> = {
  done: 'M2 7L6 11L12 3',
  skipped: 'M2 10V7Q7 1 12 7M12 3V7H8',
  open: 'M7 2A5 5 0 1 0 7 12A5 5 0 1 0 7 2',
};

/** The checklist phase by phase: when, what was read, why skipped, which caution was shown. */
export function ChecklistTable({ phases }: { readonly phases: readonly ChecklistPhase[] }) {
  return (
    <table className="checklist">
      <colgroup>
        <col />
        <col className="col-state" />
        <col className="col-when" />
      </colgroup>
      <thead>
        <tr>
          <th scope="col">Step</th>
          <th scope="col">State</th>
          <th scope="col">When, who</th>
        </tr>
      </thead>
      {phases.map((phase) => (
        <tbody key={phase.phase}>
          <tr className="phase">
            <th scope="rowgroup" colSpan={3} dir="auto">
              {phase.phase}
            </th>
          </tr>
          {phase.rows.map((row, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
            <tr key={i}>
              <td>
                <span dir="auto">{row.title}</span>
                {row.readings.length > 0 && (
                  <p className="under" dir="auto">
                    {row.readings.join('; ')}
                  </p>
                )}
                {row.reason !== '' && (
                  <p className="under note" dir="auto">
                    {row.state === 'skipped' ? 'Skipped because: ' : ''}
                    {row.reason}
                  </p>
                )}
                {row.cautionNumber !== null && (
                  <p className="under">Caution {row.cautionNumber} was shown.</p>
                )}
              </td>
              <td className="state">
                <svg className="state-shape" viewBox="0 0 14 14" aria-hidden="true">
                  <path d={STATE_SHAPES[row.state]} />
                </svg>{' '}
                {row.state}
              </td>
              <td className="when">
                {row.at === '' ? '–' : row.at}
                {row.by !== '' && ` ${row.by}`}
              </td>
            </tr>
          ))}
        </tbody>
      ))}
    </table>
  );
}
