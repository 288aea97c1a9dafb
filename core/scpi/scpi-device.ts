import type { ByteDevice } from './byte-link.ts';
import { commonCommands, type DeviceManners } from './common-commands.ts';
import { resolveHeader } from './header-path.ts';
import { type HeaderPattern, headerPattern, matchHeader } from './header-pattern.ts';
import { lexMessage } from './lex-message.ts';
import { createMessageReader } from './message-reader.ts';
import type { ProgramUnit } from './program-unit.ts';
import type { ScpiCommand } from './scpi-command.ts';
import { isFault, type ScpiFault, scpiFault } from './scpi-fault.ts';
import { createStatusRegisters, type StatusRegisters } from './status-registers.ts';

/** What a device is made of. */
export interface DeviceMake extends DeviceManners {
  readonly commands: readonly ScpiCommand[];
  readonly errorPlaces: number;
  /** Bytes of its input buffer. */
  readonly inputBytes: number;
  readonly lineEnding: '\n' | '\r\n';
  readonly powerOnEvent: boolean;
  /** Called before anything that arrived is read: brings conditions up to date. */
  readonly refresh: (status: StatusRegisters) => void;
  /** Called with each unit that was carried out and was no query. */
  readonly onCarriedOut: (unitText: string) => void;
}

/** A SCPI device with its registers, for the instrument around it. */
export interface ScpiDevice extends ByteDevice {
  readonly status: StatusRegisters;
}

/**
 * Makes a device that answers program messages by IEEE 488.2 and SCPI-1999. All answers of one
 * message go out as one line, joined by semicolons, before `receive` returns.
 */
export function createScpiDevice(make: DeviceMake): ScpiDevice {
  const status = createStatusRegisters(make.errorPlaces, make.powerOnEvent);
  const table = [...commonCommands(make), ...make.commands].map((command) => ({
    command,
    pattern: headerPattern(command.pattern),
  }));
  const find = createFinder(table);
  const read = createMessageReader(make.inputBytes);
  const listeners = new Set<(bytes: Uint8Array) => void>();

  function send(line: string): void {
    const bytes = Uint8Array.from(line + make.lineEnding, (character) => character.charCodeAt(0));
    for (const listener of listeners) listener(bytes);
  }

  function carryOut(text: string): void {
    const answers: string[] = [];
    let path = '';
    for (const unit of lexMessage(text)) {
      make.refresh(status);
      const resolved = resolveHeader(unit.header, path);
      path = resolved.path;
      const fault = unit.fault ?? runUnit(unit, resolved.header, answers);
      if (fault) status.report(fault);
      else if (!unit.isQuery) make.onCarriedOut(unit.text);
    }
    if (answers.length > 0) send(answers.join(';'));
  }

  /** Runs a unit; its answer is added to `answers`. Gives the fault to report, or null. */
  function runUnit(unit: ProgramUnit, header: string, answers: string[]): ScpiFault | null {
    const found = find(unit.isQuery, header);
    if (!found) return scpiFault(-113, unit.header);
    const { command, suffixes } = found;
    const highest = command.highestSuffixes ?? [];
    if (suffixes.some((suffix, i) => suffix < 1 || suffix > (highest[i] ?? 1))) {
      return scpiFault(-114, unit.header);
    }
    const [least, most] = command.takes ?? [0, 0];
    if (unit.parameters.length < least) return scpiFault(-109);
    const tooMany = unit.parameters.length > most ? scpiFault(-108) : null;
    // A query with too much is answered and reported, as the parser library's tests have it;
    // a setting with too much is not carried out.
    if (tooMany && !unit.isQuery) return tooMany;
    const parameters = unit.parameters.slice(0, most);
    const outcome = command.run({
      suffixes,
      parameters,
      status,
      answerWaiting: answers.length > 0,
    });
    if (isFault(outcome)) return outcome;
    if (outcome !== undefined) answers.push(outcome);
    return tooMany;
  }

  return {
    status,
    receive(bytes) {
      for (const event of read(bytes)) {
        if (event.kind === 'overrun') status.report(scpiFault(-363));
        else carryOut(event.text);
      }
    },
    onBytes(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

interface TableRow {
  readonly command: ScpiCommand;
  readonly pattern: HeaderPattern;
}

interface Found {
  readonly command: ScpiCommand;
  readonly suffixes: readonly number[];
}

/** A poller sends the same few headers for hours: what they matched is kept. */
const LONGEST_MEMORY = 500;

function createFinder(table: readonly TableRow[]) {
  const memory = new Map<string, Found | null>();
  return (isQuery: boolean, header: string): Found | null => {
    const key = isQuery ? `${header}?` : header;
    const known = memory.get(key);
    if (known !== undefined) return known;
    if (memory.size >= LONGEST_MEMORY) memory.clear();
    let found: Found | null = null;
    for (const { command, pattern } of table) {
      const suffixes = pattern.isQuery === isQuery ? matchHeader(pattern, header) : null;
      if (suffixes) {
        found = { command, suffixes };
        break;
      }
    }
    memory.set(key, found);
    return found;
  };
}
