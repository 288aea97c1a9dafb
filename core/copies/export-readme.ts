import { EXPORT_FORMAT } from './export-manifest.ts';
import type { TableShape } from './table-shape.ts';

/** What a table holds, in a line. Tables without one are named by themselves. */
const TABLE_WORDS: Readonly<Record<string, string>> = {
  jobs: 'One board taken in: whose, what it does not do, what was stated of it.',
  outcomes: 'How a job ended, each time it was closed.',
  outcome_details: 'The cause in the shop’s tree and how it was proved.',
  outcome_findings: 'What the job had seen when it was closed.',
  outcome_weighings: 'How its causes were weighed when it was closed, and by which version.',
  checklist_items: 'Steps of a job’s checklist, done, skipped or open.',
  readings: 'Measured or typed values. The same as csv/readings.csv, exactly.',
  rail_readings: 'What a reading on a rail has beside its value.',
  parts: 'Parts lifted and fitted.',
  part_details: 'What a part has beside its plain line.',
  runs: 'One powered observation of a board, or a stretch of idle bench.',
  tracks: 'One instrument’s samples in a run.',
  chunks: 'Packed samples of a track, byte for byte. csv/runs holds them readable.',
  pyramids: 'Reduced samples for drawing; follows from the chunks.',
  signatures: 'A run’s curve in short, for finding runs like it; follows from the chunks.',
  classifications: 'Each naming of a run’s stages, with the version of the tracker.',
  stages: 'Stages of a classification.',
  marks: 'Marks of a classification.',
  steps: 'Level changes of a classification.',
  run_notes: 'Notes that a person put on a run.',
  boards: 'Board models.',
  rails: 'Rails of a board model, in order.',
  rail_points: 'Where a rail can be touched.',
  donor_boards: 'Boards kept for their parts.',
  donor_takes: 'What was taken from a donor board, and into which job.',
  model_parts: 'Parts that every board of a model carries.',
  shop_causes: 'Causes that the shop added or changed.',
  shop_odds: 'Odds that the shop put in the place of the starter table’s.',
  job_sights: 'What somebody looked at and answered in a job.',
  unreachable_points: 'Measurements that somebody said cannot be reached.',
  hunts: 'Hunts for a short along one rail of a job’s board.',
  hunt_points: 'Where a hunt touched the rail, in order.',
  hunt_readings: 'Volts at a point of a hunt with the amperes that flowed; 0 = none.',
  hunt_runs: 'Runs in which current was put in for a hunt.',
  pictures: 'Pictures of a job or a board model.',
  picture_files: 'Files of pictures, named by the SHA-256 of their bytes.',
  picture_marks: 'Marks on a picture: x and y are shares of its width and height.',
};

/** What a column's ending says of its unit. */
const ENDINGS: readonly (readonly [ending: string, words: string])[] = [
  ['_at', 'UTC, milliseconds since 1970-01-01'],
  ['_json', 'JSON text'],
  ['_v', 'volts'],
  ['_a', 'amperes'],
  ['_w', 'watts'],
  ['_wh', 'watt-hours'],
  ['_ah', 'ampere-hours'],
  ['_s', 'seconds'],
  ['_ms', 'milliseconds'],
  ['_c', 'degrees Celsius'],
  ['_ohm', 'ohms'],
  ['_tick', '0.1 ms since the run began'],
  ['_min', 'minutes'],
  ['_percent', 'per cent'],
  ['_key', 'compared form, without case and spaces'],
  ['_id', 'id of a row of another table'],
];

const COLUMN_WORDS: Readonly<Record<string, string>> = {
  id: 'UUIDv7, sorts by the time it was made',
  at: 'UTC, milliseconds since 1970-01-01',
  ohms_median: 'ohms',
  ohms_spread: 'ohms, one standard deviation',
  tolerance: 'share either side: 0.05 is 5 %',
  value: 'base unit of its quantity: volts, ohms, amperes',
  expected_low: 'same unit as value',
  expected_high: 'same unit as value',
  confidence: '0 to 1',
};

/** The unit or meaning of a column, as far as its name says. */
export function columnWords(table: string, column: string): string {
  const known = COLUMN_WORDS[column];
  if (known !== undefined && !(column === 'value' && table !== 'readings')) return known;
  // The longest ending says most: `_wh` before `_h`.
  const ending = ENDINGS.filter(([end]) => column.endsWith(end)).sort(
    ([a], [b]) => b.length - a.length,
  )[0];
  return ending?.[1] ?? '';
}

/** The README.md of an exported folder: what lies where, every field and its unit. */
export function exportReadme(o: {
  readonly app: string;
  readonly schema: string;
  readonly madeAt: string;
  readonly shapes: readonly TableShape[];
}): string {
  const head = `# A whole ledger as open files

Written by Wakeline ${o.app} at ${o.madeAt} (format ${EXPORT_FORMAT}, schema ${o.schema}).

| path | holds |
| --- | --- |
| \`manifest.json\` | every file with its size, its number of rows and its SHA-256 |
| \`tables/*.jsonl\` | one file a table, one row a line, as JSON; this is what an import reads |
| \`pictures/\` | the picture files, named by the SHA-256 of their bytes |
| \`csv/readings.csv\` | every reading with its job, place, unit and UTC time, for a spreadsheet |
| \`csv/runs.csv\` | every run with its job, feed, set volts, limit and length |
| \`csv/runs/*.csv\` | the samples of each run, one file a track, times in seconds from its beginning |

Text is UTF-8, lines end with a line feed. In the JSON, yes and no are 1 and 0, a field that is not
known is null, bytes are \`{"base64": "..."}\` and a number that JSON cannot say is \`{"float": "Infinity"}\`.
An import reads \`tables\` and \`pictures\`, checks each against the manifest, and takes all of it or
nothing. It leaves \`csv\` alone. Whoever changes a table by hand on purpose sets its \`sha256\` in the
manifest to null. Folders of older versions can be read; a newer one is refused.

Ids are UUIDv7 and stay what they are in every ledger, so the same folder read twice changes nothing.
`;
  const tables = o.shapes.map((shape) => {
    const rows = shape.columns.map(({ name, type }) => {
      const to = shape.foreign.find(({ column }) => column === name);
      const words = to === undefined ? columnWords(shape.name, name) : `a row of ${to.table}`;
      return `| ${name}${shape.key.includes(name) ? ' (key)' : ''} | ${type} | ${words} |`;
    });
    const what = TABLE_WORDS[shape.name] ?? '';
    return `## tables/${shape.name}.jsonl\n\n${what === '' ? '' : `${what}\n\n`}| field | type | unit or meaning |\n| --- | --- | --- |\n${rows.join('\n')}\n`;
  });
  return [head, ...tables].join('\n');
}
