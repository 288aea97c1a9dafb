import type { ByteLink } from '../../core/scpi/byte-link.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';

/** What a device answers to a message it knows; null = nothing. `found` are the pattern's groups. */
export type Answer = string | null | ((found: RegExpExecArray) => string | null);

/** How a device behaves on its line. */
export interface Manners {
  /** Ends every reply. Default CR LF. */
  readonly end?: string;
  /** Ends every message that it takes. Default LF; '' = it takes what has come after 15 ms of quiet. */
  readonly takes?: '\n' | '\r' | '\r\n' | '';
  /** Between a message and its reply. */
  readonly latencyMs?: number;
  /** Messages that come sooner than this after the last traffic are not noticed. */
  readonly deafMs?: number;
  /** Bits a second: bytes take their time both ways, 10 bits each. */
  readonly baud?: number;
  /** Sends every message back first. */
  readonly echo?: boolean;
  /** Splits at semicolons and joins the answers; else a semicolon is part of the message. */
  readonly compound?: 'standard' | 'naive' | 'none';
  /** Said for a message that is not known. */
  readonly unknown?: (message: string) => string | null;
  /** Joins the answers of one message. */
  readonly joint?: string;
}

/** A device on a link, both in one: a table of messages and answers, and its manners. */
export interface TableLink extends ByteLink {
  /** What the device noticed, in order; the newest thousands. */
  readonly taken: readonly string[];
  say(text: string): void;
  pull(): void;
}

const MOST_TAKEN = 4000;

export function tableLink(
  clock: Clock,
  table: readonly (readonly [RegExp, Answer])[],
  manners: Manners = {},
): TableLink {
  const { end = '\r\n', takes = '\n', latencyMs = 2, deafMs = 0, baud = 0, joint = ';' } = manners;
  const bytesListeners = new Set<(bytes: Uint8Array) => void>();
  const closedListeners = new Set<(pulled: boolean) => void>();
  const taken: string[] = [];
  let isOpen = true;
  let input = '';
  let busyToMs = 0;
  let trafficMs = Number.NEGATIVE_INFINITY;
  let stopQuiet: (() => void) | null = null;

  const lineMs = (text: string) => (baud === 0 ? 0 : (text.length * 10_000) / baud);
  const hear = (text: string) => {
    if (!isOpen) return;
    trafficMs = clock.nowMs();
    const bytes = Uint8Array.from([...text].map((character) => character.charCodeAt(0) & 0xff));
    for (const listener of [...bytesListeners]) listener(bytes);
  };
  /** Replies leave one after the other, as over a wire. */
  const sayAfter = (text: string, afterMs: number) => {
    const startMs = Math.max(clock.nowMs() + afterMs, busyToMs);
    busyToMs = startMs + lineMs(text);
    clock.setTimer(() => hear(text), busyToMs - clock.nowMs());
  };

  function answer(unit: string): string | null {
    for (const [pattern, reply] of table) {
      const found = pattern.exec(unit);
      if (found !== null) return typeof reply === 'function' ? reply(found) : reply;
    }
    return manners.unknown?.(unit) ?? null;
  }

  /** IEEE 488.2 compounds: a header goes on from the path of the one before it. */
  function inFull(units: readonly string[]): string[] {
    let path = '';
    return units.map((unit) => {
      if (unit.startsWith('*')) return unit;
      const header = unit.startsWith(':') ? unit.slice(1) : path + unit;
      const word = header.split(' ')[0]!;
      path = word.slice(0, word.lastIndexOf(':') + 1);
      return header;
    });
  }

  function take(message: string): void {
    if (clock.nowMs() - trafficMs < deafMs) return;
    trafficMs = clock.nowMs();
    taken.push(message);
    if (taken.length > MOST_TAKEN) taken.splice(0, MOST_TAKEN / 2);
    if (manners.echo === true) sayAfter(message + end, 0);
    const compound = manners.compound ?? 'standard';
    const split = message.split(';').map((unit) => unit.trim());
    const units = compound === 'none' ? [message] : compound === 'naive' ? split : inFull(split);
    const replies = units.map(answer).filter((reply) => reply !== null);
    if (replies.length > 0) sayAfter(replies.join(joint) + end, latencyMs);
  }

  function arrive(text: string): void {
    input += text;
    if (takes === '') {
      stopQuiet?.();
      stopQuiet = clock.setTimer(() => {
        const message = input;
        input = '';
        take(message);
      }, 15);
      return;
    }
    for (let at = input.indexOf(takes); at >= 0; at = input.indexOf(takes)) {
      const message = input.slice(0, at).trim();
      input = input.slice(at + takes.length);
      if (message !== '') take(message);
    }
  }

  const endLine = (pulled: boolean) => {
    if (!isOpen) return;
    isOpen = false;
    for (const listener of [...closedListeners]) listener(pulled);
  };

  return {
    name: 'table link',
    taken,
    get isOpen() {
      return isOpen;
    },
    write(bytes) {
      if (!isOpen) throw new Error('written to a closed link');
      const text = String.fromCharCode(...bytes);
      clock.setTimer(() => arrive(text), lineMs(text));
    },
    onBytes(listener) {
      bytesListeners.add(listener);
      return () => {
        bytesListeners.delete(listener);
      };
    },
    onClosed(listener) {
      closedListeners.add(listener);
      return () => {
        closedListeners.delete(listener);
      };
    },
    async close() {
      endLine(false);
    },
    say: hear,
    pull: () => endLine(true),
  };
}
