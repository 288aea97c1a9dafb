import { readEia96 } from './eia-96.ts';
import { implyKind, type PartDraft, place, setField } from './part-draft.ts';
import { readPartQuantity } from './part-quantity.ts';
import type { PartKind } from './part-spec.ts';
import type { PartToken } from './part-token.ts';
import { sayPartValue, typePartValue } from './say-part-value.ts';
import { takeQuantity } from './take-quantity.ts';
import { sayTolerance, toleranceOfLetter } from './tolerance-letters.ts';
import { type ValueCandidate, valueCandidates } from './value-candidates.ts';

/** Two readings closer than this in weight are asked about. */
const ASK_WITHIN = 0.3;
const ASK_FROM = 0.5;
const CODED: readonly PartKind[] = ['resistor', 'capacitor', 'inductor'];

/**
 * Takes the words that hold a value without a unit, now that everything else said what the part is;
 * a lone letter behind a value is its tolerance; on chips and transistors a word is the type.
 */
export function takeValueWords(words: readonly PartToken[], draft: PartDraft): void {
  guessKind(words, draft);
  // Milliohms behind a capacitor wait until its value is known.
  const isMilli = ({ text }: PartToken) => /^\d*[.,]?\d+m$/.test(text);
  const ordered = [...words.filter((word) => !isMilli(word)), ...words.filter(isMilli)];
  for (const token of ordered) {
    const { kind } = draft.spec;
    if (/^[B-DF-HJKMZ]$/.test(token.text) && takeToleranceLetter(token, draft)) continue;
    const unit = readPartQuantity(token.text);
    const isKiloamps =
      unit?.ok === true && unit.quantity.unit === 'A' && unit.quantity.value >= 1000;
    if (unit?.ok === true && !isKiloamps && wantsUnit(token.text, unit.quantity.unit, kind)) {
      takeQuantity(unit.quantity, unit.doubt, token, draft);
      continue;
    }
    if (kind === 'crystal' && takeHertz(token, draft)) continue;
    if (kind === 'crystal' && /^\d+p$/i.test(token.text)) {
      draft.notes.push({ ...place(token), meaning: `load ${token.text}F` });
      continue;
    }
    if (isMilli(token) && draft.spec.value !== null && takeMilliohms(token, draft)) continue;
    const isBody = /^0\d{3}$/.test(token.text) || (/^\d{4,6}$/.test(token.text) && isBodied(kind));
    if (isBody && draft.spec.value !== null) {
      setField(draft, 'otherCase', token.text, token, `body ${token.text}`);
      continue;
    }
    const wanted = kind === 'bead' || kind === 'thermistor' ? 'resistor' : kind;
    const candidates = valueCandidates(token.text).filter(
      (candidate) =>
        (wanted === null || candidate.kind === wanted) &&
        (wanted === kind || candidate.by !== 'EIA-96 mark'),
    );
    const best = candidates[0];
    if (best !== undefined) takeValue(token, best, candidates, draft);
    else if (isType(token.text, kind, draft)) {
      setField(draft, 'marking', token.text.toUpperCase(), token, `marked ${token.text}`);
    } else refuse(token, draft);
  }
}

/** Crystals, coils and moulded parts are named by their body in tenths of a millimetre. */
const isBodied = (kind: PartKind | null): boolean =>
  kind === 'crystal' || kind === 'inductor' || kind === 'capacitor';

/** `9m` beside a capacitor is its ESR, beside a coil its DC resistance: the value is known already. */
function takeMilliohms(token: PartToken, draft: PartDraft): boolean {
  const { kind } = draft.spec;
  if (kind !== 'capacitor' && kind !== 'inductor' && kind !== 'bead') return false;
  const text = `${token.text}ohm`;
  const read = readPartQuantity(text);
  if (read?.ok !== true) return false;
  takeQuantity(read.quantity, null, { ...token, text }, draft);
  return true;
}

/** `25M` and `32k768` on a crystal are hertz. */
function takeHertz(token: PartToken, draft: PartDraft): boolean {
  const coded = /^(\d+)([kM])(\d+)$/i.exec(token.text);
  const text = coded === null ? token.text : `${coded[1]}.${coded[3]}${coded[2]}`;
  if (!/^\d+(?:[.,]\d+)?[kM]$/i.test(text)) return false;
  const read = readPartQuantity(`${text.replace('m', 'M')}Hz`);
  if (read?.ok !== true) return false;
  takeQuantity(read.quantity, null, token, draft);
  return true;
}

/** Ratings point at a kind when nothing else did. */
function guessKind(words: readonly PartToken[], draft: PartDraft): void {
  // A rating alone may be anything's, and beside a type's name it is that type's.
  if (draft.spec.kind !== null || words.length === 0) return;
  if (words.some(({ text }) => isType(text, null, draft))) return;
  const { ratedV, ratedA, ratedW, places } = { ...draft.spec, places: draft.places };
  const span = places.ratedW ?? places.ratedV ?? places.ratedA;
  if (span === undefined) return;
  if (ratedW !== null) implyKind(draft, 'resistor', span, 'A power rating');
  else if (ratedV !== null && ratedA === null) {
    implyKind(draft, 'capacitor', span, 'A voltage rating');
  } else if (ratedA !== null && ratedV === null) {
    implyKind(draft, 'inductor', span, 'A current rating');
  }
}

