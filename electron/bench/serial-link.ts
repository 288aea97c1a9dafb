import { SerialPort } from 'serialport';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import { linkListeners } from './link-listeners.ts';
import { linkLost, notOpened } from './link-trouble.ts';

/**
 * Opens a serial port for us alone, 8 data bits, no parity, one stop bit. Throws `port-not-opened`
 * with what to do. `isShared` opens it although it is held: the lock is advisory on Unix, and the
 * watcher must get at a port that a stopped main still holds; everybody else keeps to the lock.
 */
export function openSerialLink(path: string, baud: number, isShared = false): Promise<ByteLink> {
  return new Promise((resolve, reject) => {
    const listeners = linkListeners();
    const port = new SerialPort({ path, baudRate: baud, lock: !isShared, autoOpen: false });
    port.on('data', (bytes: Buffer) => listeners.hear(bytes));
    // A pulled port may say so, say nothing until the next write fails, or close without a word of
    // being pulled: any end that we did not ask for is a pulled cable.
    let isOurs = false;
    port.on('close', () => listeners.end(!isOurs));
    port.on('error', () => {
      listeners.end(!isOurs);
      if (port.isOpen && !port.closing) port.close(() => {});
    });
    const link: ByteLink = {
      name: path,
      get isOpen() {
        return port.isOpen && !port.closing;
      },
      write(bytes) {
        if (!link.isOpen) throw linkLost(path);
        port.write(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength));
      },
      onBytes: listeners.onBytes,
      onClosed: listeners.onClosed,
      close: () =>
        new Promise<void>((closed) => {
          isOurs = true;
          if (!link.isOpen) closed();
          else port.close(() => closed());
        }),
    };
    port.open((cause) => {
      if (cause === null) resolve(link);
      else reject(notOpened(path, cause));
    });
  });
}
