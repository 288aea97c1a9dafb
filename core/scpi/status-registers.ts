import { createErrorQueue } from './error-queue.ts';
import { eventBitOf } from './scpi-errors.ts';
import type { ScpiFault } from './scpi-fault.ts';

/** A condition register with its latched events and enable mask (SCPI-1999 vol. 1, 9.3; 15 bits). */
export interface StatusGroup {
  condition: number;
  event: number;
  enable: number;
}

/** Forms of a register in an answer. */
export type RegisterForm = 'ASCii' | 'BINary' | 'HEXadecimal' | 'OCTal';

/** Status byte bits (IEEE 488.2, 11.2; SCPI-1999 vol. 1, 9.2). */
const STATUS_BIT = {
  errors: 4,
  questionable: 8,
  message: 16,
  events: 32,
  master: 64,
  operation: 128,
};

/** The whole status reporting of one device. */
export interface StatusRegisters {
  eventStatus: number;
  eventEnable: number;
  serviceEnable: number;
  /** How registers are answered: FORMat:SREGister (SCPI-1999 vol. 2, 9.4). */
  registerForm: RegisterForm;
  readonly questionable: StatusGroup;
  readonly operation: StatusGroup;
  readonly errorCount: number;
  /** Queues a fault and sets its event bit. */
  report(fault: ScpiFault): void;
  takeError(): ScpiFault;
  /** Puts new conditions in; bits that rose are latched as events. */
  observe(group: 'questionable' | 'operation', condition: number): void;
  /** The status byte; `answerWaiting` is its bit 4. */
  statusByte(answerWaiting: boolean): number;
  /** Events and queue of *CLS (IEEE 488.2, 10.3). */
  clear(): void;
  /** Enable masks of STATus:PRESet. */
  preset(): void;
}

/** Makes the registers with an error queue of `places`; `powerOn` sets event bit 7. */
export function createStatusRegisters(places: number, powerOn: boolean): StatusRegisters {
  const errors = createErrorQueue(places);
  const group = (): StatusGroup => ({ condition: 0, event: 0, enable: 0 });
  const registers: StatusRegisters = {
    eventStatus: powerOn ? 128 : 0,
    eventEnable: 0,
    serviceEnable: 0,
    registerForm: 'ASCii',
    questionable: group(),
    operation: group(),
    get errorCount() {
      return errors.count;
    },
    report(fault) {
      errors.push(fault);
      registers.eventStatus |= eventBitOf(fault.fault);
    },
    takeError: () => errors.take(),
    observe(name, condition) {
      const into = registers[name];
      into.event |= condition & ~into.condition & 0x7fff;
      into.condition = condition & 0x7fff;
    },
    statusByte(answerWaiting) {
      const { questionable, operation } = registers;
      let byte = errors.count > 0 ? STATUS_BIT.errors : 0;
      if (questionable.event & questionable.enable) byte |= STATUS_BIT.questionable;
      if (answerWaiting) byte |= STATUS_BIT.message;
      if (registers.eventStatus & registers.eventEnable) byte |= STATUS_BIT.events;
      if (operation.event & operation.enable) byte |= STATUS_BIT.operation;
      return byte & registers.serviceEnable & ~STATUS_BIT.master ? byte | STATUS_BIT.master : byte;
    },
    clear() {
      errors.clear();
      registers.eventStatus = 0;
      registers.questionable.event = 0;
      registers.operation.event = 0;
    },
    preset() {
      registers.questionable.enable = 0;
      registers.operation.enable = 0;
    },
  };
  return registers;
}
