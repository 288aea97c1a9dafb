import type { BenchState } from '../../core/contract/bench-calls.ts';

/** The part of the system that keeps the machine from sleeping. */
export interface SleepBlocker {
  start(kind: 'prevent-app-suspension'): number;
  stop(id: number): unknown;
}

/** Keeps the machine awake while a powered run is live. */
export interface KeepAwake {
  readonly isBlocking: boolean;
  see(bench: BenchState): void;
  close(): void;
}

/** The screen may sleep; the polling may not. */
export function createKeepAwake(blocker: SleepBlocker): KeepAwake {
  let id: number | null = null;

  function set(isWanted: boolean): void {
    if (isWanted && id === null) id = blocker.start('prevent-app-suspension');
    if (!isWanted && id !== null) {
      blocker.stop(id);
      id = null;
    }
  }

  return {
    get isBlocking() {
      return id !== null;
    },
    see({ run, supply }) {
      const isPowered = run !== null && run.kind !== 'idle' && run.endedAt === null;
      // A lost supply may still be feeding the board.
      set(isPowered || supply.outputOn === true);
    },
    close: () => set(false),
  };
}
