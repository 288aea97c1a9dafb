/** The two kinds of listeners that every link keeps. */
export interface LinkListeners {
  onBytes(listener: (bytes: Uint8Array) => void): () => void;
  onClosed(listener: (pulled: boolean) => void): () => void;
  hear(bytes: Uint8Array): void;
  /** Tells of the end once, whichever way it came. */
  end(pulled: boolean): void;
}

export function linkListeners(): LinkListeners {
  const bytesListeners = new Set<(bytes: Uint8Array) => void>();
  const closedListeners = new Set<(pulled: boolean) => void>();
  let hasEnded = false;
  const adder =
    <T>(listeners: Set<T>) =>
    (listener: T) => {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    };
  return {
    onBytes: adder(bytesListeners),
    onClosed: adder(closedListeners),
    hear(bytes) {
      for (const listener of bytesListeners) listener(bytes);
    },
    end(pulled) {
      if (hasEnded) return;
      hasEnded = true;
      for (const listener of closedListeners) listener(pulled);
    },
  };
}
