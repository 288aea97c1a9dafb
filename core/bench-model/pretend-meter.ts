import type { ParameterToken } from '../scpi/program-unit.ts';
import { readChoice, readNumber, readText } from '../scpi/read-parameter.ts';
import type { CommandOutcome, ScpiCommand } from '../scpi/scpi-command.ts';
import { createScpiDevice, type ScpiDevice } from '../scpi/scpi-device.ts';
import { isFault, scpiFault } from '../scpi/scpi-fault.ts';
import { writeBlock, writeExponent, writeGeneral, writeText } from '../scpi/write-value.ts';
import type { MeterFunction } from './probe-reading.ts';

/** What the meter needs of the bench around it. */
export interface MeterBench {
  /** Brings the bench up to now. */
  refresh(): void;
  /** A reading as the instrument shows it; null = overload. */
  measure(as: MeterFunction): number | null;
  log(command: string): void;
}

const OVERLOAD = 9.9e37;
/** Headers after CONFigure or MEASure, and what they choose. */
const FUNCTIONS: readonly (readonly [header: string, as: MeterFunction])[] = [
  ['VOLTage[:DC]', 'VOLT'],
  ['RESistance', 'RES'],
  ['FRESistance', 'FRES'],
  ['DIODe', 'DIOD'],
  ['CONTinuity', 'CONT'],
];
const FUNCTION_NAMES: Readonly<Record<string, MeterFunction>> = {
  VOLT: 'VOLT',
  VOLTAGE: 'VOLT',
  'VOLT:DC': 'VOLT',
  'VOLTAGE:DC': 'VOLT',
  RES: 'RES',
  RESISTANCE: 'RES',
  FRES: 'FRES',
  FRESISTANCE: 'FRES',
  DIOD: 'DIOD',
  DIODE: 'DIOD',
  CONT: 'CONT',
  CONTINUITY: 'CONT',
};

/** The pretend bench meter: volts, ohms on two and four wires, diode and continuity. */
export function createPretendMeter(bench: MeterBench): ScpiDevice {
  let chosen: MeterFunction = 'VOLT';
  /** Range and resolution as they were last told. */
  let configured: readonly number[] = [];
  let last: number | null = null;
  let form: 'ASCii' | 'REAL' = 'ASCii';

  /** A reading as FORMat[:DATA] has it (SCPI-1999 vol. 2, 9.1): NR3 or a block of one double. */
  function written(value: number): string {
    if (form === 'ASCii') return writeExponent(value, 8);
    const view = new DataView(new ArrayBuffer(8));
    view.setFloat64(0, value);
    return writeBlock(String.fromCharCode(...new Uint8Array(view.buffer)));
  }

  function take(): string {
    last = bench.measure(chosen) ?? OVERLOAD;
    return written(last);
  }

  function choose(as: MeterFunction): undefined {
    chosen = as;
    configured = [];
    last = null;
  }

  const rangeWords = { MINimum: 0, MAXimum: 1e9, DEFault: 0, AUTO: 0 };
  /** Chooses a function; range and resolution are checked, remembered, and left to autoranging. */
  function configure(as: MeterFunction, parameters: readonly ParameterToken[]): CommandOutcome {
    const unit = as === 'VOLT' || as === 'DIOD' ? 'V' : 'OHM';
    const numbers: number[] = [];
    for (const token of parameters) {
      const value = readNumber(token, { unit, words: rangeWords, min: 0, max: 1e9 });
      if (isFault(value)) return value;
      numbers.push(value);
    }
    choose(as);
    configured = numbers;
  }

  const functionCommands = FUNCTIONS.flatMap(([header, as]): ScpiCommand[] => [
    {
      pattern: `CONFigure[:SCALar]:${header}`,
      takes: [0, 2],
      run: ({ parameters }) => configure(as, parameters),
    },
    {
      pattern: `MEASure[:SCALar]:${header}?`,
      takes: [0, 2],
      run: ({ parameters }) => configure(as, parameters) ?? take(),
    },
  ]);

  const commands: ScpiCommand[] = [
    ...functionCommands,
    {
      pattern: 'CONFigure?',
      run: () => {
        const numbers = configured.map((value) => writeGeneral(value, 9)).join(',');
        return writeText(`${chosen} ${numbers}`.trim());
      },
    },
    { pattern: 'READ?', run: take },
    { pattern: 'INITiate[:IMMediate]', run: () => void take() },
    { pattern: 'ABORt', run: () => undefined },
    { pattern: 'FETCh?', run: () => (last === null ? scpiFault(-230) : written(last)) },
    {
      pattern: 'FORMat[:DATA]',
      takes: [1, 2],
      run: ({ parameters: [kind, length] }) => {
        const chosenForm = readChoice(kind!, ['ASCii', 'REAL'] as const);
        if (isFault(chosenForm)) return chosenForm;
        const bits = length ? readNumber(length) : 64;
        if (isFault(bits)) return bits;
        if (chosenForm === 'REAL' && bits !== 64) return scpiFault(-224, 'only REAL,64');
        form = chosenForm;
      },
    },
    { pattern: 'FORMat[:DATA]?', run: () => (form === 'REAL' ? 'REAL,64' : 'ASC') },
    { pattern: '[SENSe#:]FUNCtion[:ON]?', run: () => writeText(chosen) },
    {
      pattern: '[SENSe#:]FUNCtion[:ON]',
      takes: [1, 1],
      run: ({ parameters }) => {
        const name = readText(parameters[0]!);
        if (isFault(name)) return name;
        const as = FUNCTION_NAMES[name.trim().toUpperCase()];
        return as ? choose(as) : scpiFault(-224, name);
      },
    },
    {
      pattern: 'TRIGger[:SEQuence]:SOURce',
      takes: [1, 1],
      run: ({ parameters }) => {
        const source = readChoice(parameters[0]!, ['IMMediate']);
        return isFault(source) ? source : undefined;
      },
    },
    { pattern: 'TRIGger[:SEQuence]:SOURce?', run: () => 'IMM' },
    { pattern: 'SYSTem:REMote', run: () => undefined },
    { pattern: 'SYSTem:LOCal', run: () => undefined },
    { pattern: 'SYSTem:RWLock', run: () => undefined },
  ];

  return createScpiDevice({
    identity: ['Wakeline pretend bench', 'METER 5D5', 'P0002', '1.0'],
    tellsDetail: true,
    commands,
    errorPlaces: 20,
    inputBytes: 512,
    lineEnding: '\r\n',
    powerOnEvent: true,
    reset: () => {
      choose('VOLT');
      form = 'ASCii';
    },
    selfTest: () => 0,
    refresh: () => bench.refresh(),
    onCarriedOut: (text) => bench.log(text),
  });
}
