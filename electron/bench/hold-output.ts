import type { BenchState } from '../../core/contract/bench-calls.ts';

export interface HoldParts {
  on(): Promise<BenchState> | BenchState;
  off(): Promise<BenchState> | BenchState;
  nowMs(): number;
  /** The holder went silent, and the output was switched off for it. */
  silent(): void;
}

/** The output is on only for as long as somebody says again and again that the pedal is held. */
export interface HoldOutput {
  /** Throws what `on` throws; then nothing is held. */
  hold(isHeld: boolean): Promise<BenchState>;
  close(): void;
}

/** A held pedal is told every 250 ms; a window that died tells nothing. */
const SILENT_MS = 1000;
const LOOK_EVERY_MS = 100;

export function createHoldOutput(parts: HoldParts): HoldOutput {
  let isWanted = false;
  let heardMs = 0;
  let switching: Promise<BenchState> | null = null;
  let timer: NodeJS.Timeout | null = null;

  function rest(): void {
    isWanted = false;
    switching = null;
    if (timer) clearInterval(timer);
    timer = null;
  }

  function look(): void {
    if (!isWanted || parts.nowMs() - heardMs <= SILENT_MS) return;
    rest();
    void Promise.resolve(parts.off()).catch(() => {});
    parts.silent();
  }

  return {
    async hold(isHeld) {
      heardMs = parts.nowMs();
      if (!isHeld) {
        rest();
        return parts.off();
      }
      isWanted = true;
      if (switching !== null) return switching;
      timer ??= setInterval(look, LOOK_EVERY_MS);
      switching = Promise.resolve(parts.on());
      try {
        const state = await switching;
        // Let go while it was being switched on: the off that went before came too early.
        return isWanted ? state : parts.off();
      } catch (thrown) {
        rest();
        throw thrown;
      }
    },
    close: rest,
  };
}
