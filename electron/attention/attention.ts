import type { AttentionSettings } from '../../core/attention/attention-settings.ts';
import { createNoticeFinder, type Notice } from '../../core/attention/notices.ts';
import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { EventName, Events } from '../../core/contract/contract.ts';
import { keepAttention, readAttention } from './attention-file.ts';
import { createKeepAwake, type SleepBlocker } from './keep-awake.ts';

export interface AttentionParts {
  /** Where the settings are kept. */
  readonly file: string;
  readonly blocker: SleepBlocker;
  show(notice: Notice): void;
}

/** Calls a person who is away: notifications, and no sleep while a board is powered. */
export interface Attention {
  readonly settings: AttentionSettings;
  readonly isAwake: boolean;
  set(settings: AttentionSettings): AttentionSettings;
  /** Hears what main tells the window. */
  hear<E extends EventName>(event: E, fact: Events[E]): void;
  close(): void;
}

/** Makes it, with the settings that were kept. */
export function createAttention(parts: AttentionParts): Attention {
  let settings = readAttention(parts.file);
  let powered: string | null = null;
  let soakTold: string | null = null;
  const awake = createKeepAwake(parts.blocker);
  const finder = createNoticeFinder(() => settings);

  function seeBench(bench: BenchState): void {
    powered = bench.run?.kind === 'powered' ? bench.run.id : null;
    awake.see(bench);
  }

  function noticeIn<E extends EventName>(event: E, fact: Events[E]): Notice | null {
    const told = { event, fact } as { [N in EventName]: { event: N; fact: Events[N] } }[EventName];
    switch (told.event) {
      case 'stagesChanged':
        return finder.stages(told.fact.runId, told.fact.report, told.fact.runId === powered);
      case 'alarmRaised':
        return finder.alarm(told.fact);
      case 'soakChanged': {
        const words = told.fact.verdict?.words ?? null;
        if (words === soakTold) return null;
        soakTold = words;
        return words === null ? null : finder.soak(words, told.fact.verdict?.passed === true);
      }
      case 'benchChanged':
        seeBench(told.fact);
        return null;
      default:
        return null;
    }
  }

  return {
    get settings() {
      return settings;
    },
    get isAwake() {
      return awake.isBlocking;
    },
    set(next) {
      keepAttention(parts.file, next);
      settings = next;
      return settings;
    },
    hear(event, fact) {
      const notice = noticeIn(event, fact);
      if (notice !== null) parts.show(notice);
    },
    close: () => awake.close(),
  };
}
