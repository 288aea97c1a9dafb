import type { ByteDevice } from '../../core/scpi/byte-link.ts';

/**
 * A bench supply's firmware, written from recorded dialogues alone and sharing no code with the
 * product: boot banner, CRLF answers, `**ERROR` lines in the reply stream, modes in quotes, units
 * on set-points, LF, CRLF and CR taken as line ends.
 */
export interface DialogueSupply extends ByteDevice {
  readonly state: { volts: number; limit: number; isOn: boolean; loadOhm: number };
  /** Every message that it took, in order. */
  readonly taken: string[];
  boot(): void;
}

export function dialogueSupply(identity = 'BENCHWORKS,TWO-FORTY,000017,1.4'): DialogueSupply {
  const state = { volts: 5, limit: 1, isOn: false, loadOhm: 100 };
  const taken: string[] = [];
  const errors: string[] = [];
  const listeners = new Set<(bytes: Uint8Array) => void>();
  let input = '';

  const say = (text: string) => {
    const bytes = Uint8Array.from([...text].map((character) => character.charCodeAt(0)));
    for (const listener of listeners) listener(bytes);
  };
  const fail = (code: number, text: string) => {
    errors.push(`${code},"${text}"`);
    say(`**ERROR [2024-05-01 10:00:00]: ${code},"${text}"\n`);
  };
  const drawn = () => {
    if (!state.isOn) return { v: 0.002, a: -0.0001, mode: 'UR' };
    const wanted = state.volts / state.loadOhm;
    if (wanted <= state.limit) return { v: state.volts, a: wanted, mode: 'CV' };
    return { v: state.limit * state.loadOhm * 1.03, a: state.limit * 0.975, mode: 'CC' };
  };
  const number = (text: string, unit: string): number | null => {
    const parts = /^([-+.\dE]+)\s*(M?)([A-Z]?)$/i.exec(text);
    if (parts === null || (parts[3] !== '' && parts[3]!.toUpperCase() !== unit)) return null;
    return Number(parts[1]) * (parts[2] === '' ? 1 : 1e-3);
  };

  const answers: Record<string, () => string> = {
    '*IDN?': () => identity,
    'MEAS:VOLT?': () => drawn().v.toFixed(3),
    'MEAS:CURR?': () => drawn().a.toFixed(4),
    'VOLT?': () => state.volts.toFixed(2),
    'CURR?': () => state.limit.toFixed(2),
    'VOLT? MAX': () => '40.00',
    'CURR? MAX': () => '5.00',
    'OUTP?': () => (state.isOn ? '1' : '0'),
    'OUTP:MODE?': () => `"${drawn().mode}"`,
    'SYST:ERR?': () => errors.shift() ?? '0,"No error"',
    '*OPC?': () => '1',
  };

  function unit(text: string): string | null {
    const query = answers[text.toUpperCase()];
    if (query !== undefined) return query();
    const [header = '', parameter = ''] = text.split(/\s+(.*)/s);
    const upper = header.toUpperCase();
    if (upper === 'VOLT' || upper === 'CURR') {
      const value = number(parameter.trim(), upper === 'VOLT' ? 'V' : 'A');
      if (value === null) fail(-104, 'Data type error');
      else if (value < 0 || value > (upper === 'VOLT' ? 40 : 5)) fail(-222, 'Data out of range');
      else if (upper === 'VOLT') state.volts = value;
      else state.limit = value;
    } else if (upper === 'OUTP') state.isOn = /^(ON|1)$/i.test(parameter.trim());
    else fail(-113, 'Undefined header');
    return null;
  }

  function message(text: string): void {
    taken.push(text);
    const replies: string[] = [];
    let path = '';
    for (const part of text.split(';')) {
      let header = part.trim();
      if (header === '') continue;
      if (header.startsWith(':')) header = header.slice(1);
      else if (!header.startsWith('*')) header = path + header;
      const word = header.split(/\s/)[0]!;
      if (!header.startsWith('*')) path = word.slice(0, word.lastIndexOf(':') + 1);
      const reply = unit(header);
      if (reply !== null) replies.push(reply);
    }
    if (replies.length > 0) say(`${replies.join(';')}\r\n`);
  }

  return {
    state,
    taken,
    boot: () => say(`\r\n${identity.split(',')[1]} starting\r\nself test passed\r\n`),
    receive(bytes) {
      for (const byte of bytes) {
        if (byte !== 10 && byte !== 13) input += String.fromCharCode(byte);
        else {
          const line = input.trim();
          input = '';
          if (line !== '') message(line);
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
