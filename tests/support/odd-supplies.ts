import type { Answer } from './table-link.ts';

/** What a supply in a test is set to and what hangs on it. */
export interface Feeding {
  setV: number;
  limitA: number;
  isOn: boolean;
  loadOhm: number;
}

export const feeding = (part: Partial<Feeding> = {}): Feeding => ({
  setV: 5,
  limitA: 1,
  isOn: false,
  loadOhm: 50,
  ...part,
});

/** Ohm's law with a current limit, 2.5 % off in constant current as a real one was seen to be. */
export function fed({ setV, limitA, isOn, loadOhm }: Feeding) {
  if (!isOn) return { volts: 0.003, amps: -0.0002, mode: 'off' as const };
  if (setV / loadOhm <= limitA) return { volts: setV, amps: setV / loadOhm, mode: 'cv' as const };
  const amps = limitA * 0.975;
  return { volts: amps * loadOhm, amps, mode: 'cc' as const };
}

type Table = readonly (readonly [RegExp, Answer])[];

/** An error queue with its answers. */
export function errorQueue() {
  const entries: string[] = [];
  return {
    push: (entry: string) => {
      entries.push(entry);
      return null;
    },
    row: [/^:?SYST(EM)?:ERR(OR)?\?$/i, () => entries.shift() ?? '0,"No error"'] as const,
  };
}

/** Codes that a register tells regulation with: what it says in constant volts and current. */
export interface Coding {
  readonly ask: RegExp;
  readonly cv: number;
  readonly cc: number;
}

/**
 * The SCPI of a supply in one form of header: `{c}` in it stands where the channel's suffix would
 * be and `{l}` where its channel list would.
 */
export function scpiTable(
  state: Feeding,
  form: { suffix?: string; list?: string; coding?: Coding; mode?: boolean; colon?: boolean } = {},
): { table: Table; errors: ReturnType<typeof errorQueue> } {
  const errors = errorQueue();
  const suffix = form.suffix ?? '';
  const list = form.list ?? '';
  const colon = form.colon === false ? '' : ':?';
  const ask = (header: string, more = '') =>
    new RegExp(
      `^${colon}${header.replace('#', suffix)}\\?${more === '' && list !== '' ? ` ${list}` : more}$`,
      'i',
    );
  const set = (header: string) =>
    new RegExp(
      `^${colon}${header.replace('#', suffix)} ([-+.\\dE]+)${list === '' ? '' : `,${list}`}$`,
      'i',
    );
  const root = suffix === '' ? '(?:SOUR(?:CE)?:)?' : 'SOUR#:';
  const max = list === '' ? ' MAX' : ` MAX,${list}`;
  const rows: (readonly [RegExp, Answer])[] = [
    [/^\*IDN\?$/i, 'BENCHWORKS,ODD-ONE,000021,2.0'],
    errors.row,
    [ask('MEAS#:VOLT'), () => fed(state).volts.toFixed(4)],
    [ask('MEAS#:CURR'), () => fed(state).amps.toFixed(5)],
    [ask(`${root}VOLT`), () => state.setV.toFixed(3)],
    [ask(`${root}CURR`), () => state.limitA.toFixed(3)],
    [ask(`${root}VOLT`, max), '30.000'],
    [ask(`${root}CURR`, max), '5.000'],
    [
      set(`${root}VOLT`),
      ([, value]) => {
        state.setV = Number(value);
        return null;
      },
    ],
    [
      set(`${root}CURR`),
      ([, value]) => {
        state.limitA = Number(value);
        return null;
      },
    ],
    [ask('OUTP#'), () => (state.isOn ? '1' : '0')],
    [
      new RegExp(`^${colon}OUTP${suffix} (ON|OFF)${list === '' ? '' : `,${list}`}$`, 'i'),
      ([, value]) => {
        state.isOn = value!.toUpperCase() === 'ON';
        return null;
      },
    ],
  ];
  const { coding } = form;
  if (coding !== undefined) {
    const told = () => {
      const { mode } = fed(state);
      return String(mode === 'off' ? 0 : coding[mode]);
    };
    rows.push([coding.ask, told]);
  }
  if (form.mode === true)
    rows.push([/^:?OUTP:MODE\?$/i, () => `"${fed(state).mode.toUpperCase()}"`]);
  return { table: rows, errors };
}
