import { describe, expect, it } from 'vitest';
import { createKeepAwake } from '../../../electron/attention/keep-awake.ts';
import { benchState, liveRun } from '../../support/idle-bench.ts';

function blocker() {
  const did: string[] = [];
  const awake = createKeepAwake({
    start: (kind) => {
      did.push(`start ${kind}`);
      return 7;
    },
    stop: (id) => did.push(`stop ${id}`),
  });
  return { awake, did };
}

describe('keeping the machine awake', () => {
  it('lasts exactly as long as a powered run', () => {
    const { awake, did } = blocker();
    awake.see(benchState({ supply: { outputOn: false } }));
    expect(did).toEqual([]);
    awake.see(benchState({ run: liveRun(), supply: { outputOn: true } }));
    awake.see(benchState({ run: liveRun(), supply: { outputOn: true } }));
    expect(did).toEqual(['start prevent-app-suspension']);
    awake.see(benchState({ run: liveRun({ kind: 'idle' }), supply: { outputOn: false } }));
    expect(did).toEqual(['start prevent-app-suspension', 'stop 7']);
  });

  it('goes on while the supply is lost during the run, and ends with the app', () => {
    const { awake, did } = blocker();
    awake.see(benchState({ run: liveRun(), supply: { link: 'lost', outputOn: null } }));
    expect(awake.isBlocking).toBe(true);
    awake.close();
    expect(did.at(-1)).toBe('stop 7');
  });
});
