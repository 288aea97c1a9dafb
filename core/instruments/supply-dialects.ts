import type { SupplyDialect } from './supply-dialect.ts';

const plain: SupplyDialect = {
  key: 'plain',
  about: 'SCPI-1999 without channels',
  channel: { form: 'none', number: 1 },
  measureVolts: 'MEAS:VOLT?',
  measureAmps: 'MEAS:CURR?',
  measureBoth: null,
  setVolts: 'VOLT {value}',
  setAmps: 'CURR {value}',
  askSetVolts: 'VOLT?',
  askSetAmps: 'CURR?',
  askApplied: 'APPL?',
  askMaxVolts: 'VOLT? MAX',
  askMaxAmps: 'CURR? MAX',
  outputOn: 'OUTP ON',
  outputOff: 'OUTP OFF',
  askOutput: 'OUTP?',
  selectChannel: 'INST:NSEL {channel}',
  askChannel: 'INST:NSEL?',
  takeRemote: 'SYST:REM',
  regulation: { by: 'inferred' },
  compound: 'separate',
  errorQueue: true,
  pauseMs: 0,
};

const channelSuffix: SupplyDialect = {
  ...plain,
  key: 'channel-suffix',
  about: 'SCPI with the channel as a number in the header',
  channel: { form: 'suffix', number: 1 },
  measureVolts: 'MEAS{channel}:VOLT?',
  measureAmps: 'MEAS{channel}:CURR?',
  setVolts: 'SOUR{channel}:VOLT {value}',
  setAmps: 'SOUR{channel}:CURR {value}',
  askSetVolts: 'SOUR{channel}:VOLT?',
  askSetAmps: 'SOUR{channel}:CURR?',
  askApplied: 'APPL? CH{channel}',
  askMaxVolts: 'SOUR{channel}:VOLT? MAX',
  askMaxAmps: 'SOUR{channel}:CURR? MAX',
  outputOn: 'OUTP{channel} ON',
  outputOff: 'OUTP{channel} OFF',
  askOutput: 'OUTP{channel}?',
  selectChannel: null,
  askChannel: null,
};

const channelList: SupplyDialect = {
  ...plain,
  key: 'channel-list',
  about: 'SCPI with a channel list after each header',
  channel: { form: 'list', number: 1 },
  measureVolts: 'MEAS:VOLT? (@{channel})',
  measureAmps: 'MEAS:CURR? (@{channel})',
  setVolts: 'VOLT {value},(@{channel})',
  setAmps: 'CURR {value},(@{channel})',
  askSetVolts: 'VOLT? (@{channel})',
  askSetAmps: 'CURR? (@{channel})',
  askApplied: null,
  askMaxVolts: 'VOLT? MAX,(@{channel})',
  askMaxAmps: 'CURR? MAX,(@{channel})',
  outputOn: 'OUTP ON,(@{channel})',
  outputOff: 'OUTP OFF,(@{channel})',
  askOutput: 'OUTP? (@{channel})',
  selectChannel: null,
  askChannel: null,
};

/** SCPI with the channel as a word after the header. Form from memory. */
const channelWord: SupplyDialect = {
  ...plain,
  key: 'channel-word',
  about: 'SCPI with the channel as a word, CH1, after or before the header',
  channel: { form: 'suffix', number: 1 },
  measureVolts: 'MEAS:VOLT? CH{channel}',
  measureAmps: 'MEAS:CURR? CH{channel}',
  setVolts: 'CH{channel}:VOLT {value}',
  setAmps: 'CH{channel}:CURR {value}',
  askSetVolts: 'CH{channel}:VOLT?',
  askSetAmps: 'CH{channel}:CURR?',
  askApplied: 'APPL? CH{channel}',
  askMaxVolts: null,
  askMaxAmps: null,
  outputOn: 'OUTP CH{channel},ON',
  outputOff: 'OUTP CH{channel},OFF',
  askOutput: 'OUTP? CH{channel}',
  selectChannel: null,
  askChannel: null,
};

const allInOne: SupplyDialect = {
  ...plain,
  key: 'all-in-one',
  about: 'SCPI whose only measurement is volts, amps and watts in one answer',
  measureVolts: null,
  measureAmps: null,
  measureBoth: 'MEAS:ALL?',
};

/** No SCPI: a letter, the channel and a value. Form from memory; its replies repeat the header. */
const letters: SupplyDialect = {
  ...plain,
  key: 'letters',
  about: 'Not SCPI: V1O? and I1O? measure, V1 and I1 set, OP1 switches',
  channel: { form: 'suffix', number: 1 },
  measureVolts: 'V{channel}O?',
  measureAmps: 'I{channel}O?',
  setVolts: 'V{channel} {value}',
  setAmps: 'I{channel} {value}',
  askSetVolts: 'V{channel}?',
  askSetAmps: 'I{channel}?',
  askApplied: null,
  askMaxVolts: null,
  askMaxAmps: null,
  outputOn: 'OP{channel} 1',
  outputOff: 'OP{channel} 0',
  askOutput: 'OP{channel}?',
  selectChannel: null,
  askChannel: null,
  takeRemote: null,
  errorQueue: false,
};

