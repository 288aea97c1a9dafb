import { SerialPort } from 'serialport';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import { readDirectly, type UnixPort, unixPortOf, writeDirectly } from './direct-port.ts';
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
    // The ready line stays up when the port is closed: it restarts some instruments when it falls.
    const port = new SerialPort({
      path,
      baudRate: baud,
      lock: !isShared,
      hupcl: false,
      autoOpen: false,
    });
    let direct: UnixPort | null = null;
    // A pulled port may say so, say nothing until the next write fails, or close without a word of
    // being pulled: any end that we did not ask for is a pulled cable.
    let isOurs = false;
    port.on('close', () => listeners.end(!isOurs));
    const fail = () => {
      listeners.end(!isOurs);
      if (port.isOpen && !port.closing) port.close(() => {});
    };
    port.on('error', fail);
    const link: ByteLink = {
      name: path,
      get isOpen() {
        return port.isOpen && !port.closing;
      },
      write(bytes) {
        if (!link.isOpen) throw linkLost(path);
        // What still waits in the library goes first.
        const isFree = direct !== null && port.writableLength === 0;
        const rest = isFree ? writeDirectly(direct!, bytes) : bytes;
        if (rest.length === 0) return;
        port.write(Buffer.from(rest.buffer, rest.byteOffset, rest.byteLength));
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
      if (cause !== null) {
        reject(notOpened(path, cause));
        return;
      }
      direct = unixPortOf(port.port);
      if (direct === null) port.on('data', (bytes: Buffer) => listeners.hear(bytes));
      else readDirectly(direct, listeners.hear, fail);
      resolve(link);
    });
  });
}
