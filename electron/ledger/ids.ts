import { v7 } from 'uuid';

/** Makes UUIDv7 ids that sort in the order they were made, also within a millisecond. */
export function createIds(now: () => number): () => string {
  let last = -1;
  let seq = 0;
  return () => {
    const msecs = Math.max(now(), last);
    seq = msecs === last ? seq + 1 : 0;
    last = msecs;
    return v7({ msecs, seq });
  };
}
