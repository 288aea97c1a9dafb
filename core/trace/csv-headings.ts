import { type FileQuantity, type FileUnit, readFileUnit } from './csv-unit.ts';

/** What a heading says of its column. */
export type ColumnMeaning =
  | FileQuantity
  | 'date'
  | 'fraction'
  | 'regulation'
  | 'output'
  | 'value'
  | 'unit'
  | 'index'
  | 'interval'
  | null;

/** A heading understood. */
export interface Heading {
  readonly text: string;
  readonly meaning: ColumnMeaning;
  readonly unit: FileUnit | null;
  /** 0 is best: a plain or measured quantity; 1 a mean or an input, 2 an extreme; set-points have no meaning. */
  readonly rank: number;
}

const BRACKETED = /[([{<]\s*([^)\]}>]*?)\s*[)\]}>]/g;
const TRAILING = /^(.*?)(?:\s*[/,;:]\s*|[\s_.-]+)([^\s_/,;:.-]+|[ad]c [^\s]+|[^\s]+ [ad]c)$/i;
const SET_POINT =
  /\b(set|setting|setpoint|set ?point|limit|lim|ovp|ocp|opp|prot\w*|target|nominal|nom|program\w*|demand|rated|ref\w*|threshold|alarm)\b|^[viu]_?set$|^set[viu]\b|[vi]set$|[vi]lim$/;
/** What goes into the supply itself: the board is at its output. */
const INPUT = /\b(in|input|source)\b|^[viu]_?in\b/;
const MEAN = /\b(avg|average|mean|rms)\b/;
const EXTREME =
  /\b(min|max|minimum|maximum|peak|pk|low|high|std\w*|dev\w*|delta|error|noise|shunt)\b/;

const INTERVAL =
  /^((sampl\w*|log\w*|record\w*|time) )?(interval|increment|delta|step)$|^(sampl\w*|log\w*) period$|^dt$|^(delta|\u0394|d) ?t(ime)?$/;
