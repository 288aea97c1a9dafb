import type { ByteLink } from '../../core/scpi/byte-link.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';

/** A piece of a reply, that long after the message or the piece before it. */
export type Piece = readonly [afterMs: number, text: string];

/** What happens after a message: nothing, an answer at once, one in pieces, or the line drops. */
export type ScriptedReply = null | string | readonly Piece[] | 'drop the line';

/** One exchange: the message without its end, and what comes back. */
export type Exchange = readonly [sent: string, reply: ScriptedReply];

/** A link that plays exchanges in order and notices any that differ. */
export interface ScriptedLink extends ByteLink {
  /** Says something out of turn. */
  say(text: string): void;
  /** The cable comes out. */
  pull(): void;
  /** Throws unless every exchange was played and nothing else was sent. */
  finish(): void;
  /** Everything that was sent, message by message. */
  readonly sent: readonly string[];
}

/** Plays (sent, reply) pairs: fails on a message that is extra, missing or different. */
export function scriptedLink(clock: Clock, script: readonly Exchange[]): ScriptedLink {
  const bytesListeners = new Set<(bytes: Uint8Array) => void>();
  const closedListeners = new Set<(pulled: boolean) => void>();
  const sent: string[] = [];
  const faults: string[] = [];
  let input = '';
  let played = 0;
  let isOpen = true;

  const end = (pulled: boolean) => {
    if (!isOpen) return;
    isOpen = false;
    for (const listener of [...closedListeners]) listener(pulled);
  };
  const hear = (text: string) => {
    if (!isOpen) return;
    const bytes = Uint8Array.from([...text].map((character) => character.charCodeAt(0) & 0xff));
    for (const listener of [...bytesListeners]) listener(bytes);
  };
  const playPieces = (pieces: readonly Piece[]) => {
    const [first, ...rest] = pieces;
    if (first === undefined) return;
    clock.setTimer(() => {
      hear(first[1]);
      playPieces(rest);
    }, first[0]);
  };

  function take(message: string): void {
    sent.push(message);
    const due = script[played];
    if (due === undefined) {
      faults.push(`sent "${message}" after the script had ended`);
      return;
    }
    played += 1;
    if (due[0] !== message) faults.push(`sent "${message}" where "${due[0]}" was due`);
    const reply = due[1];
    if (reply === 'drop the line') clock.setTimer(() => end(true), 1);
    else if (typeof reply === 'string') playPieces([[1, reply]]);
    else if (reply !== null) playPieces(reply);
  }

  return {
    name: 'scripted link',
    sent,
    get isOpen() {
      return isOpen;
    },
    write(bytes) {
      if (!isOpen) throw new Error('written to a closed link');
      input += String.fromCharCode(...bytes);
      for (let at = input.indexOf('\n'); at >= 0; at = input.indexOf('\n')) {
        take(input.slice(0, at).replace(/\r$/, ''));
        input = input.slice(at + 1);
      }
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
      end(false);
    },
    say: hear,
    pull: () => end(true),
    finish() {
      if (input !== '') faults.push(`sent "${input}" without an end`);
      for (const [message] of script.slice(played)) faults.push(`never sent "${message}"`);
      if (faults.length > 0) throw new Error(faults.join('; '));
    },
  };
}
