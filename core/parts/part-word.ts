import type { PartKind, Technology } from './part-spec.ts';

/** What a plain word says of a part. */
export interface PartWord {
  readonly kind?: PartKind;
  readonly technology?: Technology;
  /** What sets it apart within its kind. */
  readonly variant?: string;
}

const WORDS: readonly (readonly [RegExp, PartWord])[] = [
  [/^(poly|polymer)$/i, { kind: 'capacitor', technology: 'polymer' }],
  [/^(ta|tant|tantalum)$/i, { kind: 'capacitor', technology: 'tantalum' }],
  [/^(ceramic|mlcc|cer)$/i, { kind: 'capacitor', technology: 'ceramic' }],
  [
    /^(electrolytic|elyt|elco|lytic|alu|al|alum|aluminium|aluminum)$/i,
    { kind: 'capacitor', technology: 'aluminium' },
  ],
  [/^(film)$/i, { kind: 'capacitor', technology: 'film' }],
  [/^(c|cap|caps|capacitor)$/i, { kind: 'capacitor' }],
  [/^(r|res|resistor|shunt)$/i, { kind: 'resistor' }],
  [/^(l|coil|inductor|choke)$/i, { kind: 'inductor' }],
  [/^(bead|ferrite|fb)$/i, { kind: 'bead' }],
  [/^(diode|rectifier)$/i, { kind: 'diode' }],
  [/^(schottky|shottky)$/i, { kind: 'diode', variant: 'Schottky' }],
  [/^(led)$/i, { kind: 'diode', variant: 'LED' }],
  [/^(zener)$/i, { kind: 'zener' }],
  [/^(tvs|suppressor)$/i, { kind: 'suppressor' }],
  [/^(mosfet|fet|transistor|bjt|jfet|igbt)$/i, { kind: 'transistor' }],
  [/^(n-?ch(annel)?|n-?mos(fet)?|n-?fet)$/i, { kind: 'transistor', variant: 'n-channel' }],
  [/^(p-?ch(annel)?|p-?mos(fet)?|p-?fet)$/i, { kind: 'transistor', variant: 'p-channel' }],
  [/^(npn)$/i, { kind: 'transistor', variant: 'NPN' }],
  [/^(pnp)$/i, { kind: 'transistor', variant: 'PNP' }],
  [/^(fuse)$/i, { kind: 'fuse' }],
  [/^(polyfuse|pptc|resettable)$/i, { kind: 'fuse', variant: 'resettable' }],
  [/^(thermistor)$/i, { kind: 'thermistor' }],
  [/^(ntc)$/i, { kind: 'thermistor', variant: 'NTC' }],
  [/^(ptc)$/i, { kind: 'thermistor', variant: 'PTC' }],
  [/^(mov|varistor)$/i, { kind: 'varistor' }],
  [/^(crystal|xtal)$/i, { kind: 'crystal' }],
  [/^(resonator)$/i, { kind: 'crystal', variant: 'resonator' }],
  [/^(osc|oscillator|tcxo)$/i, { kind: 'crystal', variant: 'oscillator' }],
  [
    /^(chip|ic|ldo|regulator|converter|pmic|mcu|driver|controller|eeprom|flash|opamp|op-amp|buffer)$/i,
    { kind: 'chip' },
  ],
  [/^(connector|socket|header|jack|fpc|ffc)$/i, { kind: 'connector' }],
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
    ) ||
    /^HC-?49[\w/-]*$/i.test(word) ||
    /^(3528|6032|7343|7360)(-\d\d)?$/.test(word)
  );
}
