// A scripted instrument on standard input and output, for socat to put on a pseudo-terminal.
// Words: supply IDENTITY | meter | silent | garbage | half
import type { ByteDevice } from '../../core/scpi/byte-link.ts';
import { dialogueMeter } from './dialogue-meter.ts';
import { dialogueSupply } from './dialogue-supply.ts';

const [kind, identity] = process.argv.slice(2);

/** Answers every message with the same bytes; the identity whole, so that it connects. */
function saying(reply: (message: string) => string | null): ByteDevice {
  const listeners = new Set<(bytes: Uint8Array) => void>();
  let input = '';
  return {
    receive(bytes) {
      input += String.fromCharCode(...bytes);
      for (let at = input.indexOf('\n'); at >= 0; at = input.indexOf('\n')) {
        const said = reply(input.slice(0, at).trim());
        input = input.slice(at + 1);
        if (said !== null) {
          const out = Uint8Array.from([...said].map((character) => character.charCodeAt(0)));
          for (const listener of listeners) listener(out);
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

/** Healthy for so many messages, so that it connects; then every reply is cut in half. */
function halving(after: number): ByteDevice {
  const inner = dialogueSupply();
  let messages = 0;
  return {
    receive(bytes) {
      messages += bytes.filter((byte) => byte === 10).length;
      inner.receive(bytes);
    },
    onBytes: (listener) =>
      inner.onBytes((bytes) =>
        listener(messages > after ? bytes.slice(0, Math.floor(bytes.length / 2)) : bytes),
      ),
  };
}

const device =
  kind === 'meter'
    ? dialogueMeter()
    : kind === 'silent'
      ? saying(() => null)
      : kind === 'garbage'
        ? saying(() => '\xf8\x00\x9f\xe0\xfe\n')
        : kind === 'half'
          ? halving(40)
          : dialogueSupply(identity);

device.onBytes((bytes) => process.stdout.write(bytes));
process.stdin.on('data', (bytes) => device.receive(bytes));
process.stdin.on('end', () => process.exit(0));
if ('boot' in device && typeof device.boot === 'function') device.boot();
