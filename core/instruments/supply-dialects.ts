import type { SupplyDialect } from './supply-dialect.ts';

/** SCPI-1999 headers with a leading colon, so that no earlier header can change their meaning. */
const plain: SupplyDialect = {
  key: 'plain',
  about: 'SCPI-1999 without channels',
  channel: { form: 'none', number: 1 },
  measureVolts: ':MEAS:VOLT?',
  measureAmps: ':MEAS:CURR?',
  setVolts: ':VOLT {value}',
  setAmps: ':CURR {value}',
  askSetVolts: ':VOLT?',
  askSetAmps: ':CURR?',
  askMaxVolts: ':VOLT? MAX',
  askMaxAmps: ':CURR? MAX',
  outputOn: ':OUTP ON',
  outputOff: ':OUTP OFF',
  askOutput: ':OUTP?',
  selectChannel: null,
  askChannel: null,
  takeRemote: ':SYST:REM',
  regulation: { by: 'inferred' },
  compound: 'separate',
  errorQueue: true,
  pauseMs: 0,
};

const bare = (message: string | null) => message?.replace(/^:/, '') ?? null;

/** The same for parsers that do not take a leading colon. */
const noColon: SupplyDialect = {
  ...plain,
  key: 'no-colon',
  about: 'SCPI headers without a leading colon',
  measureVolts: 'MEAS:VOLT?',
  measureAmps: 'MEAS:CURR?',
  setVolts: bare(plain.setVolts),
  setAmps: bare(plain.setAmps),
  askSetVolts: bare(plain.askSetVolts),
  askSetAmps: bare(plain.askSetAmps),
  askMaxVolts: bare(plain.askMaxVolts),
  askMaxAmps: bare(plain.askMaxAmps),
  outputOn: bare(plain.outputOn),
  outputOff: bare(plain.outputOff),
  askOutput: bare(plain.askOutput),
  takeRemote: bare(plain.takeRemote),
};

const channelList: SupplyDialect = {
  ...plain,
  key: 'channel-list',
  about: 'SCPI with a channel list after each header',
  channel: { form: 'list', number: 1 },
  measureVolts: ':MEAS:VOLT? (@{channel})',
  measureAmps: ':MEAS:CURR? (@{channel})',
  setVolts: ':VOLT {value},(@{channel})',
  setAmps: ':CURR {value},(@{channel})',
  askSetVolts: ':VOLT? (@{channel})',
  askSetAmps: ':CURR? (@{channel})',
  askMaxVolts: ':VOLT? MAX,(@{channel})',
  askMaxAmps: ':CURR? MAX,(@{channel})',
  outputOn: ':OUTP ON,(@{channel})',
  outputOff: ':OUTP OFF,(@{channel})',
  askOutput: ':OUTP? (@{channel})',
};

const channelSuffix: SupplyDialect = {
  ...plain,
  key: 'channel-suffix',
  about: 'SCPI with the channel as a number in the header',
  channel: { form: 'suffix', number: 1 },
  measureVolts: ':MEAS{channel}:VOLT?',
  measureAmps: ':MEAS{channel}:CURR?',
  setVolts: ':SOUR{channel}:VOLT {value}',
  setAmps: ':SOUR{channel}:CURR {value}',
  askSetVolts: ':SOUR{channel}:VOLT?',
  askSetAmps: ':SOUR{channel}:CURR?',
  askMaxVolts: ':SOUR{channel}:VOLT? MAX',
  askMaxAmps: ':SOUR{channel}:CURR? MAX',
  outputOn: ':OUTP{channel} ON',
  outputOff: ':OUTP{channel} OFF',
  askOutput: ':OUTP{channel}?',
};

const instrumentSelect: SupplyDialect = {
  ...plain,
  key: 'instrument-select',
  about: 'SCPI with one channel selected at a time; the channel selected at connect is used',
  channel: { form: 'select', number: 1 },
  selectChannel: ':INST:NSEL {channel}',
  askChannel: ':INST:NSEL?',
};

/** The dialects that a supply is tried with, in order. */
export const SUPPLY_DIALECTS: readonly SupplyDialect[] = [
  plain,
  noColon,
  channelSuffix,
  channelList,
  instrumentSelect,
];
