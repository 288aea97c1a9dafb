import type { ChecklistItem, Reading } from '../../core/job/job.ts';
import { formatExpected, formatReading } from '../../core/units/format-reading.ts';
import { HeadedTable } from '../parts/headed-table.tsx';
import { timeWords } from '../parts/time-words.ts';

interface Props {
  readonly readings: readonly Reading[];
  readonly items: readonly ChecklistItem[];
}

/** Every reading of a job: where, what was found, what was expected. */
export function JobReadings({ readings, items }: Props) {
  const titleOf = (reading: Reading) =>
    items.find((item) => item.id === reading.itemId)?.title ?? '';
  return (
    <section className="job-readings" aria-label="Readings" data-place="readings">
      <h2>Readings</h2>
      {readings.length === 0 ? (
        <p className="quiet">No reading yet.</p>
      ) : (
        <HeadedTable heads={['Where', 'Found', 'Expected', 'Step', 'Taken']}>
          {readings.map((reading) => (
            <tr key={reading.id} data-ref={reading.id}>
              <td>{reading.place === '' ? '–' : reading.place}</td>
              <td className="number">
                {formatReading(reading)} <span className="quiet">{reading.quantity}</span>
              </td>
              <td className="number">
                {formatExpected(reading.expectedLow, reading.expectedHigh, reading.quantity)}
              </td>
              <td>{titleOf(reading)}</td>
              <td className="quiet">
                {reading.source}, {timeWords(reading.takenAt)}
              </td>
            </tr>
          ))}
        </HeadedTable>
      )}
    </section>
  );
}
