import { createServer, type Socket } from 'node:net';
import { WakelineError } from '../../core/errors.ts';
import type { ByteDevice } from '../../core/scpi/byte-link.ts';
import { exchange, type PretendHost } from './pretend-host.ts';

/**
 * Puts a device on a port of this machine (127.0.0.1 only); port 0 takes a free one. Throws
 * `port-not-opened` when the port is taken.
 */
export async function hostOnTcp(device: ByteDevice, port: number): Promise<PretendHost> {
  const sockets = new Set<Socket>();
  const server = createServer((socket) => {
    sockets.add(socket);
    socket.setNoDelay(true);
    socket.on('error', () => {});
    socket.on('close', () => sockets.delete(socket));
    socket.on('data', (piece) => exchange(device, piece, (bytes) => socket.write(bytes)));
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause) =>
      reject(
        new WakelineError(
          {
            code: 'port-not-opened',
            what: `The port could not be opened: ${cause.message}`,
            where: `127.0.0.1:${port}`,
            todo: 'Choose another port, or 0 for a free one.',
          },
          { cause },
        ),
      ),
    );
    server.listen(port, '127.0.0.1', resolve);
  });
  const address = server.address();
  const taken = typeof address === 'object' && address !== null ? address.port : port;
  return {
    where: `127.0.0.1:${taken}`,
    gone: new Promise(() => {}),
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        for (const socket of sockets) socket.destroy();
      }),
  };
}
