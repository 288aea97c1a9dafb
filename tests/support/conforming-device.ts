import { readBlock, readText } from '../../core/scpi/read-parameter.ts';
import type { ScpiCommand } from '../../core/scpi/scpi-command.ts';
import { createScpiDevice, type DeviceMake, type ScpiDevice } from '../../core/scpi/scpi-device.ts';
import { isFault } from '../../core/scpi/scpi-fault.ts';
import { writeText } from '../../core/scpi/write-value.ts';

const constant = (pattern: string, answer: string): ScpiCommand => ({ pattern, run: () => answer });

/** Commands of the test device in libscpi/test/test_parser.c of j123b567/scpi-parser. */
const LIBRARY_COMMANDS: readonly ScpiCommand[] = [
  {
    pattern: 'TEXTfunction?',
    takes: [2, 2],
    run: ({ parameters }) => {
      const text = readText(parameters[1]!);
      return isFault(text) ? text : writeText(text);
    },
  },
  constant('TEST:TREEA?', '10'),
  constant('TEST:TREEB?', '20'),
  {
    pattern: 'SAMple',
    takes: [1, 1],
    run: ({ parameters }) => {
      const data = readBlock(parameters[0]!);
      return isFault(data) ? data : undefined;
    },
  },
  { pattern: 'STUB', run: () => undefined },
];

/** A device with that library's test identity, queue of 4 and buffer of 256, and a way to talk to it. */
export function createConformingDevice(
  extra: readonly ScpiCommand[] = [],
  change: Partial<DeviceMake> = {},
): { device: ScpiDevice; send: (text: string) => string; errors: () => number[]; done: string[] } {
  const done: string[] = [];
  const device = createScpiDevice({
    identity: ['MA', 'IN', '', 'VER'],
    tellsDetail: false,
    commands: [...LIBRARY_COMMANDS, ...extra],
    errorPlaces: 4,
    inputBytes: 256,
    lineEnding: '\r\n',
    powerOnEvent: false,
    reset: () => {},
    selfTest: () => 0,
    refresh: () => {},
    onCarriedOut: (text) => done.push(text),
    ...change,
  });
  let heard = '';
  device.onBytes((bytes) => {
    heard += String.fromCharCode(...bytes);
  });
  return {
    device,
    done,
    send(text) {
      heard = '';
      device.receive(Uint8Array.from(text, (c) => c.charCodeAt(0)));
      return heard;
    },
    errors() {
      const numbers: number[] = [];
      while (device.status.errorCount > 0) numbers.push(device.status.takeError().fault);
      return numbers;
    },
  };
}
