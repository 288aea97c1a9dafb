import type { GuardTrip } from '../../core/guard/guard-limit.ts';
import type { GuardSettings } from '../../core/guard/guard-settings.ts';
import { type ReadingGuard, readingGuard } from '../../core/guard/reading-guard.ts';
import { type StageGuard, stageGuard } from '../../core/guard/stage-guard.ts';
import type { SupplyReading } from '../../core/instruments/supply.ts';
import type { Stage } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';

/** The two guards over the supply that is polled, with the limits in force. */
export interface BenchGuard {
  /** Puts limits in force; the same ones again change nothing. */
  use(settings: GuardSettings): void;
  /** A reading, before anything else sees it. */
  seeReading(reading: SupplyReading, midMs: number): void;
  /** The stages of the powered run, when they have moved. */
  seeStages(runId: string, stages: readonly Stage[]): void;
}

/** `trip` is called inside `seeReading` and `seeStages`: nothing is waited for. */
export function createBenchGuard(trip: (one: GuardTrip, midMs: number | null) => void): BenchGuard {
  let inForce = '';
  let limits: GuardSettings | null = null;
  const readings: ReadingGuard = readingGuard([]);
  let stages: StageGuard = stageGuard([]);
  let stagesOf: string | null = null;
  let outputOn: boolean | null = null;

  return {
    use(settings) {
      const key = JSON.stringify([settings.readings, settings.stages]);
      if (key === inForce) return;
      inForce = key;
      limits = settings;
      readings.change(settings.readings);
      stages.change(settings.stages);
    },
    seeReading(reading, midMs) {
      outputOn = reading.outputOn ?? outputOn;
      const { volts, amps, regulation } = reading;
      const tick = (midMs * TICKS_PER_SECOND) / 1000;
      for (const one of readings.see({ tick, volts, amps, regulation, outputOn })) {
        trip(one, midMs);
      }
    },
    seeStages(runId, seen) {
      if (stagesOf !== runId) {
        stagesOf = runId;
        stages = stageGuard(limits?.stages ?? []);
      }
      for (const one of stages.see(seen)) trip(one, null);
    },
  };
}
