/**
 * An open way to an instrument: bytes out, bytes in, and word when it is gone. Knows nothing
 * of SCPI. Serial ports, sockets and the in-process pretend bench all look like this.
 */
export interface ByteLink {
  /** What a person calls it: a port path, `host:port`, or `pretend supply`. */
  readonly name: string;
  readonly isOpen: boolean;
  /** Hands bytes to the port. Throws `port-lost` when the link is closed. */
  write(bytes: Uint8Array): void;
  /** Calls back with each piece that arrives, in order. Returns the way to stop listening. */
  onBytes(listener: (bytes: Uint8Array) => void): () => void;
  /** Calls back once when the link is gone; `pulled` tells a lost cable from our own close. */
  onClosed(listener: (pulled: boolean) => void): () => void;
  close(): Promise<void>;
}

/** Anything that answers bytes: the pretend instruments, and scripted ones in tests. */
export interface ByteDevice {
  /** Takes what a controller sent, in any pieces. */
  receive(bytes: Uint8Array): void;
  /** Calls back with each piece of an answer. Returns the way to stop listening. */
  onBytes(listener: (bytes: Uint8Array) => void): () => void;
}
