import type { PartKind, Technology } from './part-spec.ts';

/** What a plain word says of a part. */
export interface PartWord {
  readonly kind?: PartKind;
  readonly technology?: Technology;
}

const WORDS: readonly (readonly [RegExp, PartWord])[] = [
  [/^(poly|polymer)$/i, { kind: 'capacitor', technology: 'polymer' }],
  [/^(ta|tant|tantalum)$/i, { kind: 'capacitor', technology: 'tantalum' }],
  [/^(ceramic|mlcc|cer)$/i, { kind: 'capacitor', technology: 'ceramic' }],
  [
    /^(electrolytic|elco|alu|alum|aluminium|aluminum)$/i,
    { kind: 'capacitor', technology: 'aluminium' },
  ],
  [/^(film)$/i, { kind: 'capacitor', technology: 'film' }],
  [/^(c|cap|capacitor)$/i, { kind: 'capacitor' }],
  [/^(r|res|resistor|shunt)$/i, { kind: 'resistor' }],
  [/^(l|coil|inductor|choke)$/i, { kind: 'inductor' }],
  [/^(bead|ferrite|fb)$/i, { kind: 'bead' }],
  [/^(diode|schottky|rectifier)$/i, { kind: 'diode' }],
  [/^(zener)$/i, { kind: 'zener' }],
  [/^(tvs|suppressor)$/i, { kind: 'suppressor' }],
  [/^(mosfet|fet|transistor|bjt|nmos|pmos|n-?ch(annel)?|p-?ch(annel)?)$/i, { kind: 'transistor' }],
  [/^(fuse)$/i, { kind: 'fuse' }],
  [/^(crystal|xtal|resonator)$/i, { kind: 'crystal' }],
  [/^(chip|ic)$/i, { kind: 'chip' }],
  [/^(connector|socket)$/i, { kind: 'connector' }],
];

/** Words that add nothing to the specification but belong in a trade sentence. */
const FILLERS = /^(tol|tolerance|rated|rating|smd|case|size|low|dc|max|marked|code)$/i;

export function readPartWord(word: string): PartWord | null {
  return WORDS.find(([pattern]) => pattern.test(word))?.[1] ?? null;
}

export function isFillerWord(word: string): boolean {
  return FILLERS.test(word);
}

/** Cases that are not two-terminal chips, and tantalum bodies by their metric size. */
export function isOtherCase(word: string): boolean {
  return (
    /^(SOT|SOD|SOIC|SOP|SO|MSOP|TSSOP|SSOP|QFN|DFN|BGA|LGA|WSON|WLCSP|TO|DO|DPAK|D2PAK|SMA|SMB|SMC|MELF|MINIMELF)-?\d*[A-Z]*(-\d+)?$/i.test(
      word,
    ) || /^(3528|6032|7343|7360)(-\d\d)?$/.test(word)
  );
}
