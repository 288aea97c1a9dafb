import type { MeterDialect } from './meter-dialect.ts';

const plain: MeterDialect = {
  key: 'plain-meter',
  about: 'SCPI-1999 meter: READ? in the function that it is in, CONF to change it',
  read: 'READ?',
  askFunction: 'FUNC?',
  configure: {
    volts: 'CONF:VOLT:DC',
    ohms: 'CONF:RES',
    diode: 'CONF:DIOD',
    continuity: 'CONF:CONT',
    amps: 'CONF:CURR:DC',
  },
  takeRemote: 'SYST:REM',
  compound: 'separate',
  errorQueue: true,
  pauseMs: 0,
};

/** Ways to ask a meter's function, tried in order. None of them changes it. */
export const FUNCTION_QUERIES: readonly string[] = ['FUNC?', 'CONF?', 'SENS:FUNC?', 'FUNC1?'];

/** The dialects that a meter is tried with, in order: all take a reading without changing the function. */
export const METER_DIALECTS: readonly MeterDialect[] = [
  plain,
  {
    ...plain,
    key: 'fetch-meter',
    about: 'A free-running meter: FETC? gives its newest reading',
    read: 'FETC?',
  },
  {
    ...plain,
    key: 'no-colon-meter',
    about: 'Headers without a leading colon, FUNC1?/MEAS1? style of low-cost bench meters',
    read: 'MEAS1?',
    askFunction: 'FUNC1?',
    configure: {
      volts: 'CONF:VOLT:DC',
      ohms: 'CONF:RES',
      diode: 'CONF:DIOD',
      continuity: 'CONF:CONT',
      amps: 'CONF:CURR:DC',
    },
    takeRemote: null,
  },
  {
    ...plain,
    key: 'value-meter',
    about: 'A meter whose MEAS? or VAL? gives what its display shows. Form from memory',
    read: 'MEAS?',
  },
  { ...plain, key: 'shown-value-meter', about: 'The same by VAL?. Form from memory', read: 'VAL?' },
];
