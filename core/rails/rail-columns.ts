import { WakelineError } from '../errors.ts';

/** Columns of a rail table, in the order they are written. */
export const RAIL_COLUMNS = [
  'name',
  'volts',
  'tolerance',
  'fedBy',
  'through',
  'enabledBy',
  'states',
  'points',
  'ohms',
  'diode',
  'core',
] as const;
export type RailColumn = (typeof RAIL_COLUMNS)[number];

/** What each column is called in a written table. */
export const COLUMN_WORDS: Readonly<Record<RailColumn, string>> = {
  name: 'rail',
  volts: 'volts',
  tolerance: 'tolerance',
  fedBy: 'fed by',
  through: 'through',
  enabledBy: 'enabled by',
  states: 'states',
  points: 'points',
  ohms: 'ohms to ground',
  diode: 'diode reading',
  core: 'core',
};

const PATTERNS: readonly (readonly [RegExp, RailColumn])[] = [
  [/^(rail|name|net|supply)( name)?$/, 'name'],
  [/^(nominal( volts?)?|volts?|voltage|v)$/, 'volts'],
  [/^(tol|tolerance)$/, 'tolerance'],
  [/^(fed by|feed|feeds|fed from|from|parent|source|input)$/, 'fedBy'],
  [/^(through|via|made by|by)$/, 'through'],
  [/^(enabled by|enable|enables|en|needs)$/, 'enabledBy'],
  [/^(states?|up in|when)$/, 'states'],
  [/^(points?|test points?|probe|probes|where)$/, 'points'],
  [/^(ohms?|resistance|r|Ω)( (to )?(ground|gnd))?$/, 'ohms'],
  [/^(diode( reading)?|drop)$/, 'diode'],
  [/^(core|is core)$/, 'core'],
];

/** Columns of a spreadsheet that no rail needs; they are passed over. */
const PASSED_OVER = /^(notes?|remarks?|comments?|#|no\.?|nr\.?|pos\.?|row)$/;
/** Units in a heading that would make every number of its column another one. */
const PREFIXED = /[([]\s*[mkMGµμu]\s*(V|Ω|ohms?|volts?)/;

/**
 * Which column each cell of a heading names; null when the row is no heading (its first cell is no
 * usual name of a column).
 * @throws WakelineError `bad-input` for a heading with an unknown or double column, or without a name
 * or volts.
 */
export function matchColumns(
  cells: readonly string[],
  row: number,
): readonly (RailColumn | null)[] | null {
  const columns = cells.map((cell) => {
    // "volts (V)" and "ohms_to_ground" are the same headings.
    const plain = cell
      .replace(/[([].*$/, '')
      .replace(/[_-]+/g, ' ')
      .trim()
      .toLowerCase();
    return plain === '' || PASSED_OVER.test(plain)
      ? null
      : (PATTERNS.find(([pattern]) => pattern.test(plain))?.[1] ?? cell);
  });
  const known = columns.filter((column) => isColumn(column));
  if (known.length < 2 || !known.includes('name')) return null;
  const refuse = (what: string, todo: string): never => {
    throw new WakelineError({ code: 'bad-input', what, where: `row ${row}, the heading`, todo });
  };
  const stranger = columns.find((column) => column !== null && !isColumn(column));
  if (stranger !== undefined) {
    refuse(
      `No column is called "${stranger}"`,
      `Columns are ${Object.values(COLUMN_WORDS).join(', ')}.`,
    );
  }
  for (const column of known) {
    if (known.indexOf(column) !== known.lastIndexOf(column)) {
      refuse(`The column "${COLUMN_WORDS[column]}" is there twice`, 'Delete one of the two.');
    }
  }
  const prefixed = cells.find((cell) => PREFIXED.test(cell));
  if (prefixed !== undefined) {
    refuse(
      `The heading "${prefixed}" gives its numbers another unit`,
      'Write the unit with each number, like 8.2k or 850 mV, and leave it out of the heading.',
    );
  }
  if (!known.includes('volts')) refuse('There is no column of volts', 'Add one.');
  return columns.map((column) => (isColumn(column) ? column : null));
}

function isColumn(text: string | null | undefined): text is RailColumn {
  return RAIL_COLUMNS.some((column) => column === text);
}
