/** What came out of the input buffer: a whole program message, or word that it ran over. */
export type MessageEvent =
  | { readonly kind: 'message'; readonly text: string }
  | { readonly kind: 'overrun' };

type Inside =
  | { readonly in: 'plain' }
  | { readonly in: 'string'; readonly quote: number }
  | { readonly in: 'hash' }
  | { readonly in: 'length'; readonly digitsLeft: number; readonly length: number }
  | { readonly in: 'block'; readonly left: number }
  | { readonly in: 'overrun' };

const LF = 10;
const CR = 13;
const PLAIN: Inside = { in: 'plain' };

/**
 * Cuts a byte stream into program messages (IEEE 488.2, 7.5): LF, CR or CR LF ends a message,
 * but not inside a quoted string or a definite-length block. Bytes become characters one to
 * one (Latin-1). A message longer than `capacity` bytes is dropped up to its terminator.
 */
export function createMessageReader(capacity: number): (bytes: Uint8Array) => MessageEvent[] {
  let text = '';
  let inside: Inside = PLAIN;

  function next(code: number): Inside {
    switch (inside.in) {
      case 'string':
        return code === inside.quote ? PLAIN : inside;
      case 'block':
        return inside.left > 1 ? { in: 'block', left: inside.left - 1 } : PLAIN;
      case 'length': {
        if (code < 48 || code > 57) return plainAfter(code);
        const length = inside.length * 10 + code - 48;
        if (inside.digitsLeft > 1)
          return { in: 'length', digitsLeft: inside.digitsLeft - 1, length };
        return length > 0 ? { in: 'block', left: length } : PLAIN;
      }
      case 'hash':
        return code >= 49 && code <= 57
          ? { in: 'length', digitsLeft: code - 48, length: 0 }
          : plainAfter(code);
      default:
        return plainAfter(code);
    }
  }

  return (bytes) => {
    const events: MessageEvent[] = [];
    for (const code of bytes) {
      const opaque = inside.in === 'string' || inside.in === 'block';
      if ((code === LF || code === CR) && !opaque) {
        if (inside.in !== 'overrun' && text !== '') events.push({ kind: 'message', text });
        text = '';
        inside = PLAIN;
      } else if (inside.in !== 'overrun') {
        text += String.fromCharCode(code);
        inside = next(code);
        if (text.length > capacity) {
          events.push({ kind: 'overrun' });
          text = '';
          inside = { in: 'overrun' };
        }
      }
    }
    return events;
  };
}

function plainAfter(code: number): Inside {
  if (code === 34 || code === 39) return { in: 'string', quote: code };
  return code === 35 ? { in: 'hash' } : PLAIN;
}
