import type { BenchState, benchCalls } from '../../core/contract/bench-calls.ts';
import type { EventName, Events, Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import type { probingCalls } from '../../core/contract/probing-calls.ts';
import type { soakCalls } from '../../core/contract/soak-calls.ts';
import type { MeterReading } from '../../core/instruments/meter.ts';
import type { SupplyReading } from '../../core/instruments/supply.ts';
import { createBenchProbing } from './bench-probing.ts';
import { createBenchSoak } from './bench-soak.ts';
import { createHoldOutput } from './hold-output.ts';

export interface HandsFreeParts {
  bench(): BenchState;
  readonly acts: Pick<
    Handlers<typeof benchCalls>,
    'meterFunction' | 'mark' | 'outputOn' | 'outputOff'
  >;
  readonly ledger: Handlers<typeof jobCalls>;
  wallMs(): number;
  tell<E extends EventName>(event: E, fact: Events[E]): void;
}

/** What the bench does while nobody touches the keyboard: measuring by touch, and soaks. */
export interface HandsFree {
  readonly handlers: Handlers<typeof probingCalls & typeof soakCalls>;
  /** The pedal while no window of ours is in front: takes the reading, or marks a wake request. */
  pedal(): Promise<void>;
  meterReading(reading: MeterReading, midMs: number): void;
  supplyReading(reading: SupplyReading, midMs: number): void;
  /** Hears what main tells the window. */
  hear<E extends EventName>(event: E, fact: Events[E]): void;
  close(): Promise<void>;
}

export function createHandsFree(parts: HandsFreeParts): HandsFree {
  const probing = createBenchProbing({
    bench: parts.bench,
    setFunction: async (quantity) => parts.acts.meterFunction({ quantity }),
    ledger: parts.ledger,
    tell: (state) => parts.tell('probeChanged', state),
    wallMs: parts.wallMs,
  });
  const soak = createBenchSoak({
    bench: parts.bench,
    ledger: parts.ledger,
    note: (text) => parts.acts.mark({ mark: 'note', text }),
    wallMs: parts.wallMs,
    tell: (state) => parts.tell('soakChanged', state),
  });
  const hold = createHoldOutput({
    on: () => parts.acts.outputOn({}),
    off: () => parts.acts.outputOff({}),
    nowMs: parts.wallMs,
    silent: () =>
      parts.tell('alarmRaised', {
        code: 'internal',
        what: 'The output was switched off: nothing was heard of the held pedal',
        where: 'pedal',
        todo: 'Let go and press again. If the window stands still, open the app anew.',
      }),
  });
  return {
    handlers: {
      ...probing.handlers,
      ...soak.handlers,
      holdOutput: ({ isHeld }) => hold.hold(isHeld),
    },
    async pedal() {
      const state = await probing.handlers.probeState({});
      if (state.along !== 'off') await probing.handlers.forceProbe({});
      else await parts.acts.mark({ mark: 'wake-request', text: '' });
    },
    meterReading: probing.push,
    supplyReading: soak.see,
    hear(event, fact) {
      const told = { event, fact } as {
        [N in EventName]: { event: N; fact: Events[N] };
      }[EventName];
      if (told.event === 'benchChanged') probing.benchChanged(told.fact);
      if (told.event === 'jobChanged') probing.jobChanged(told.fact.jobId);
      if (told.event === 'stagesChanged') soak.seeStages(told.fact.runId, told.fact.report);
      if (told.event === 'runEnded') soak.runEnded(told.fact.run.id);
    },
    async close() {
      hold.close();
      probing.handlers.stopProbing({});
      await Promise.all([probing.settled, soak.close()]);
    },
  };
}
