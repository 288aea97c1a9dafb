import { implyKind, type PartDraft, place, setField } from './part-draft.ts';
import type { PartToken } from './part-token.ts';
import { readPartWord } from './part-word.ts';

/** Moulded tantalum and polymer bodies by letter, EIA 535BAAC, from memory: millimetres times ten. */
const MOULDED: Readonly<Record<string, string>> = {
  A: '3216-18',
  B: '3528-21',
  C: '6032-28',
  D: '7343-31',
  E: '7343-43',
  V: '7343-20',
};

const COLOURS =
  /^(red|green|blue|white|yellow|amber|orange|pink|infrared|ir|uv|warm|cold|bicolou?r)$/i;

/** Adjectives of the trade that change nothing of the figures: said, and noted. */
const REMARKS =
  /^(fast|slow|slow-?blow|time-?lag|quick|shielded|unshielded|power|high|voltage|current|sense|sensing|array|network|dual|single|quad|jumper|link|zero|thick|thin|metal|wire-?wound|carbon|axial|radial|tht|smt|general|purpose|common|mode|bipolar|np|polarized|reel|used|salvaged|similar|or|better|like|type|style|approx|about|ca|new|esd|bidirectional|unidirectional|bi|uni|logic|level|automotive|aec-q200|rated|load|each|body|dcr|rdc|rds|rdson|isat|irms|vf|pot|potentiometer|trimmer|preset|lens|clear|dip)$/i;

/**
 * Takes what several words, or a word and what the part is, say together: `B case`, `thick film`,
 * `chip resistor`, an LED and its colour, `105C` on an electrolytic, `25ppm`, `2000h`, `8x10.5mm`,
 * an X2 beside a film capacitor, a diode's type. Returns the words that are left.
 */
export function takePhrases(tokens: readonly PartToken[], draft: PartDraft): readonly PartToken[] {
  const kinds = tokens.flatMap(({ text }) => readPartWord(text)?.kind ?? []);
  const isCapacitor = isKind(tokens, draft, 'capacitor', /\d[pnuµμ]?F$|^\d*[.,]?\d+[pnuµμ]\d*$/iu);
  const isBead =
    tokens.some(({ text }) => /^\d+(?:[.,]\d+)?(?:[kM]?Hz)$/i.test(text)) &&
    tokens.some(({ text }) => /^\d+(?:[.,]\d+)?(?:R|ohms?|Ω)$/iu.test(text));
  if (isBead && draft.spec.kind === null && !kinds.includes('crystal')) {
    draft.spec.kind = 'bead';
  }
  const used = new Set<PartToken>();
  const left = tokens.filter((token, i) => {
    if (used.has(token)) return false;
    const { text } = token;
    const before = tokens[i - 1]?.text ?? '';
    const after = tokens[i + 1];
    const note = (meaning: string): boolean => {
      draft.notes.push({ ...place(token), meaning });
      return false;
    };
    if (/^[A-Z]\d?$/i.test(text) && /^case$/i.test(after?.text ?? '')) {
      used.add(after!);
      return takeMoulded(token, text, draft);
    }
    if (/^(case|size)$/i.test(text) && after !== undefined && /^[A-Z]\d?$/i.test(after.text)) {
      used.add(after);
      return takeMoulded(after, after.text, draft);
    }
    if (
      /^film$/i.test(text) &&
      (/^(thick|thin|metal|carbon)$/i.test(before) || has(kinds, 'resistor'))
    ) {
      return note(text);
    }
    if (/^chip$/i.test(text) && kinds.some((kind) => kind !== 'chip')) return note('chip case');
    if (/^ferrite$/i.test(text) && has(kinds, 'inductor')) return note('ferrite core');
    if (/^zero$/i.test(text) && /^ohms?$/i.test(after?.text ?? '')) {
      used.add(after!);
      implyKind(draft, 'resistor', token, 'Zero ohm');
      setField(draft, 'value', 0, token, '0 Ω');
      return false;
    }
    if (text === 'C' && /^\d*[.,]?\d*p\d*F?$/i.test(before)) {
      const small = { low: -0.25e-12, high: 0.25e-12, in: 'farads' as const };
      setField(draft, 'tolerance', small, token, '±0.25 pF (letter)');
      return false;
    }
    const isFuse = has(kinds, 'fuse') || draft.spec.kind === 'fuse';
    if (isFuse && /^(T|F|FF|TT|M)$/.test(text)) return note(`speed ${text}`);
    if (has(kinds, 'transistor') && /^[NP]$/i.test(text)) {
      setField(draft, 'variant', `${text.toLowerCase()}-channel`, token, `${text}-channel`);
      return false;
    }
    const varistor = /^(\d{2})D(\d{2})(\d)K?$/i.exec(text);
    if (varistor !== null) return !takeVaristor(token, varistor, draft);
    if (COLOURS.test(text)) return note(text.toLowerCase());
    if (/^(4000|[1-9]\d{2,4})h(rs?|ours)?$/i.test(text) && isCapacitor) return note(`life ${text}`);
    if (/^(70|85|105|125|135|150)\s*°?C$/i.test(text) && isCapacitor) {
      return note(`up to ${/^\d+/.exec(text)?.[0]} °C`);
    }
    const isMainsRated = tokens.some((one) => /^\d+VAC$/i.test(one.text));
    if (/^[XY][12]$/i.test(text) && isCapacitor && (i > 0 || isMainsRated)) {
      return note(`safety class ${text.toUpperCase()}: only the same class may replace it`);
    }
    const ppm = /^±?(\d+(?:[.,]\d+)?)ppm(?:\/?°?[CK])?$/iu.exec(text);
    if (ppm !== null) return note(`${ppm[1]} ppm`);
    const count = /^(\d{1,2})x$/i.exec(text);
    if (count !== null) return note(`${count[1]} of them`);
    const body = /^\d+(?:\.\d+)?x\d+(?:\.\d+)?(?:x\d+(?:\.\d+)?)?(?:mm)?$/i.test(text);
    if (body) {
      setField(draft, 'otherCase', text.toUpperCase().replace(/MM$/, ''), token, `body ${text}`);
      return false;
    }
    if (/^\d+(?:\.\d+)?mm$/i.test(text)) return note(`${text} pitch or height`);
    const isThermistor = has(kinds, 'thermistor') || draft.spec.kind === 'thermistor';
    if (/^B[=]?[2-5]\d{3}K?$/i.test(text) || (isThermistor && /^[2-5]\d{3}K?$/i.test(text))) {
      implyKind(draft, 'thermistor', token, 'A B value');
      return note(`B value ${text.replace(/^B/i, '')}`);
    }
    if (/^\d*[.,]?\d+[kKM]?(?:ohms?|R|Ω)$/iu.test(text) && isCrystalEsr(tokens, i))
      return note(`ESR ${text}`);
    if (REMARKS.test(text)) return note(text.toLowerCase());
    return !takeType(token, draft);
  });
  return left;
}

