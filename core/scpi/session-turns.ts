import { type Trouble, WakelineError } from '../errors.ts';

/** Which line a request waits in. */
export type Lane = 'usual' | 'urgent';

/** Requests waiting for their turn: one runs at a time, urgent ones before all others. */
export interface Turns {
  /** Runs `work` when it is its turn and gives its outcome. */
  take<T>(lane: Lane, kind: 'query' | 'set', message: string, work: () => Promise<T>): Promise<T>;
  /** Gives up every set that still waits. */
  dropSets(troubleFor: (message: string) => Trouble): void;
}

interface Turn {
  readonly kind: 'query' | 'set';
  readonly message: string;
  run(): Promise<void>;
  giveUp(trouble: Trouble): void;
}

export function turns(): Turns {
  const lanes: Readonly<Record<Lane, Turn[]>> = { usual: [], urgent: [] };
  let isRunning = false;

  async function runAll(): Promise<void> {
    if (isRunning) return;
    isRunning = true;
    for (;;) {
      const turn = lanes.urgent.shift() ?? lanes.usual.shift();
      if (turn === undefined) break;
      await turn.run();
    }
    isRunning = false;
  }

  return {
    take: (lane, kind, message, work) =>
      new Promise((resolve, reject) => {
        lanes[lane].push({
          kind,
          message,
          run: () => work().then(resolve, reject),
          giveUp: (trouble) => reject(new WakelineError(trouble)),
        });
        void runAll();
      }),
    dropSets(troubleFor) {
      const waiting = lanes.usual.splice(0);
      lanes.usual.push(...waiting.filter((turn) => turn.kind === 'query'));
      for (const turn of waiting) if (turn.kind === 'set') turn.giveUp(troubleFor(turn.message));
    },
  };
}
