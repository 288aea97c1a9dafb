import type { MeterReading } from '../../core/instruments/meter.ts';
import type { Quantity } from '../../core/job/job.ts';

/** Looks at the volts on the point that a resistance was just read at, with the probe still on it. */
export interface VoltsCheck {
  see(reading: MeterReading): void;
  /** Whether the point is dead; also true when this meter cannot be switched to tell. */
  readonly isDead: Promise<boolean>;
  /** Gives up: the reading is not kept. */
  stop(): void;
}

/** Volts above which a resistance is no reading. Common practice, no source. */
const DEAD_V = 0.05;
/** The first reading after a change of function may belong to the old one. */
const READINGS = 2;
/** A meter that says nothing in volts for this long cannot clear the point. */
const WAIT_MS = 6000;

/** Puts the meter in volts, waits for its word, and puts it back. */
export function createVoltsCheck(
  setFunction: (quantity: Quantity) => Promise<unknown>,
  back: Quantity,
): VoltsCheck {
  let volts: number[] = [];
  let answer: (isDead: boolean) => void = () => {};
  const told = new Promise<boolean>((resolve) => {
    answer = resolve;
  });

  async function run(): Promise<boolean> {
    try {
      await setFunction('volts');
    } catch {
      // A meter whose switch is turned by hand: its sign and the feed's volts are all there is.
      return true;
    }
    const timer = setTimeout(() => answer(false), WAIT_MS);
    const isDead = await told;
    clearTimeout(timer);
    await setFunction(back);
    return isDead;
  }

  return {
    see(reading) {
      if (reading.quantity !== 'volts') return;
      volts = [...volts, reading.overload || reading.value === null ? Infinity : reading.value];
      if (volts.length >= READINGS) answer(Math.abs(volts.at(-1)!) <= DEAD_V);
    },
    isDead: run(),
    stop: () => answer(false),
  };
}
