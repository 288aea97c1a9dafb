import type { Reading, Run } from '../job/job.ts';
import type { BoardModel, ProbePoint } from './board-model.ts';
import type { RailReading } from './rail-reading.ts';

/**
 * A reading that was taken before its board had a table, or for a step, as one on a rail: its place
 * names the rail, or one of the rail's points, whatever the case. Null for places and quantities
 * that the tree does not know: those readings stand alone.
 * @param runKind kind of the run during which it was taken, null when there was none.
 */
export function adoptReading(
  board: BoardModel,
  reading: Reading,
  runKind: Run['kind'] | string | null,
): RailReading | null {
  const { quantity } = reading;
  if (quantity !== 'volts' && quantity !== 'ohms' && quantity !== 'diode') return null;
  const found = placeOnBoard(board, reading.place);
  if (found === null || (quantity !== 'volts' && found.point !== 'output')) return null;
  return {
    id: reading.id,
    rail: found.rail,
    point: found.point,
    quantity,
    against: null,
    value: reading.value,
    overload: reading.overload,
    state: null,
    // Volts with nothing recorded beside them were most likely taken on a fed board.
    powered: quantity === 'volts' && (runKind === null || runKind === 'powered'),
    wires: 2,
    leadOhm: null,
    accuracy: null,
    at: reading.takenAt,
  };
}

/** The rail and role behind a place as a person writes it; null when the board has none such. */
export function placeOnBoard(
  board: BoardModel,
  place: string,
): { readonly rail: string; readonly point: ProbePoint['role'] } | null {
  const wanted = fold(place);
  if (wanted === '') return null;
  const rail = board.rails.find(({ name }) => fold(name) === wanted);
  if (rail !== undefined) return { rail: rail.name, point: 'output' };
  for (const { name, points } of board.rails) {
    const point = points.find((each) => fold(each.name) === wanted);
    if (point !== undefined) return { rail: name, point: point.role };
  }
  return null;
}

function fold(text: string): string {
  return text.trim().toLowerCase().replace(/\s+/g, ' ');
}