const WORDS: readonly (readonly [RegExp, Exclude<ColumnMeaning, null>])[] = [
  [/^(frac\w*|fraction of \w+|ms|msec|millis\w*|us|usec|micros\w*|sub ?sec\w*)$/, 'fraction'],
  [/^(date|day|datum|fecha)$/, 'date'],
  [
    /^(t|ts|sec|secs|seconds?|s|clock|epoch|when|zeit|uhrzeit|temps|hora|tiempo|datetime|date ?time|date and time|date \/ time|unix\w*)$|\btime\b|\btime ?stamp\b|\btimestamp\b|\belapsed\b|^(unix|epoch)\b|^time|zeit$/,
    'time',
  ],
  [/\b(mode|regulation|reg|cc ?[/|]? ?cv|cv ?[/|]? ?cc|cccv)\b/, 'regulation'],
  [/^(output|outp|out)( ?(state|on|on ?\/ ?off|enabled?))?$/, 'output'],
  [/^(unit|units|einheit)$/, 'unit'],
  [/power|watt|^[pw]\d*$|^p[ _-]?(out|in|meas)\b|^pout|leistung|puissance/, 'watts'],
  [
    /volt|^[vu]\d*$|^[vu][ _-]?(out|in|bus|meas|measured|supply|load|dc|mon|bat|batt|rail|main|board|src|rb|read\w*|sense)\b|^ch ?\d+ ?[vu]$|spannung|tension|potential|\bemf\b/,
    'volts',
  ],
  [
    /curr|amp(s|ere|eres|erage)?\b|^[ia]\d*$|^i[ _-]?(out|in|bus|meas|measured|supply|load|dc|mon|bat|batt|rail|main|board|src|rb|read\w*|sense)\b|^ch ?\d+ ?[ia]$|strom|courant|corriente|corrente|\bdraw\b/,
    'amps',
  ],
  [
    /^(value|values|reading|readings|measurement|meas\w*|primary( \w+)?|main( \w+)?|display( \w+)?|result|dmm|data|messwert|wert)( ?\d+)?$/,
    'value',
  ],
  [
    /^(no|nr|n|#|num|number|index|idx|i\.?d|id|sample|samples|sample (no|number|index)|point|points|record|rec|row|line|count|seq\w*)\.?$/,
    'index',
  ],
];

/** Understands one heading by its name and unit; see `Heading`. */
export function readHeading(text: string): Heading {
  const { name, unit, isLoose } = nameAndUnit(text);
  const heading = understand(text, name, unit);
  // `Current min` is a lowest current, not one in minutes.
  return heading.meaning === null && isLoose ? understand(text, text, null) : heading;
}

function understand(text: string, name: string, unit: FileUnit | null): Heading {
  const nothing: Heading = { text, meaning: null, unit, rank: 0 };
  if (unit?.quantity === 'other') return nothing;
  const words = wordsOf(name);
  // `Current (set)` tells it in brackets.
  const all = wordsOf(text.replace(/[()[\]{}<>]/g, ' '));
  if (SET_POINT.test(all) && !/\bmeas|\bread|\bactual/.test(all)) return nothing;
  const rank = EXTREME.test(all) ? 2 : MEAN.test(all) || INPUT.test(all) ? 1 : 0;
  const measured = unit !== null && unit.quantity !== 'hertz' ? unit.quantity : null;
  for (const [pattern, meaning] of WORDS) {
    if (pattern.test(words) && agrees(meaning, measured)) return { text, meaning, unit, rank };
  }
  if (INTERVAL.test(words) && (measured === null || measured === 'time')) {
    return { text, meaning: 'interval', unit, rank };
  }
  const symbol = symbolIn(words);
  if (symbol !== null && agrees(symbol, measured)) return { text, meaning: symbol, unit, rank };
  // `mA`, `CH1 (V)`, `Rail 3 [A]`: the unit alone says it.
  if (measured !== null && (measured !== 'time' || words === '')) {
    return { text, meaning: measured, unit, rank };
  }
  return nothing;
}

/** Words that say where or how a quantity was read, and not which. */
const BESIDE_SYMBOL =
  /^(\d+|(ch|chan|channel|out|outp|output|port|p|ps|psu|supply|rail)\d*|m|meas|measured|measure|read|reading|rb|act|actual|dc|avg|average|mean|rms|min|max|minimum|maximum|peak|pk|load|board|value|mon)$/;
const SYMBOLS: Readonly<Record<string, 'volts' | 'amps' | 'watts'>> = {
  i: 'amps',
  il: 'amps',
  idc: 'amps',
  dci: 'amps',
  dca: 'amps',
  dcv: 'volts',
  v: 'volts',
  u: 'volts',
  vdc: 'volts',
  udc: 'volts',
};

/** The quantity of `OUT1 I`, `U avg`, `P1:I`: its symbol among words that only say where and how. */
function symbolIn(words: string): 'volts' | 'amps' | 'watts' | null {
  const all = words.split(/[ :/|,;?]+/).filter((word) => word !== '');
  const found = all.filter((word) => Object.hasOwn(SYMBOLS, word));
  if (found.length !== 1) return null;
  const rest = all.filter((word) => word !== found[0]);
  return rest.every((word) => BESIDE_SYMBOL.test(word)) ? SYMBOLS[found[0]!]! : null;
}

function wordsOf(text: string): string {
  return text
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replace(/[_\s.-]+/g, ' ')
    .trim();
}

function agrees(meaning: ColumnMeaning, measured: FileQuantity | null): boolean {
  if (measured === null) return true;
  if (meaning === 'fraction') return measured === 'time';
  if (meaning === 'value') return false;
  if (meaning === 'time' || meaning === 'volts' || meaning === 'amps' || meaning === 'watts') {
    return meaning === measured;
  }
  return false;
}

/** `isLoose` when the unit was a last word and not in brackets. */
function nameAndUnit(text: string): { name: string; unit: FileUnit | null; isLoose: boolean } {
  for (const match of text.matchAll(BRACKETED)) {
    const unit = readFileUnit(match[1]!);
    if (unit !== null) return { name: text.replace(match[0], ' ').trim(), unit, isLoose: false };
  }
  const bare = text.replace(BRACKETED, ' ').trim();
  const whole = readFileUnit(bare);
  if (whole !== null && bare.length > 1) {
    // `Seconds` and `ms` are names as well as units.
    return { name: whole.quantity === 'time' ? bare : '', unit: whole, isLoose: false };
  }
  const match = TRAILING.exec(bare);
  const unit = match === null ? null : readFileUnit(match[2]!);
  // `Voltage V`, `t_ms`, `I/mA`; but the A of `CH A` names a channel.
  if (match !== null && unit !== null && !/^(ch|channel|phase|port)$/i.test(match[1]!)) {
    return { name: match[1]!, unit, isLoose: true };
  }
  return { name: bare, unit: null, isLoose: false };
}