function isKind(
  tokens: readonly PartToken[],
  draft: PartDraft,
  kind: 'capacitor',
  value: RegExp,
): boolean {
  return (
    draft.spec.kind === kind ||
    (draft.spec.kind === null &&
      tokens.some(({ text }) => readPartWord(text)?.kind === kind || value.test(text)))
  );
}

const has = <T>(list: readonly T[], one: T): boolean => list.includes(one);

function isCrystalEsr(tokens: readonly PartToken[], i: number): boolean {
  return (
    tokens.some(({ text }) => /^\d+(?:[.,]\d+)?[kM]?Hz$/i.test(text)) &&
    (/^ESR$/i.test(tokens[i - 1]?.text ?? '') || /^ESR$/i.test(tokens[i + 1]?.text ?? ''))
  );
}

function takeMoulded(token: PartToken, letter: string, draft: PartDraft): boolean {
  const code = MOULDED[letter.toUpperCase()];
  const said = `case ${letter.toUpperCase()}`;
  setField(
    draft,
    'otherCase',
    code ?? said.toUpperCase(),
    token,
    code === undefined ? said : `${said} (${code})`,
  );
  return false;
}

/** `10D471K`: the disc in millimetres and the varistor volts in digits; common practice, no source. */
function takeVaristor(token: PartToken, mark: RegExpExecArray, draft: PartDraft): boolean {
  const volts = Number(mark[2]) * 10 ** Number(mark[3]);
  implyKind(draft, 'varistor', token, `The type ${token.text}`);
  setField(draft, 'value', volts, token, `${volts} V varistor, disc ${mark[1]} mm`);
  return true;
}

/** Types that name their kind: JEDEC's 1N and 2N, and the families of suppressors. */
function takeType(token: PartToken, draft: PartDraft): boolean {
  const { text } = token;
  const kind = /^1N\d{2,5}[A-Z]*$/i.test(text)
    ? 'diode'
    : /^2N\d{3,5}[A-Z]*$/i.test(text)
      ? 'transistor'
      : /^(1\.5|3|5|15|30)K[EP]A?(\d|$)|^P[46]K?E(\d|$)|^(P[46])?SM[ABCF]J?\d/i.test(text)
        ? 'suppressor'
        : null;
  if (kind === null) return false;
  implyKind(draft, kind, token, `The type ${text}`);
  setField(draft, 'marking', text.toUpperCase(), token, `type ${text.toUpperCase()}, a ${kind}`);
  return true;
}