/** No SCPI: low-cost supplies whose replies often have no end. Form from memory. */
const outAndSet: SupplyDialect = {
  ...letters,
  key: 'out-and-set',
  about: 'Not SCPI: VOUT1? and IOUT1? measure, VSET1: and ISET1: set, OUT1 and OUT0 switch',
  measureVolts: 'VOUT{channel}?',
  measureAmps: 'IOUT{channel}?',
  setVolts: 'VSET{channel}:{value}',
  setAmps: 'ISET{channel}:{value}',
  askSetVolts: 'VSET{channel}?',
  askSetAmps: 'ISET{channel}?',
  outputOn: 'OUT1',
  outputOff: 'OUT0',
  askOutput: null,
};

/** The dialects that a supply is tried with, in order. */
export const SUPPLY_DIALECTS: readonly SupplyDialect[] = [
  plain,
  channelSuffix,
  channelList,
  channelWord,
  allInOne,
  letters,
  outAndSet,
];

type Forms<K extends keyof SupplyDialect> = readonly Pick<SupplyDialect, K>[];

/** Other ways to set and to ask set-points, tried where the dialect's own are not answered. */
export const SETPOINT_FORMS: Forms<
  'setVolts' | 'setAmps' | 'askSetVolts' | 'askSetAmps' | 'askMaxVolts' | 'askMaxAmps'
> = ['SOUR:#', 'SOUR{channel}:#', 'CH{channel}:#', 'SOUR:#:LEV:IMM:AMPL'].map((form) => {
  const volts = form.replace('#', 'VOLT');
  const amps = form.replace('#', 'CURR');
  return {
    setVolts: `${volts} {value}`,
    setAmps: `${amps} {value}`,
    askSetVolts: `${volts}?`,
    askSetAmps: `${amps}?`,
    askMaxVolts: `${volts}? MAX`,
    askMaxAmps: `${amps}? MAX`,
  };
});

/** Other ways to switch and to ask the output. */
export const OUTPUT_FORMS: Forms<'outputOn' | 'outputOff' | 'askOutput'> = [
  ...['OUTP:STAT', 'OUTP{channel}', 'OUTP{channel}:STAT', 'CH{channel}:OUTP'].map((header) => ({
    outputOn: `${header} ON`,
    outputOff: `${header} OFF`,
    askOutput: `${header}?`,
  })),
  {
    outputOn: 'OUTP CH{channel},ON',
    outputOff: 'OUTP CH{channel},OFF',
    askOutput: 'OUTP? CH{channel}',
  },
];

/** Ways to select a channel and to ask which one is. */
export const SELECT_FORMS: Forms<'selectChannel' | 'askChannel'> = [
  { selectChannel: 'INST:NSEL {channel}', askChannel: 'INST:NSEL?' },
  { selectChannel: 'INST CH{channel}', askChannel: 'INST?' },
];

/** Measuring volts and amps in one answer, by whether the channel is a suffix. */
export const MEASURE_BOTH: readonly string[] = [
  'MEAS:ALL?',
  'MEAS{channel}:ALL?',
  'MEAS:ALL? CH{channel}',
];

/**
 * Ways to take remote control, the mildest first: the last one locks the supply's own keys, and is
 * sent only to a supply that knows none of the others.
 */
export const TAKE_REMOTE: readonly string[] = ['SYST:REM', 'SYST:COMM:RLST REM', 'SYST:RWL'];

/** Queries that tell the mode in a word, as supplies have them. */
export const MODE_QUERIES: readonly string[] = ['OUTP:MODE?', 'OUTP:CVCC?', 'STAT:MODE?'];

/**
 * Registers that tell it in bits, each with the codings that it is found with: the four
 * conventions that bench-supply manuals print, two of which contradict the other two.
 */
export const REGISTER_CODINGS: readonly {
  readonly ask: string;
  readonly codings: readonly { readonly cvMask: number; readonly ccMask: number }[];
}[] = [
  {
    ask: 'STAT:QUES:COND?',
    codings: [
      { cvMask: 2, ccMask: 1 },
      { cvMask: 1, ccMask: 2 },
    ],
  },
  {
    ask: 'STAT:OPER:COND?',
    codings: [
      { cvMask: 256, ccMask: 1024 },
      { cvMask: 1, ccMask: 2 },
    ],
  },
  {
    ask: 'STAT:QUES:INST:ISUM{channel}:COND?',
    codings: [
      { cvMask: 2, ccMask: 1 },
      { cvMask: 1, ccMask: 2 },
    ],
  },
];
