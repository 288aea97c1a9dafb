import { readCase, sayCase } from './case-code.ts';
import {
  looksLikeDielectric,
  readDielectric,
  sayDielectric,
  wrongDielectricCharacter,
} from './dielectric.ts';
import { readEia96 } from './eia-96.ts';
import { implyKind, type PartDraft, place, setField } from './part-draft.ts';
import { readPartQuantity } from './part-quantity.ts';
import { kindOfDesignator } from './part-spec.ts';
import type { PartToken } from './part-token.ts';
import { isFillerWord, isOtherCase, readPartWord } from './part-word.ts';
import { sayPartValue, typePartValue } from './say-part-value.ts';
import { takeEsr } from './take-esr.ts';
import { takePhrases } from './take-phrases.ts';
import { takeQuantity } from './take-quantity.ts';
import { percentTolerance, sayTolerance } from './tolerance-letters.ts';
import { valueCandidates } from './value-candidates.ts';

/** Above this, four digits that are also a case are taken as the case without asking. */
const MARK_MOST_OHM = 22e6;

/**
 * Takes every word that says by itself what it is: units, classes, cases, kinds, designators, an
 * announced EIA-96 mark. Returns the words that are left, which hold a value or nothing.
 */
export function takeFirmWords(
  tokens: readonly PartToken[],
  draft: PartDraft,
): readonly PartToken[] {
  const left: PartToken[] = [];
  const all = takePhrases(takeEsr(takeAnnouncedEia96(tokens, draft), draft), draft).filter(
    ({ text }) => !isFillerWord(text),
  );
  // Kinds first: 5V1 is a rating beside a capacitor and the value of a zener.
  const rest = all.filter(
    (token) => !takePlainWord(token, draft) && !takeDesignator(token, all, draft),
  );
  implyFromUnits(rest, draft);
  for (const token of rest) {
    const taken =
      takeTolerance(token, draft) || takeCase(token, rest, draft) || takeUnit(token, draft);
    if (!taken) left.push(token);
  }
  return left;
}

function takeAnnouncedEia96(tokens: readonly PartToken[], draft: PartDraft): PartToken[] {
  const index = tokens.findIndex(({ text }) => /^EIA-?96$/i.test(text));
  const word = tokens[index];
  if (word === undefined) return [...tokens];
  const mark = tokens[index + 1];
  if (mark === undefined) {
    draft.faults.push({
      at: word.end,
      end: word.end,
      what: 'The EIA-96 mark is missing',
      todo: 'Type its three characters, like EIA-96 01C.',
    });
    return tokens.filter((token) => token !== word);
  }
  const read = readEia96(mark.text);
  implyKind(draft, 'resistor', word, 'An EIA-96 mark');
  if (read.ok) {
    const value = sayPartValue(read.ohms, 'resistor');
    setField(draft, 'value', read.ohms, mark, `${value} (EIA-96 mark)`);
    setField(draft, 'tolerance', percentTolerance(1), mark, '±1 % (EIA-96 marks are 1 % parts)');
  } else {
    const at = mark.at + read.at;
    draft.faults.push({ at, end: Math.max(at + 1, mark.end), what: read.what, todo: read.todo });
  }
  return tokens.filter((token) => token !== word && token !== mark);
}

function takePlainWord(token: PartToken, draft: PartDraft): boolean {
  const word = readPartWord(token.text);
  if (word !== null) {
    if (word.kind !== undefined) implyKind(draft, word.kind, token, `"${token.text}"`);
    if (word.technology !== undefined) {
      setField(draft, 'technology', word.technology, token, word.technology);
    } else if (word.variant !== undefined) {
      setField(draft, 'variant', word.variant, token, word.variant);
    } else {
      draft.notes.push({ ...place(token), meaning: word.kind ?? token.text });
    }
    return true;
  }
  const dielectric = readDielectric(token.text);
  if (dielectric !== null) {
    implyKind(draft, 'capacitor', token, `The ceramic class ${dielectric.code}`);
    const meaning = `${dielectric.code}: class ${dielectric.class}, ${sayDielectric(dielectric)}`;
    setField(draft, 'dielectric', dielectric.code, token, `${meaning} (EIA-198)`);
    if (draft.spec.technology === null) draft.spec.technology = 'ceramic';
    return true;
  }
  const wrong = looksLikeDielectric(token.text) ? wrongDielectricCharacter(token.text) : null;
  // 10Z-like marks never start with X, Y or Z, so such a word can only be a class.
  if (wrong !== null) {
    draft.faults.push({
      at: token.at + wrong.at,
      end: token.at + wrong.at + 1,
      what: wrong.what,
      todo: 'Type the class like X5R, X7R, Y5V or C0G.',
    });
    return true;
  }
  return false;
}

/**
 * Ohms beside farads, henries or hertz are an ESR or a DC resistance, wherever they stand: the other
 * unit says what the part is.
 */
