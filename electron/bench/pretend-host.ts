import type { ByteDevice } from '../../core/scpi/byte-link.ts';

/** Something that a pretend instrument is reached through; closing it is pulling the plug. */
export interface PretendHost {
  /** Where it is reached: a path, or `host:port`. */
  readonly where: string;
  /** Resolves with the reason when the place is gone without being closed. */
  readonly gone: Promise<string>;
  close(): Promise<void>;
}

/**
 * Hands what arrived to the device and its answers, which come while it receives, back to the
 * one who asked: two clients of one device never see each other's replies.
 */
export function exchange(
  device: ByteDevice,
  bytes: Uint8Array,
  answer: (bytes: Uint8Array) => void,
): void {
  const stop = device.onBytes(answer);
  try {
    device.receive(bytes);
  } finally {
    stop();
  }
}
