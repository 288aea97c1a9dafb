import type { Handlers } from '../../core/contract/contract.ts';
import type { huntCalls } from '../../core/contract/hunt-calls.ts';
import type { InjectionState, injectionCalls } from '../../core/contract/injection-calls.ts';
import type { Trouble } from '../../core/errors.ts';
import type { GuardSettings } from '../../core/guard/guard-settings.ts';
import type { MeterReading } from '../../core/instruments/meter.ts';
import type { SupplyReading } from '../../core/instruments/supply.ts';
import type { Feed } from '../../core/job/job.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import type { BenchSupply } from './bench-supply.ts';

/** What of the ledger injecting asks. */
export type HuntLedger = Pick<Handlers<typeof huntCalls>, 'listHunts' | 'planHunt' | 'changeHunt'>;

/** What injecting needs of the bench around it. */
export interface InjectionParts {
  readonly clock: Clock;
  readonly ledger: HuntLedger;
  supply(): BenchSupply;
  jobId(): string | null;
  feed(): Feed;
  /** The job's own steps before power. Throws `gate-closed`. */
  checkGates(): Promise<void>;
  /** Makes sure that somebody would switch off if this process died. Throws `gate-closed`. */
  beforeOutputOn(): Promise<void>;
  tell(state: InjectionState): void;
  alarm(trouble: Trouble): void;
}

/** Putting current in: a mode of the supply in which the output is on only while a key is held. */
export interface BenchInjection {
  readonly handlers: Handlers<typeof injectionCalls>;
  /** The hunt that the mode is on for; null = it is off. */
  readonly huntId: string | null;
  /** Limits in force instead of the usual ones; null = the usual ones count. */
  readonly guard: GuardSettings | null;
  /** Throws `gate-closed` while the mode is on: what feeds a waking board has to wait. */
  mustBeOff(what: string): void;
  seeSupply(reading: SupplyReading): void;
  seeMeter(reading: MeterReading): void;
  /** Looks after the held key; often. */
  beat(): void;
  /** As if the key was let go: the window lost the keyboard, or somebody switched off. */
  letGo(why: string): void;
  /** A guard switched off: it stays off until somebody has seen it. */
  tripped(text: string): void;
  /** Leaves the mode, output off first. Throws when the normal settings could not be set. */
  leave(): Promise<void>;
}
