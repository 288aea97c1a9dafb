import type { ByteDevice } from '../../core/scpi/byte-link.ts';

/**
 * A bench multimeter written from recorded dialogues alone: 100 to 400 ms a reading, LF CR as line
 * end, `0, "No error"` with a space, FETC? that answers nothing without data and queues -230, a
 * reading that dribbles in pieces.
 */
export interface DialogueMeter extends ByteDevice {
  readonly state: { word: string; value: number; open: boolean };
  readonly taken: string[];
}

export function dialogueMeter(readingMs = 100): DialogueMeter {
  const state = { word: 'VOLT', value: 3.3021, open: false };
  const taken: string[] = [];
  const errors: string[] = [];
  const listeners = new Set<(bytes: Uint8Array) => void>();
  let input = '';

  const say = (text: string) => {
    const bytes = Uint8Array.from([...text].map((character) => character.charCodeAt(0)));
    for (const listener of listeners) listener(bytes);
  };
  const inForm = (value: number) => {
    const [mantissa = '0', exponent = '+0'] = value.toExponential(8).split('e');
    const sign = exponent.startsWith('-') ? '-' : '+';
    return `${value < 0 ? '' : '+'}${mantissa}E${sign}${exponent.slice(1).padStart(2, '0')}`;
  };

  /** The device works off its messages one after the other, taking its time for readings. */
  let work: Promise<void> = Promise.resolve();
  const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

  async function take(message: string): Promise<void> {
    taken.push(message);
    const upper = message.toUpperCase();
    const configured = /^CONF:(VOLT|RES|DIOD|CONT|CURR)(:DC)?$/.exec(upper);
    if (upper === '*IDN?') say('BENCHWORKS,FIVE-DIGIT,000402,3.1\n\r');
    else if (upper === 'SYST:ERR?') say(`${errors.shift() ?? '0, "No error"'}\n\r`);
    else if (upper === 'FUNC?') say(`"${state.word}"\n\r`);
    else if (configured !== null) state.word = configured[1]!;
    else if (upper === 'FETC?') errors.push('-230, "Data corrupt or stale"');
    else if (upper === 'READ?') {
      await pause(readingMs);
      const reading = state.open ? '+9.90000000E+37' : inForm(state.value);
      say(reading.slice(0, 5));
      await pause(readingMs / 4);
      say(`${reading.slice(5)}\n`);
      say('\r');
    } else errors.push('-113, "Undefined header"');
  }

  return {
    state,
    taken,
    receive(bytes) {
      for (const byte of bytes) {
        if (byte !== 10 && byte !== 13) input += String.fromCharCode(byte);
        else {
          const message = input.trim();
          input = '';
          if (message !== '') work = work.then(() => take(message));
        }
      }
    },
    onBytes(listener) {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
  };
}
