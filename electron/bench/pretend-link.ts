import type { ByteDevice, ByteLink } from '../../core/scpi/byte-link.ts';
import { linkListeners } from './link-listeners.ts';
import { linkLost } from './link-trouble.ts';

/**
 * A link to a device in this process. Bytes cross in a later turn of the loop, as they would over
 * a wire, after `latencyMs` each way when given.
 */
export async function openPretendLink(
  device: ByteDevice,
  name: string,
  latencyMs = 0,
): Promise<ByteLink> {
  const listeners = linkListeners();
  let isOpen = true;
  const later = (fn: () => void) => {
    if (latencyMs > 0) setTimeout(fn, latencyMs);
    else setImmediate(fn);
  };
  const stopHearing = device.onBytes((bytes) => {
    const piece = bytes.slice();
    later(() => {
      if (isOpen) listeners.hear(piece);
    });
  });
  return {
    name,
    get isOpen() {
      return isOpen;
    },
    write(bytes) {
      if (!isOpen) throw linkLost(name);
      const piece = bytes.slice();
      later(() => {
        if (isOpen) device.receive(piece);
      });
    },
    onBytes: listeners.onBytes,
    onClosed: listeners.onClosed,
    async close() {
      if (!isOpen) return;
      isOpen = false;
      stopHearing();
      listeners.end(false);
    },
  };
}
