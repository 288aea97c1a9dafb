import { describe, expect, it } from 'vitest';
import { USUAL_ATTENTION } from '../../../core/attention/attention-settings.ts';
import { createNoticeFinder } from '../../../core/attention/notices.ts';
import type { StageId, StageReport } from '../../../core/stages/stage.ts';

const reportOf = (stage: StageId, lastsS: number) =>
  ({
    stages: [{ stage, startS: 10, endS: 10 + lastsS, reason: 'Because.', confidence: 0.9 }],
  }) as unknown as StageReport;
const trouble = (where: string) =>
  ({
    code: where.startsWith('guard') ? 'guard-tripped' : 'port-lost',
    what: 'The supply is gone',
    where,
    todo: 'Look.',
  }) as const;

describe('notices on the desktop', () => {
  it('tell a stage once, when it has lasted', () => {
    const find = createNoticeFinder(() => USUAL_ATTENTION);
    expect(find.stages('run', reportOf('running', 1), true)).toBeNull();
    expect(find.stages('run', reportOf('running', 4), true)).toMatchObject({ title: 'Running' });
    expect(find.stages('run', reportOf('running', 9), true)).toBeNull();
    expect(find.stages('run', reportOf('fell-back', 4), true)?.about).toBe('stage');
    expect(find.stages('other', reportOf('fell-back', 4), true)).not.toBeNull();
  });

  it('say nothing of what the bench reads while the output is off', () => {
    const find = createNoticeFinder(() => USUAL_ATTENTION);
    expect(find.stages('run', reportOf('off', 60), false)).toBeNull();
  });

  it('tell a guard from a lost instrument, and can each be off', () => {
    const find = createNoticeFinder(() => ({ ...USUAL_ATTENTION, noticeLost: false }));
    expect(find.alarm(trouble('supply'))).toBeNull();
    expect(find.alarm(trouble('guard on amps'))?.about).toBe('guard');
    const quiet = createNoticeFinder(() => ({
      ...USUAL_ATTENTION,
      noticeGuard: false,
      noticeStage: false,
      noticeSoak: false,
    }));
    expect(quiet.alarm(trouble('guard on amps'))).toBeNull();
    expect(quiet.stages('run', reportOf('running', 4), true)).toBeNull();
    expect(quiet.soak('10 min', true)).toBeNull();
    expect(quiet.alarm(trouble('meter'))?.body).toBe('meter. Look.');
  });
});
