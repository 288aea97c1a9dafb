import { readChoice, readNumber } from './read-parameter.ts';
import type { CommandCall, ScpiCommand } from './scpi-command.ts';
import { isFault, type ScpiFault } from './scpi-fault.ts';
import type { RegisterForm, StatusGroup, StatusRegisters } from './status-registers.ts';
import { writeRadix, writeText } from './write-value.ts';

/** What differs between devices in the commands that every device has. */
export interface DeviceManners {
  /** Maker, model, serial number, version; an empty one is sent as 0 (IEEE 488.2, 10.14). */
  readonly identity: readonly [string, string, string, string];
  /** Whether an error's detail follows its words after a semicolon (SCPI-1999 vol. 2, 21.8.1). */
  readonly tellsDetail: boolean;
  /** Puts the instrument in its reset state: not its status, not its error queue. */
  readonly reset: () => void;
  /** Result of the self-test, 0 = passed. */
  readonly selfTest: () => number;
}

/**
 * The 13 common commands that IEEE 488.2 demands and the SYSTem and STATus commands that
 * SCPI-1999 vol. 1, 4.2.1 demands.
 */
export function commonCommands(manners: DeviceManners): ScpiCommand[] {
  return [
    { pattern: '*CLS', run: ({ status }) => void status.clear() },
    mask('*ESE', 255, (call, value) => {
      call.status.eventEnable = value;
    }),
    { pattern: '*ESE?', run: ({ status }) => register(status, status.eventEnable) },
    {
      pattern: '*ESR?',
      run: ({ status }) => {
        const value = status.eventStatus;
        status.eventStatus = 0;
        return register(status, value);
      },
    },
    { pattern: '*IDN?', run: () => manners.identity.map((field) => field || '0').join(',') },
    {
      pattern: '*OPC',
      run: ({ status }) => {
        status.eventStatus |= 1;
      },
    },
    { pattern: '*OPC?', run: () => '1' },
    {
      pattern: '*RST',
      run: ({ status }) => {
        status.registerForm = 'ASCii';
        manners.reset();
      },
    },
    mask('*SRE', 255, (call, value) => {
      call.status.serviceEnable = value;
    }),
    { pattern: '*SRE?', run: ({ status }) => register(status, status.serviceEnable) },
    {
      pattern: '*STB?',
      run: ({ status, answerWaiting }) => register(status, status.statusByte(answerWaiting)),
    },
    { pattern: '*TST?', run: () => String(manners.selfTest()) },
    { pattern: '*WAI', run: () => undefined },
    {
      pattern: 'SYSTem:ERRor[:NEXT]?',
      run: ({ status }) => errorAnswer(status.takeError(), manners),
    },
    { pattern: 'SYSTem:ERRor:COUNt?', run: ({ status }) => String(status.errorCount) },
    { pattern: 'SYSTem:VERSion?', run: () => '1999.0' },
    ...groupCommands('STATus:QUEStionable', ({ status }) => status.questionable),
    ...groupCommands('STATus:OPERation', ({ status }) => status.operation),
    {
      pattern: 'FORMat:SREGister',
      takes: [1, 1],
      run: ({ status, parameters }) => {
        const form = readChoice(parameters[0]!, REGISTER_FORMS);
        if (isFault(form)) return form;
        status.registerForm = form;
      },
    },
    {
      pattern: 'FORMat:SREGister?',
      run: ({ status }) => status.registerForm.replace(/[a-z]/g, ''),
    },
    { pattern: 'STATus:PRESet', run: ({ status }) => void status.preset() },
  ];
}

const REGISTER_FORMS: readonly RegisterForm[] = ['ASCii', 'BINary', 'HEXadecimal', 'OCTal'];

/** A register's value in the form that was chosen. */
function register(status: StatusRegisters, value: number): string {
  const bases = { BINary: 2, HEXadecimal: 16, OCTal: 8 } as const;
  const form = status.registerForm;
  return form === 'ASCii' ? String(value) : writeRadix(value, bases[form]);
}

/** An error as SYSTem:ERRor? answers it; the text has at most 255 characters. */
function errorAnswer(error: ScpiFault, manners: DeviceManners): string {
  const detail = manners.tellsDetail && error.detail !== '' ? `;${error.detail}` : '';
  return `${error.fault},${writeText((error.words + detail).slice(0, 255))}`;
}

function groupCommands(header: string, group: (call: CommandCall) => StatusGroup): ScpiCommand[] {
  return [
    {
      pattern: `${header}[:EVENt]?`,
      run: (call) => {
        const value = group(call).event;
        group(call).event = 0;
        return register(call.status, value);
      },
    },
    {
      pattern: `${header}:CONDition?`,
      run: (call) => register(call.status, group(call).condition),
    },
    mask(`${header}:ENABle`, 65_535, (call, value) => {
      group(call).enable = value & 0x7fff;
    }),
    { pattern: `${header}:ENABle?`, run: (call) => register(call.status, group(call).enable) },
  ];
}

function mask(
  pattern: string,
  max: number,
  put: (call: CommandCall, value: number) => void,
): ScpiCommand {
  return {
    pattern,
    takes: [1, 1],
    run: (call) => {
      const value = readNumber(call.parameters[0]!, { min: 0, max });
      if (isFault(value)) return value;
      put(call, Math.round(value));
    },
  };
}
