import { WakelineError } from '../errors.ts';
import { parseQuantity } from '../units/parse.ts';
import type { Unit } from '../units/unit.ts';
import {
  CORE_MOST_V,
  DEFAULT_TOLERANCE,
  FEED_THROUGH,
  type FeedThrough,
  type KnownGood,
  type Rail,
} from './board-model.ts';
import { readPoints } from './probe-points.ts';
import { COLUMN_WORDS, type RailColumn } from './rail-columns.ts';
import { readRailVolts, voltsInName } from './read-rail-volts.ts';

/** A rail as its row says it; `through` null when the row leaves it open. */
export type RailRow = Omit<Rail, 'through'> & {
  readonly through: FeedThrough | null;
  /** Whether its volts were not typed but read from its name. */
  readonly isFromName: boolean;
};

/**
 * Reads one row of a rail table.
 * @throws WakelineError `bad-input` naming row, column and character.
 */
export function readRailRow(
  cells: readonly string[],
  columns: readonly (RailColumn | null)[],
  row: number,
): RailRow {
  const cell = (column: RailColumn) => (cells[columns.indexOf(column)] ?? '').trim();
  const refuse = (column: RailColumn, what: string, todo: string): never => {
    const where = `row ${row}, column ${COLUMN_WORDS[column]}`;
    throw new WakelineError({ code: 'bad-input', what, where, todo });
  };
  const extra = cells.findIndex((text, at) => text.trim() !== '' && columns[at] === undefined);
  if (extra >= 0) {
    throw new WakelineError({
      code: 'bad-input',
      what: `"${cells[extra]}" stands beyond the last column`,
      where: `row ${row}, column ${extra + 1}`,
      todo: 'Look for a separator too many; several feeds are joined with +.',
    });
  }
  const number = (column: RailColumn, text: string, unit: Unit): number => {
    const parsed = parseQuantity(text, unit);
    if (!parsed.ok) {
      return refuse(
        column,
        `${parsed.what}, at character ${parsed.at + 1} of "${text}"`,
        parsed.todo,
      );
    }
    if (parsed.value === null)
      return refuse(column, 'Over range is no value to expect', 'Leave it empty.');
    return parsed.value;
  };
  const name = cell('name');
  if (name === '') refuse('name', 'This row has no rail name', 'Name it, or begin the row with #.');
  const named = cell('volts') === '' ? voltsInName(name) : null;
  if (cell('volts') === '' && named === null)
    refuse('volts', `${name} has no volts`, 'Type its nominal volts, like 3.3.');
  const typed = readRailVolts(cell('volts'));
  if (typed.tolerance !== '' && cell('tolerance') !== '') {
    refuse(
      'tolerance',
      `${name} has a tolerance in its volts and one of its own`,
      'Keep one of the two.',
    );
  }
  const ends = typed.range?.map((end) => number('volts', end, 'V'));
  const [low = Number.NaN, high = Number.NaN] = ends ?? [];
  if (ends !== undefined && !(high > low)) {
    refuse('volts', `"${cell('volts')}" does not go up`, 'Type a range like 4.75 to 5.25.');
  }
  const nominalV =
    named ?? (ends === undefined ? number('volts', typed.nominal, 'V') : (low + high) / 2);
  const core = cell('core').toLowerCase();
  if (!/^(|y|yes|x|1|true|n|no|0|false)$/.test(core)) {
    refuse('core', `"${cell('core')}" is neither yes nor no`, 'Type yes, no, or leave it empty.');
  }
  const through = FEED_THROUGH.find((each) => each === cell('through').toLowerCase()) ?? null;
  if (cell('through') !== '' && through === null) {
    refuse(
      'through',
      `"${cell('through')}" is no way to feed a rail`,
      `Type ${FEED_THROUGH.join(', ')}.`,
    );
  }
  const good = (column: 'ohms' | 'diode', unit: Unit): KnownGood | null => {
    const text = cell(column);
    if (text === '') return null;
    const match = /^(.*?)(?:\s*(?:±|\+-|\+\/-)\s*(.*?))?(?:\s*\((\d+)\))?$/.exec(text);
    const [, median = '', spread, count] = match ?? [];
    return {
      median: number(column, median.trim(), unit),
      spread: spread === undefined || spread === '' ? 0 : number(column, spread.trim(), unit),
      count: count === undefined ? 1 : Number(count),
    };
  };
  const points = readPoints(cell('points'));
  if (!points.ok) refuse('points', `${points.what}, at character ${points.at + 1}`, points.todo);
  return {
    name,
    nominalV,
    tolerance:
      ends !== undefined && cell('tolerance') === ''
        ? Number(((high - low) / 2 / nominalV).toPrecision(12))
        : readTolerance(cell('tolerance') || typed.tolerance, nominalV, number, refuse),
    points: points.ok ? points.points : [],
    fedBy: names(cell('fedBy')),
    through,
    enabledBy: names(cell('enabledBy')),
    states: names(cell('states')),
    expectedOhms: good('ohms', 'Ω'),
    expectedDiodeV: good('diode', 'V'),
    isFromName: named !== null,
    isCore: core === '' ? Math.abs(nominalV) <= CORE_MOST_V : /^(y|yes|x|1|true)$/.test(core),
  };
}

/** `5%`, `5` (per cent), `0.1V` either side, empty for the default. Returns a share. */
function readTolerance(
  text: string,
  nominalV: number,
  number: (column: RailColumn, text: string, unit: Unit) => number,
  refuse: (column: RailColumn, what: string, todo: string) => never,
): number {
  const typed = text.replace(/^(±|\+-|\+\/-)\s*/, '');
  if (typed === '') return DEFAULT_TOLERANCE;
  const percent = /^(\d+(?:[.,]\d+)?)\s*%?$/.exec(typed);
  if (percent !== null) {
    const share = Number((percent[1] ?? '').replace(',', '.')) / 100;
    return share > 0 && share < 1
      ? share
      : refuse('tolerance', `${text} is no tolerance`, 'Type it like 5%.');
  }
  return Number((number('tolerance', typed, 'V') / Math.abs(nominalV)).toPrecision(12));
}

/** Names joined by +, &, |, commas, slashes, semicolons or the words and / or. */
function names(text: string): string[] {
  const parts = text.split(/\s*[+&|,;/]\s*|\s+(?:and|or)\s+/i).map((part) => part.trim());
  return [...new Set(parts.filter((part) => part !== '' && part !== '-'))];
}
