import { BOARD_SHELF } from '../../core/bench-model/board-shelf.ts';
import { createPretendBench } from '../../core/bench-model/pretend-bench.ts';
import { troubleOf } from '../../core/errors.ts';
import type { PretendHost } from '../bench/pretend-host.ts';
import { hostHands } from '../bench/pretend-host-hands.ts';
import { hostOnPty } from '../bench/pretend-host-pty.ts';
import { hostOnTcp } from '../bench/pretend-host-tcp.ts';
import { PRETEND_USAGE, pretendOptions } from './pretend-options.ts';

/** How often the bench is brought up to now while nobody asks, so that no answer waits for hours of model. */
const IDLE_MS = 200;

/**
 * Puts the pretend supply (or, with `--meter`, the meter) on a pseudo-terminal or a port, in this
 * process, until it is told to end (SIGINT, SIGTERM). Says one line when ready. Returns the exit
 * code: 0, 1 when a place could not be opened, 2 for bad input, with one line on standard error.
 */
export async function pretend(argv: readonly string[]): Promise<number> {
  if (argv.includes('--help')) {
    const boards = BOARD_SHELF.map(({ shelf }) => `  ${shelf.key.padEnd(18)}${shelf.name}`);
    process.stdout.write(`Usage: ${PRETEND_USAGE}\n\nBoards:\n${boards.join('\n')}\n`);
    return 0;
  }
  const hosts: PretendHost[] = [];
  try {
    const options = pretendOptions(argv);
    const bench = createPretendBench({
      seed: options.seed,
      nowS: () => performance.now() / 1000,
    });
    if (options.board !== null) bench.putBoard(options.board);
    const first = options.meter ? bench.meter : bench.supply;
    const places: string[] = [];
    const opened = async (what: string, host: Promise<PretendHost>) => {
      hosts.push(await host);
      places.push(`${what} on ${hosts.at(-1)?.where}`);
    };
    const firstName = options.meter ? 'meter' : 'supply';
    if (options.serial !== null) await opened(firstName, hostOnPty(first, options.serial));
    if (options.tcp !== null) await opened(firstName, hostOnTcp(first, options.tcp));
    const { meterSerial, meterTcp, hands } = options;
    if (meterSerial !== null) await opened('meter', hostOnPty(bench.meter, meterSerial));
    if (meterTcp !== null) await opened('meter', hostOnTcp(bench.meter, meterTcp));
    if (hands !== null) await opened('hands', hostHands(bench, hands));
    const timer = setInterval(() => bench.advanceTo(performance.now() / 1000), IDLE_MS);
    const ended = told(['SIGINT', 'SIGTERM', 'SIGHUP']);
    process.stdout.write(`pretend: ready, ${places.join(', ')}, ${boardWords(options.board)}\n`);
    const lost = await Promise.race([ended, ...hosts.map((host) => host.gone)]);
    clearInterval(timer);
    if (lost === null) return 0;
    process.stderr.write(`pretend: ${lost}. Start it again.\n`);
    return 1;
  } catch (thrown) {
    const { code, what, where, todo } = troubleOf(thrown, 'pretend');
    process.stderr.write(`pretend: ${what} (${where}). ${todo}\n`);
    return code === 'bad-input' ? 2 : 1;
  } finally {
    await Promise.all(hosts.map((host) => host.close()));
  }
}

function boardWords(board: string | null): string {
  return board === null ? 'no board' : `board ${board}`;
}

function told(signals: readonly NodeJS.Signals[]): Promise<null> {
  return new Promise((resolve) => {
    for (const signal of signals) process.once(signal, () => resolve(null));
  });
}
