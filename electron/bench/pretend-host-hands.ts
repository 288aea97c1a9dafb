import { unlink } from 'node:fs/promises';
import { createServer, type Socket } from 'node:net';
import { createInterface } from 'node:readline';
import { z } from 'zod';
import type { PretendBench } from '../../core/bench-model/pretend-bench.ts';
import { benchCalls } from '../../core/contract/bench-calls.ts';
import { troubleOf, WakelineError } from '../../core/errors.ts';
import type { PretendHost } from './pretend-host.ts';

/** What the hands can be told: the window's own calls, taking the board off, and three that only ask. */
const request = z.union([
  benchCalls.hands.args,
  z.object({ do: z.literal('put-board'), board: z.null() }),
  z.object({ do: z.literal('state') }),
  z.object({ do: z.literal('truth') }),
  z.object({ do: z.literal('log') }),
]);

/**
 * Listens on a unix socket for the hands of a bench in another process: a JSON request a line,
 * a JSON answer a line (the bench's state, the truth, the log, or `{"trouble": ...}`).
 */
export async function hostHands(bench: PretendBench, path: string): Promise<PretendHost> {
  const sockets = new Set<Socket>();
  const server = createServer((socket) => {
    sockets.add(socket);
    socket.on('error', () => {});
    socket.on('close', () => sockets.delete(socket));
    createInterface({ input: socket }).on('line', (line) => {
      if (line.trim() !== '') socket.write(`${JSON.stringify(answer(bench, line))}\n`);
    });
  });
  await unlink(path).catch(() => {});
  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause) =>
      reject(
        new WakelineError(
          {
            code: 'port-not-opened',
            what: `The hands' socket could not be opened: ${cause.message}`,
            where: path,
            todo: 'Choose another path in a folder that you may write to.',
          },
          { cause },
        ),
      ),
    );
    server.listen(path, resolve);
  });
  return {
    where: path,
    gone: new Promise(() => {}),
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        for (const socket of sockets) socket.destroy();
      }),
  };
}

function answer(bench: PretendBench, line: string): unknown {
  try {
    return act(bench, read(line));
  } catch (thrown) {
    return { trouble: troubleOf(thrown, 'hands') };
  }
}

function read(line: string): z.infer<typeof request> {
  let json: unknown = null;
  try {
    json = JSON.parse(line);
  } catch {
    // Not JSON: null fits no request, so that it is refused like any other wrong one.
  }
  const parsed = request.safeParse(json);
  if (parsed.success) return parsed.data;
  throw new WakelineError({
    code: 'bad-input',
    what: `Not something that the hands can do: ${line.slice(0, 120)}`,
    where: 'hands',
    todo: 'Send {"do":"put-board","board":"KEY"} (null takes it off), probe, clip, press-wake, replace-part, state, truth or log.',
  });
}

function act(bench: PretendBench, to: z.infer<typeof request>): unknown {
  switch (to.do) {
    case 'put-board':
      bench.putBoard(to.board);
      break;
    case 'probe':
      bench.probe(to.point);
      break;
    case 'clip':
      bench.clip(to.point);
      break;
    case 'press-wake':
      bench.pressWake();
      break;
    case 'replace-part':
      bench.replacePart(to.part);
      break;
    case 'truth':
      return bench.truth();
    case 'log':
      return bench.log;
    case 'state':
      break;
  }
  return bench.state();
}
