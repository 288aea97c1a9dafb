import type { Clock } from '../../core/scpi/session-clock.ts';
import { type OpenWay, tryOff } from './try-off.ts';
import type { WatchedOutcome, WatchedSupply, WatchNote, WatchOrder } from './watch-lines.ts';

export interface OffLoopHooks {
  readonly clock: Clock;
  wallMs(): number;
  readonly open: OpenWay;
  /** Called with every change of what is known. */
  noted(note: WatchNote): void;
  /** True when somebody else has taken over: main beats again, or a new one was started. */
  isTakenOver(): Promise<boolean>;
  /** Ends a main that hangs and holds the port. Returns whether it did. */
  endMain(): boolean;
}

const SOON_MS = 200;
const LATER_MS = 1000;
/** So many rounds at the short pause, then at the long one. */
const SOON_ROUNDS = 25;
/** An instrument that is not back after an hour was switched off by somebody. */
const LONGEST_MS = 60 * 60_000;
/** A hung main may hold the port for so many rounds before it is ended. */
const HELD_ROUNDS = 2;

/** Switches every supply off that is on, again and again until each has read back off. */
export async function offLoop(
  why: WatchNote['why'],
  order: WatchOrder,
  hooks: OffLoopHooks,
): Promise<WatchNote> {
  const { clock } = hooks;
  const startMs = clock.nowMs();
  const outcomes = new Map<WatchedSupply, WatchedOutcome>();
  let open = order.supplies.filter((supply) => supply.isOn);
  for (const supply of open) outcomes.set(supply, notTried(supply));
  let endedMain = false;
  const at = hooks.wallMs();
  const note = (): WatchNote => ({
    at,
    why,
    runId: order.runId,
    endedMain,
    isDone: open.length === 0,
    supplies: [...outcomes.values()],
  });
  hooks.noted(note());
  for (let round = 0; open.length > 0; round += 1) {
    const tries = await Promise.all(
      open.map(async (supply) => ({ supply, ...(await tryOff(supply, clock, hooks.open)) })),
    );
    for (const { supply, result, offMs } of tries) {
      const before = outcomes.get(supply)!;
      outcomes.set(supply, {
        ...before,
        result,
        tries: before.tries + 1,
        offAfterMs: before.offAfterMs ?? (offMs === null ? null : offMs - startMs),
        tookMs: clock.nowMs() - startMs,
      });
    }
    open = tries.filter((one) => !isOff(one.result)).map((one) => one.supply);
    hooks.noted(note());
    if (open.length === 0 || clock.nowMs() - startMs > LONGEST_MS) break;
    if (why === 'main-hung' && round + 1 >= HELD_ROUNDS && tries.some((one) => one.isHeld)) {
      endedMain ||= hooks.endMain();
    }
    await wait(clock, round < SOON_ROUNDS ? SOON_MS : LATER_MS);
    if (await hooks.isTakenOver()) break;
  }
  return note();
}

const isOff = (result: WatchedOutcome['result']) => result === 'read-back-off' || result === 'told';

function notTried({ address, how }: WatchedSupply): WatchedOutcome {
  const name =
    address.by === 'serial'
      ? address.path
      : address.by === 'tcp'
        ? `${address.host}:${address.port}`
        : 'pretend supply';
  const nothing = { result: 'not-opened' as const, tries: 0, offAfterMs: null, tookMs: 0 };
  return { name, identity: how.identity, ...nothing };
}

function wait(clock: Clock, ms: number): Promise<void> {
  return new Promise((resolve) => clock.setTimer(resolve, ms));
}
