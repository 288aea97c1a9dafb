import type { ByteLink } from '../../core/scpi/byte-link.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';

/** Numbers from 0 up to 1 that are the same for the same seed (a linear congruential generator). */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** What can happen to a reply on its way, as shares of all replies. The rest arrives as it was sent. */
export interface Faults {
  readonly lost: number;
  /** Its tail is missing, its end with it. */
  readonly cut: number;
  /** Everything behind it waits as well, as on a wire: up to 4 s. */
  readonly delayed: number;
  /** It comes twice in one piece. */
  readonly doubled: number;
  /** It comes again a moment later. */
  readonly echoedLater: number;
  /** Bytes that are no ASCII somewhere in it. */
  readonly dirty: number;
  /** It comes in single bytes. */
  readonly split: number;
}

/**
 * A wire that keeps the order of bytes and does everything else to replies. `answer` gives the
 * reply to a message, or null.
 */
export function faultyLine(
  clock: Clock,
  random: () => number,
  faults: Faults,
  answer: (message: string) => string | null,
): ByteLink & { readonly spoiled: number } {
  const listeners = new Set<(bytes: Uint8Array) => void>();
  let isOpen = true;
  let input = '';
  let freeMs = 0;
  let spoiled = 0;

  function deliver(text: string, afterMs: number): void {
    const atMs = Math.max(clock.nowMs() + afterMs, freeMs);
    freeMs = atMs;
    clock.setTimer(() => {
      const bytes = Uint8Array.from([...text].map((character) => character.charCodeAt(0) & 0xff));
      if (isOpen) for (const listener of [...listeners]) listener(bytes);
    }, atMs - clock.nowMs());
  }

  function send(text: string): void {
    const latencyMs = 0.2 + random() * 3;
    let pick = random();
    const is = (share: number) => {
      pick -= share;
      return pick < 0;
    };
    const at = Math.floor(random() * text.length);
    spoiled += 1;
    if (is(faults.lost)) return;
    if (is(faults.cut)) deliver(text.slice(0, at), latencyMs);
    else if (is(faults.delayed)) deliver(text, latencyMs + random() * 4000);
    else if (is(faults.doubled)) deliver(text + text, latencyMs);
    else if (is(faults.echoedLater)) {
      deliver(text, latencyMs);
      deliver(text, latencyMs + random() * 20);
    } else if (is(faults.dirty)) deliver(`${text.slice(0, at)}\xfe${text.slice(at)}`, latencyMs);
    else if (is(faults.split)) for (const one of text) deliver(one, latencyMs + random());
    else {
      spoiled -= 1;
      deliver(text, latencyMs);
    }
  }

  return {
    name: 'faulty line',
    get isOpen() {
      return isOpen;
    },
    get spoiled() {
      return spoiled;
    },
    write(bytes) {
      input += String.fromCharCode(...bytes);
      for (let at = input.indexOf('\n'); at >= 0; at = input.indexOf('\n')) {
        const reply = answer(input.slice(0, at).trim());
        input = input.slice(at + 1);
        if (reply !== null) send(reply);
      }
    },
    onBytes(listener) {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
    onClosed: () => () => {},
    async close() {
      isOpen = false;
    },
  };
}
