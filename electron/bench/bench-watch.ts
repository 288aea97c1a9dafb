import type { InstrumentAddress } from '../../core/contract/bench-calls.ts';
import type { GuardPolicy } from '../../core/guard/guard-settings.ts';
import { otherPortNames } from '../watch/port-names.ts';
import type { WatchOrder } from '../watch/watch-lines.ts';
import type { BenchSupply } from './bench-supply.ts';

export interface WatchFacts {
  supplies(): readonly BenchSupply[];
  policy(): GuardPolicy;
  runId(): string | null;
}

/** Says to the watcher what it would have to do if main died now. */
export interface BenchWatch {
  /** The order as things are; `aboutToSwitch` counts its output as on already. */
  order(aboutToSwitch?: BenchSupply): WatchOrder;
}

/** Keeps the port's other names from when it was connected: they may point elsewhere later. */
export function createBenchWatch(facts: WatchFacts): BenchWatch {
  const names = new Map<string, string[]>();

  function otherNames(address: InstrumentAddress): string[] {
    if (address.by !== 'serial') return [];
    let found = names.get(address.path);
    if (found === undefined) {
      found = otherPortNames(address.path);
      names.set(address.path, found);
    }
    return found;
  }

  return {
    order(aboutToSwitch) {
      const supplies = facts.supplies().flatMap((supply) => {
        const { address, outputOn } = supply.state;
        const how = supply.switchOff;
        if (address === null || how === null) return [];
        // One that cannot tell counts as on: an OFF too many harms nobody.
        const isOn = supply === aboutToSwitch || (outputOn ?? how.askOutput === null);
        return [{ address, also: otherNames(address), how, isOn }];
      });
      return { policy: facts.policy(), supplies, runId: facts.runId() };
    },
  };
}
