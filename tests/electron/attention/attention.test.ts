import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { USUAL_ATTENTION } from '../../../core/attention/attention-settings.ts';
import type { Notice } from '../../../core/attention/notices.ts';
import type { SoakState } from '../../../core/contract/soak-calls.ts';
import { createAttention } from '../../../electron/attention/attention.ts';
import { benchState, liveRun } from '../../support/idle-bench.ts';
import { report } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

function attention() {
  const shown: Notice[] = [];
  const made = createAttention({
    file: path.join(tempFolder('attention'), 'attention.json'),
    blocker: { start: () => 1, stop: () => {} },
    show: (notice) => shown.push(notice),
  });
  return { made, shown, about: () => shown.map((one) => one.about) };
}
const lost = {
  code: 'port-lost',
  what: 'The meter is gone',
  where: 'meter',
  todo: 'Look.',
} as const;
const soaked = (passed: boolean) =>
  ({ verdict: { passed, words: `Soak ${passed}` } }) as unknown as SoakState;

describe('calling a person who is away', () => {
  it('tells stages of the powered run, lost instruments, guards and soaks', () => {
    const { made, shown, about } = attention();
    made.hear('benchChanged', benchState({ run: liveRun() }));
    made.hear('stagesChanged', { runId: liveRun().id, report: report() });
    made.hear('stagesChanged', { runId: 'an idle one', report: report() });
    made.hear('alarmRaised', lost);
    made.hear('alarmRaised', { ...lost, code: 'guard-tripped' });
    made.hear('soakChanged', soaked(true));
    made.hear('soakChanged', soaked(true));
    expect(about()).toEqual(['stage', 'lost', 'guard', 'soak']);
    expect(shown[0]?.title).toBe('Running');
    expect(made.isAwake).toBe(true);
  });

  it('keeps quiet about what was switched off, from then on', () => {
    const { made, about } = attention();
    made.set({ ...USUAL_ATTENTION, noticeLost: false, noticeSoak: false });
    made.hear('alarmRaised', lost);
    made.hear('soakChanged', soaked(false));
    expect(about()).toEqual([]);
    expect(made.settings.noticeLost).toBe(false);
  });
});
