import { type AddressInfo, createServer, type Server, type Socket } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openTcpLink } from '../../../electron/bench/tcp-link.ts';

let server: Server | null = null;
const sockets: Socket[] = [];
afterEach(() => {
  for (const socket of sockets.splice(0)) socket.destroy();
  server?.close();
  server = null;
});

async function serve(onSocket: (socket: Socket) => void): Promise<number> {
  server = createServer((socket) => {
    sockets.push(socket);
    socket.on('error', () => {});
    onSocket(socket);
  });
  await new Promise<void>((resolve) => server!.listen(0, '127.0.0.1', resolve));
  return (server!.address() as AddressInfo).port;
}

describe('a TCP link', () => {
  it('carries bytes both ways', async () => {
    const port = await serve((socket) => socket.on('data', (data) => socket.write(data)));
    const link = await openTcpLink('127.0.0.1', port);
    const heard = new Promise<string>((resolve) =>
      link.onBytes((piece) => resolve(new TextDecoder().decode(piece))),
    );
    link.write(new TextEncoder().encode('*IDN?\n'));
    expect(await heard).toBe('*IDN?\n');
    await link.close();
    expect(link.isOpen).toBe(false);
  });

  it('tells the instrument going away from its own close', async () => {
    const port = await serve((socket) => socket.on('data', () => socket.end()));
    const link = await openTcpLink('127.0.0.1', port);
    const closed = new Promise<boolean>((resolve) => link.onClosed(resolve));
    link.write(Uint8Array.of(10));
    expect(await closed).toBe(true);
    expect(() => link.write(Uint8Array.of(10))).toThrow(WakelineError);

    const again = await openTcpLink('127.0.0.1', port);
    const ours = new Promise<boolean>((resolve) => again.onClosed(resolve));
    await again.close();
    expect(await ours).toBe(false);
  });

  it('that is refused says so and what to check', async () => {
    const port = await serve(() => {});
    server!.close();
    await expect(openTcpLink('127.0.0.1', port)).rejects.toMatchObject({
      trouble: {
        code: 'port-not-opened',
        what: 'The instrument refused the connection',
        where: `127.0.0.1:${port}`,
      },
    });
  });
});