function implyFromUnits(tokens: readonly PartToken[], draft: PartDraft): void {
  if (draft.spec.kind !== null) return;
  const read = tokens.flatMap((token) => {
    const quantity = readPartQuantity(token.text);
    return quantity?.ok === true && !/^\d\d[AFH]$/.test(token.text)
      ? [{ token, unit: quantity.quantity.unit }]
      : [];
  });
  if (!read.some(({ unit }) => unit === 'Ω')) return;
  // Pico, nano and micro without a unit are farads, unless henries stand beside them.
  const bare = tokens.find(({ text }) => /^\d*[.,]?\d+[pnuµμ]\d*$/iu.test(text));
  if (bare !== undefined && !read.some(({ unit }) => unit === 'H')) {
    implyKind(draft, 'capacitor', bare, 'A value in farads');
    return;
  }
  for (const { token, unit } of read) {
    if (unit === 'F') implyKind(draft, 'capacitor', token, 'A value in farads');
    else if (unit === 'H') implyKind(draft, 'inductor', token, 'A value in henries');
    else continue;
    return;
  }
}

function takeTolerance(token: PartToken, draft: PartDraft): boolean {
  const uneven = /^\+(\d+(?:\.\d+)?)\/?[-\u2212](\d+(?:\.\d+)?)%$/.exec(token.text);
  if (uneven === null) return false;
  const tolerance = { low: -Number(uneven[2]), high: Number(uneven[1]), in: 'percent' as const };
  setField(draft, 'tolerance', tolerance, token, sayTolerance(tolerance));
  return true;
}

function takeCase(token: PartToken, all: readonly PartToken[], draft: PartDraft): boolean {
  if (isOtherCase(token.text)) {
    setField(draft, 'otherCase', token.text.toUpperCase(), token, `case ${token.text}`);
    return true;
  }
  const { candidates, said } = readCase(token.text);
  const [first, second] = candidates;
  if (first === undefined) return false;
  const isAlone = all.length === 1 && draft.spec.value === null;
  const asMark = valueCandidates(token.text).filter(
    ({ kind, value }) => kind === (draft.spec.kind ?? 'resistor') && value <= MARK_MOST_OHM,
  );
  const mark = asMark[0];
  if (isAlone && !said && mark !== undefined) {
    draft.questions.push({
      ...place(token),
      about: 'value',
      ask: `Is ${token.text} the case or what is printed on the part?`,
      choices: [
        { say: `case ${sayCase(first)}`, retype: `${token.text}in` },
        {
          say: `marked ${token.text}: ${sayPartValue(mark.value, mark.kind)}`,
          retype: typePartValue(mark.value, mark.kind),
        },
      ],
      source: 'case tables and IEC 60062, both seen second-hand',
    });
    return true;
  }
  if (second === undefined) {
    setField(draft, 'chipCase', first, token, `case ${sayCase(first)}`);
    return true;
  }
  draft.questions.push({
    ...place(token),
    about: 'case',
    ask: `Is ${token.text} the inch or the metric code?`,
    choices: [
      { say: `inch: ${first.lengthMm} x ${first.widthMm} mm`, retype: `${token.text}in` },
      { say: `metric: ${second.lengthMm} x ${second.widthMm} mm`, retype: `${token.text}M` },
    ],
    source: 'case tables, seen second-hand: both codes are in use',
  });
  draft.notes.push({ ...place(token), meaning: `case ${token.text}, inch or metric not known` });
  return true;
}

function takeUnit(token: PartToken, draft: PartDraft): boolean {
  // 10A, 96F and 22H are EIA-96 marks as well as amps, farads and henries: decided with the values.
  if (/^\d\d[AFH]$/.test(token.text)) return false;
  const read = readPartQuantity(token.text);
  if (read === null) return false;
  if (!read.ok) {
    const at = token.at + read.at;
    draft.faults.push({ at, end: at + 1, what: read.what, todo: read.todo });
    return true;
  }
  // 8205A is a type, not kiloamps.
  if (read.quantity.unit === 'A' && read.quantity.value >= 1000) return false;
  takeQuantity(read.quantity, read.doubt, token, draft);
  return true;
}

/** `R47` alone is 0.47 ohm (IEC 60062); beside another value it is a place on the board. */
function takeDesignator(token: PartToken, all: readonly PartToken[], draft: PartDraft): boolean {
  const kind = kindOfDesignator(token.text);
  if (kind === null || !/^[A-Z]{1,2}\d{1,5}[A-Z]?$/i.test(token.text)) return false;
  // A second one is a value: R5 R010.
  if (draft.places.designator !== undefined) return false;
  const isValueToo = kind === 'resistor' && valueCandidates(token.text).length > 0;
  const hasOther = all.some(
    (other) =>
      other !== token &&
      (valueCandidates(other.text).length > 0 || /ohms?$|Ω$/i.test(other.text)) &&
      readCase(other.text).candidates.length === 0,
  );
  if (isValueToo && !hasOther) return false;
  setField(draft, 'designator', token.text.toUpperCase(), token, `designator, a ${kind}`);
  implyKind(draft, kind, token, `Designator ${token.text.toUpperCase()}`);
  return true;
}
