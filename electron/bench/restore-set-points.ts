import { WakelineError } from '../../core/errors.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import type { BenchSupply } from './bench-supply.ts';

/** How long readings may take to show that the output is off. */
const WAIT_MS = 2000;
const LOOK_EVERY_MS = 25;

/**
 * Sets volts and limit from before, once readings show that the output is off: the volts of a waking
 * board must never reach a rail that current was put into. Throws `gate-closed` when it stays on.
 */
export async function restoreSetPoints(
  supply: BenchSupply,
  clock: Clock,
  { setV, limitA }: { readonly setV: number | null; readonly limitA: number | null },
): Promise<void> {
  const untilMs = clock.nowMs() + WAIT_MS;
  await supply.driver().outputOff();
  while (supply.state.outputOn !== false && clock.nowMs() < untilMs) {
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
  }
  if (supply.state.outputOn !== false) {
    throw new WakelineError({
      code: 'gate-closed',
      what: 'No reading shows that the output is off, so the volts from before were not set',
      where: 'leaving injecting',
      todo: 'Switch it off at its own front and set the volts by hand.',
    });
  }
  if (limitA !== null) await supply.driver().setLimit(limitA);
  if (setV !== null) await supply.driver().setVolts(setV);
  await supply.refresh();
}
