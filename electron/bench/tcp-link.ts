import { connect } from 'node:net';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import { linkListeners } from './link-listeners.ts';
import { linkLost, notOpened } from './link-trouble.ts';

const CONNECT_MS = 3000;

/**
 * Opens a raw TCP socket to an instrument (most listen on port 5025). Throws `port-not-opened`
 * with what to do.
 */
export function openTcpLink(host: string, port: number): Promise<ByteLink> {
  return new Promise((resolve, reject) => {
    const name = `${host}:${port}`;
    const listeners = linkListeners();
    const socket = connect({ host, port, noDelay: true, keepAlive: true });
    let isOpen = false;
    let isOurs = false;
    const timer = setTimeout(
      () => socket.destroy(new Error('ETIMEDOUT: no connection in time')),
      CONNECT_MS,
    );
    let failure: unknown = new Error('the connection was closed at once');
    socket.on('error', (cause) => {
      failure = cause;
    });
    socket.on('data', (bytes) => listeners.hear(bytes));
    // The other side ending its half is the instrument going away.
    socket.on('end', () => socket.destroy());
    socket.on('close', () => {
      clearTimeout(timer);
      const wasOpen = isOpen;
      isOpen = false;
      if (wasOpen) listeners.end(!isOurs);
      else reject(notOpened(name, failure));
    });
    const link: ByteLink = {
      name,
      get isOpen() {
        return isOpen && !socket.destroyed;
      },
      write(bytes) {
        if (!link.isOpen) throw linkLost(name);
        socket.write(bytes);
      },
      onBytes: listeners.onBytes,
      onClosed: listeners.onClosed,
      close: () =>
        new Promise<void>((closed) => {
          isOurs = true;
          if (socket.destroyed) closed();
          else {
            socket.once('close', () => closed());
            socket.destroy();
          }
        }),
    };
    socket.on('connect', () => {
      clearTimeout(timer);
      isOpen = true;
      resolve(link);
    });
  });
}
