import type { Trouble } from '../errors.ts';
import { STAGE_WORDS, type StageReport } from '../stages/stage.ts';
import type { AttentionSettings } from './attention-settings.ts';

/** A notification on the desktop. */
export interface Notice {
  readonly about: 'stage' | 'lost' | 'guard' | 'soak';
  readonly title: string;
  readonly body: string;
}

/** Finds what is worth a notification in what main tells the window. */
export interface NoticeFinder {
  stages(runId: string, report: StageReport, isPowered: boolean): Notice | null;
  alarm(trouble: Trouble): Notice | null;
  soak(words: string, passed: boolean): Notice | null;
}

/** Stages that last no longer than this change again by themselves: a staircase is no news. */
const LASTS_S = 3;
const GUARD_CODES: ReadonlySet<string> = new Set(['guard-tripped', 'watcher-acted']);

/** Makes a finder; a stage is told once, and when it has lasted 3 s. */
export function createNoticeFinder(settings: () => AttentionSettings): NoticeFinder {
  let told = '';
  return {
    stages(runId, report, isPowered) {
      const newest = report.stages.at(-1);
      if (!isPowered || newest === undefined) return null;
      if (newest.endS - newest.startS < LASTS_S) return null;
      const key = `${runId} ${newest.stage}`;
      if (key === told) return null;
      told = key;
      if (!settings().noticeStage) return null;
      return { about: 'stage', title: STAGE_WORDS[newest.stage], body: newest.reason };
    },
    alarm(trouble) {
      const isGuard = GUARD_CODES.has(trouble.code);
      const wanted = isGuard ? settings().noticeGuard : settings().noticeLost;
      if (!wanted) return null;
      const body = `${trouble.where}. ${trouble.todo}`;
      return { about: isGuard ? 'guard' : 'lost', title: trouble.what, body };
    },
    soak(words, passed) {
      if (!settings().noticeSoak) return null;
      return { about: 'soak', title: passed ? 'Soak passed' : 'Soak failed', body: words };
    },
  };
}