/** 10A is amps on a fuse or a coil, 22H henries on a coil; otherwise an EIA-96 mark. */
function wantsUnit(text: string, unit: string, kind: PartKind | null): boolean {
  if (!/^\d\d[AFH]$/.test(text)) return true;
  if (unit === 'A') return kind !== null && kind !== 'resistor';
  if (unit === 'H') return kind === 'inductor';
  return unit === 'F' && kind === 'capacitor';
}

function takeValue(
  token: PartToken,
  best: ValueCandidate,
  all: readonly ValueCandidate[],
  draft: PartDraft,
): void {
  const isKindOpen = draft.spec.kind === null;
  const rivals = all.filter(
    (other) => other.weight >= ASK_FROM && best.weight - other.weight < ASK_WITHIN,
  );
  const hadValue = draft.spec.value !== null;
  setField(
    draft,
    'value',
    best.value,
    token,
    `${sayPartValue(best.value, best.kind)} (${best.by})`,
  );
  if (hadValue) return;
  if (best.tolerance !== null) {
    setField(draft, 'tolerance', best.tolerance, token, sayTolerance(best.tolerance));
  }
  if (draft.spec.kind === null) implyKind(draft, best.kind, token, 'The value');
  const isAmps = isKindOpen && /^\d\dA$/.test(token.text);
  if (rivals.length > 1 || isAmps) {
    draft.questions.push({
      ...place(token),
      about: isKindOpen ? 'kind' : 'value',
      ask: `${token.text} can be read in more than one way. Which is it?`,
      choices: [
        ...(rivals.length > 1 ? rivals : [best]).map((choice) => ({
          say: `${sayPartValue(choice.value, choice.kind)} ${choice.kind} (${choice.by})`,
          retype: retyped(choice),
        })),
        ...(isAmps ? [{ say: 'a fuse or coil rating in amps', retype: `${token.text} fuse` }] : []),
      ],
      source: 'IEC 60062, EIA-198 and EIA-96, seen second-hand; how usual is common practice',
    });
  }
}

function retyped(choice: ValueCandidate): string {
  const value = typePartValue(choice.value, choice.kind);
  if (choice.tolerance === null || choice.tolerance.in === 'farads') return value;
  const { low, high } = choice.tolerance;
  return -low === high ? `${value} ${high}%` : `${value} +${high}/${low}%`;
}

function takeToleranceLetter(token: PartToken, draft: PartDraft): boolean {
  const { kind, value } = draft.spec;
  if (kind !== 'resistor' && kind !== 'capacitor' && kind !== 'inductor') return false;
  const tolerance = toleranceOfLetter(token.text, kind, value);
  if (tolerance === null) return false;
  setField(draft, 'tolerance', tolerance, token, `${sayTolerance(tolerance)} (letter)`);
  return true;
}

/** A type's name: on chips and diodes any word, on a part of no kind yet letters and then digits. */
function isType(text: string, kind: PartKind | null, draft: PartDraft): boolean {
  if (kind !== null) return !CODED.includes(kind) && /^[\w.+-]{2,}$/.test(text);
  return (
    draft.spec.value === null &&
    (/^[A-Z]{2,}\d[\w.+-]*$/i.test(text) || /^(\d{4,}[A-Z]|\d{2}[A-Z]\d{2,}\w*)$/i.test(text)) &&
    valueCandidates(text).length === 0
  );
}

function refuse(token: PartToken, draft: PartDraft): void {
  const { text } = token;
  const oh = /[Oo]/.exec(text);
  if (oh !== null && valueCandidates(text.replace(/[Oo]/g, '0')).length > 0) {
    const at = token.at + oh.index;
    draft.faults.push({
      at,
      end: at + 1,
      what: 'This is the letter O where a zero belongs',
      todo: `Type ${text.replace(/[Oo]/g, '0')}.`,
    });
    return;
  }
  const eia = /^\d\d[A-Z]$/.test(text) ? readEia96(text) : null;
  if (eia?.ok === false) {
    const at = token.at + eia.at;
    draft.faults.push({ at, end: token.end, what: eia.what, todo: eia.todo });
    return;
  }
  if (/^\d+([.,]\d+)?$/.test(text)) {
    draft.faults.push({
      at: token.end,
      end: token.end,
      what: `${text} has no unit`,
      todo: 'Say which: 47p, 47n, 47u, 47R, 47k.',
    });
    return;
  }
  // The longest start that reads as a number or a value shows where the trouble begins.
  let good = /^[±+]?\d*[.,]?\d*/.exec(text)?.[0].length ?? 0;
  for (let length = good + 1; length < text.length; length++) {
    const start = text.slice(0, length);
    if (valueCandidates(start).length > 0 || readPartQuantity(start)?.ok === true) good = length;
  }
  const at = token.at + Math.min(good, text.length - 1);
  const shown = good > 0 ? `"${text.slice(good)}" after ${text.slice(0, good)}` : `"${text}"`;
  draft.faults.push({
    at,
    end: token.end,
    what: `${shown} is not understood`,
    todo: 'Type a value like 10u, 4R7 or 104K, a rating like 25V, a class like X5R, a case like 1206.',
  });
}
