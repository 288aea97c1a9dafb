import type { Events, Handlers } from '../../core/contract/contract.ts';
import type { GuardState, guardCalls } from '../../core/contract/guard-calls.ts';
import { type Trouble, troubleOf, WakelineError } from '../../core/errors.ts';
import type { GuardTrip } from '../../core/guard/guard-limit.ts';
import type { GuardSettings } from '../../core/guard/guard-settings.ts';
import type { SupplyReading } from '../../core/instruments/supply.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import type { Stage } from '../../core/stages/stage.ts';
import type { RecorderCalls } from '../ledger/recorder-calls.ts';
import type { WatchHost, WatchHostHooks } from '../watch/watch-host.ts';
import type { WatchNote } from '../watch/watch-lines.ts';
import { dropWatchNote, readWatchNote } from '../watch/watch-note-file.ts';
import { watchNoteText, watchNoteTrouble } from '../watch/watch-words.ts';
import { createBenchGuard } from './bench-guard.ts';
import type { BenchRecorder } from './bench-recorder.ts';
import type { BenchSupply } from './bench-supply.ts';
import { createBenchWatch } from './bench-watch.ts';
import { type GuardFile, readGuardFile } from './guard-file.ts';
import { guardHandlers, guardOf } from './guard-handlers.ts';

/** What the bench needs of the app to be safe to leave alone. */
export interface SafetyOptions {
  /** Starts the watcher; null = none, and the output is switched on without one (tests only). */
  readonly startWatch: ((hooks: WatchHostHooks) => Promise<WatchHost>) | null;
  readonly guardFile: string;
  readonly watchNoteFile: string;
  readonly recorder: RecorderCalls;
}

export interface SafetyParts {
  readonly clock: Clock;
  supply(): BenchSupply;
  recorder(): BenchRecorder;
  jobId(): string | null;
  tell<E extends keyof Events>(event: E, fact: Events[E]): void;
  changed(): void;
  /** Limits that count instead of the chosen ones while current is put in; null = the chosen ones. */
  injectionGuard(): GuardSettings | null;
  /** A guard has switched the output off. */
  tripped(text: string): void;
}

/** Guards and watcher, as the bench uses them. */
export interface BenchSafety {
  readonly handlers: Handlers<typeof guardCalls>;
  readonly isWatcherReady: boolean;
  seeReading(reading: SupplyReading, midMs: number): void;
  seeStages(runId: string, stages: readonly Stage[]): void;
  /**
   * Before output on: the supply's own trips are set, and the watcher has confirmed that it would
   * switch off. Throws `gate-closed`, or what the supply refused.
   */
  beforeOutputOn(): Promise<void>;
  /** Tells the watcher how things are; often. */
  beat(): void;
  /** The window is there: what happened before it was. */
  windowOpened(): void;
  start(): Promise<void>;
  /** Whether an output that can be switched is on, is about to be, or cannot tell. */
  readonly mayBeOn: boolean;
  /** `isOff`: the watcher ends; else it goes on trying to switch off when this process has ended. */
  close(isOff: boolean): Promise<void>;
}

/** Between the order to switch on and the first reading that shows it, it counts as on. */
const ARMED_MS = 5000;
const MARK_WAITS_MS = 5000;

