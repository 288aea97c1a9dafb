import type { HuntWhole } from '../../core/contract/hunt-calls.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { columnWords, millivolts } from './hunt-words.ts';

interface Props {
  readonly whole: HuntWhole;
  readonly aimId: string | null;
  readonly onAim: (pointId: string) => void;
}

/** Every point with its readings and what the current alone drops there, lowest marked. */
export function GradientTable({ whole, aimId, onAim }: Props) {
  const { hunt, found } = whole;
  const ranked = new Map(found.gradient?.ranked.map((one) => [one.name, one]));
  const nearest = new Set(found.gradient?.nearest);
  if (hunt.points.length === 0) {
    return (
      <p className="quiet">
        No point yet. Name four or more along the rail: capacitors, coils, test points.
      </p>
    );
  }
  return (
    <div className="table-room">
      <table className="gradient-table">
        <thead>
          <tr>
            <th scope="col">Point</th>
            <th scope="col" className="number">
              Along
            </th>
            <th scope="col" className="number">
              No current
            </th>
            <th scope="col" className="number">
              At {columnWords('first', whole)}
            </th>
            <th scope="col" className="number">
              At {columnWords('second', whole)}
            </th>
            <th scope="col" className="number">
              Of the current
            </th>
            <th scope="col">Says</th>
          </tr>
        </thead>
        <tbody>
          {found.columns.points.map(({ pointId, zero, first, second }) => {
            const point = hunt.points.find(({ id }) => id === pointId);
            if (point === undefined) return null;
            const rank = ranked.get(point.name);
            return (
              <tr
                key={pointId}
                data-aimed={pointId === aimId}
                data-nearest={nearest.has(point.name)}
              >
                <th scope="row">
                  <button
                    type="button"
                    className="point-name"
                    aria-pressed={pointId === aimId}
                    onClick={() => onAim(pointId)}
                  >
                    {point.name}
                  </button>
                </th>
                <td className="number quiet">
                  {point.alongMm === null ? '' : `${point.alongMm} mm`}
                </td>
                <td className="number">{millivolts(zero?.volts)}</td>
                <td className="number">{millivolts(first?.volts)}</td>
                <td className="number">{millivolts(second?.volts)}</td>
                <td className="number">
                  <strong>{millivolts(rank?.netV)}</strong>
                </td>
                <td>{sayRank(nearest.has(point.name), nearest.size, rank?.isLinear ?? null)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <p className="quiet">
        Read against: {hunt.reference}. The meter’s noise: {found.sigmaFrom}; points closer than{' '}
        {formatQuantity(6 * found.sigmaV, 'V', null, { digits: 2 })} are not told apart.
      </p>
    </div>
  );
}

function sayRank(isNearest: boolean, ties: number, isLinear: boolean | null): string {
  const bent = isLinear === false ? 'does not follow the current' : '';
  const near = !isNearest ? '' : ties > 1 ? 'lowest, a tie' : 'lowest';
  return [near, bent].filter((text) => text !== '').join('; ');
}