export function createBenchSafety(options: SafetyOptions, parts: SafetyParts): BenchSafety {
  const { clock, tell } = parts;
  const untold: Trouble[] = [];
  const marks: { text: string; midMs: number; ends: boolean }[] = [];
  let hasWindow = false;
  let host: WatchHost | null = null;
  let armedUntilMs = Number.NEGATIVE_INFINITY;
  let ownSet: GuardState['ownSet'] = null;

  const alarm = (trouble: Trouble) => {
    if (hasWindow) tell('alarmRaised', trouble);
    else untold.push(trouble);
  };
  const { settings: onDisk, trouble: fileTrouble } = readGuardFile(options.guardFile);
  let file: GuardFile = onDisk;
  if (fileTrouble !== null) untold.push(fileTrouble);
  const inForce = () => parts.injectionGuard() ?? guardOf(file, parts.jobId());

  const watch = createBenchWatch({
    supplies: () => [parts.supply()],
    policy: () => inForce().policy,
    runId: () => parts.recorder().current?.run.id ?? null,
  });
  const order = () => watch.order(clock.nowMs() < armedUntilMs ? parts.supply() : undefined);

  const mayBeOn = () => order().supplies.some((supply) => supply.isOn);

  /** Sets the supply's own trips where some are asked for: it may be another supply than last time. */
  async function protect(): Promise<void> {
    const { own } = inForce();
    if (own.overV === null && own.overA === null) return;
    ownSet = await parts.supply().driver().setOwnProtection(own);
  }

  /** Switches off now; whatever goes wrong is an alarm. */
  function off(): void {
    try {
      parts
        .supply()
        .driver()
        .outputOff()
        .catch((thrown) => alarm(troubleOf(thrown, 'guard')));
    } catch (thrown) {
      alarm(troubleOf(thrown, 'guard'));
    }
  }

  /** What goes onto the run; `ends` = it is why the run ends. */
  function mark(text: string, midMs: number, ends: boolean): void {
    marks.push({ text, midMs, ends });
  }

  /**
   * A trip may come with the first reading of a run, before the run is begun in the ledger: its
   * mark waits until there is a powered run to put it on.
   */
  function placeMarks(): void {
    const run = parts.recorder().current;
    if (run !== null && run.run.kind !== 'idle') {
      for (const { text, midMs, ends } of marks.splice(0)) {
        run.tracker.guardTrip(run.tickAt(midMs), text);
        if (ends) parts.recorder().endsBy('guard');
      }
    } else if (marks[0] && clock.nowMs() - marks[0].midMs > MARK_WAITS_MS) marks.shift();
  }

  function trip({ action, text }: GuardTrip, midMs: number | null): void {
    const { canSwitch, outputOn } = parts.supply().state;
    const switches = action === 'off' && canSwitch && outputOn !== false;
    // Before anything else: each millisecond here is one more of too much.
    if (switches) {
      off();
      parts.tripped(text);
    }
    const did = switches
      ? 'The guard switched the output off.'
      : action === 'off' && !canSwitch
        ? 'The guard cannot switch this supply: switch it off by hand.'
        : 'The guard tells; the output was left as it is.';
    mark(`${text}. ${did}`, midMs ?? clock.nowMs(), switches);
    tell('alarmRaised', {
      code: 'guard-tripped',
      what: text,
      where: 'guard',
      todo: switches ? `${did} Look at the board before you switch on again.` : did,
    });
  }

  const guard = createBenchGuard(trip);
  guard.use(inForce());

  function acted(note: WatchNote): void {
    // Whatever waited in this process while it hung must not switch on again.
    if (parts.supply().state.canSwitch) off();
    armedUntilMs = Number.NEGATIVE_INFINITY;
    mark(watchNoteText(note), clock.nowMs(), true);
    alarm(watchNoteTrouble(note));
    dropWatchNote(options.watchNoteFile);
  }

  function watcherLost(trouble: Trouble): void {
    const switches = inForce().policy === 'off' && mayBeOn();
    if (switches) {
      off();
      mark('The watcher was lost. The output was switched off.', clock.nowMs(), true);
    }
    alarm(
      switches ? { ...trouble, todo: `The output was switched off. ${trouble.todo}` } : trouble,
    );
  }

  return {
    handlers: guardHandlers({
      file: options.guardFile,
      supply: parts.supply,
      settings: () => file,
      ownSet: () => ownSet,
      async changed(next) {
        file = next;
        guard.use(inForce());
        parts.changed();
        if (parts.supply().state.link === 'live') await protect();
      },
    }),
    get isWatcherReady() {
      return options.startWatch === null || (host?.isReady ?? false);
    },
    seeReading(reading, midMs) {
      guard.seeReading(reading, midMs);
    },
    seeStages: guard.seeStages,
    async beforeOutputOn() {
      await protect();
      if (options.startWatch === null) return;
      armedUntilMs = clock.nowMs() + ARMED_MS;
      if (host !== null) return host.confirm(order());
      throw new WakelineError({
        code: 'gate-closed',
        what: 'The watcher, which switches off when the app dies, could not be started',
        where: 'watcher',
        todo: 'Check that the data folder may be written to, then start the app again.',
      });
    },
    beat() {
      guard.use(inForce());
      placeMarks();
      host?.tell(order());
    },
    windowOpened() {
      hasWindow = true;
      for (const trouble of untold.splice(0)) tell('alarmRaised', trouble);
    },
    async start() {
      const note = readWatchNote(options.watchNoteFile);
      if (note !== null) {
        alarm(watchNoteTrouble(note));
        if (note.runId !== null) {
          const on = { runId: note.runId, text: watchNoteText(note) };
          await options.recorder.markEndOfRun(on).catch(() => undefined);
        }
      }
      dropWatchNote(options.watchNoteFile);
      host =
        (await options
          .startWatch?.({ changed: parts.changed, lost: watcherLost, acted })
          .catch((thrown) => {
            alarm(troubleOf(thrown, 'watcher'));
            return null;
          })) ?? null;
      host?.tell(order());
    },
    get mayBeOn() {
      return mayBeOn();
    },
    async close(isOff) {
      if (isOff) await host?.close();
      else host?.abandon();
    },
  };
}
