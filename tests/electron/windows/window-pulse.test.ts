import { describe, expect, it } from 'vitest';
import { createWindowPulse } from '../../../electron/windows/window-pulse.ts';

function watched() {
  const gone: string[] = [];
  let nowMs = 0;
  const page = { isAlive: true, isCrashed: false, isLoading: false, answers: true };
  const pulse = createWindowPulse({
    contents: {
      isDestroyed: () => false,
      isCrashed: () => page.isCrashed,
      isLoading: () => page.isLoading,
      getOSProcessId: () => 4242,
      executeJavaScript: () => (page.answers ? Promise.resolve(0) : new Promise(() => {})),
    },
    isAlive: () => page.isAlive,
    nowMs: () => nowMs,
    gone: (why) => gone.push(why),
  });
  return {
    gone,
    page,
    pulse,
    async pass(seconds: number) {
      for (let i = 0; i < seconds; i += 1) {
        nowMs += 1000;
        pulse.look();
        await Promise.resolve();
      }
    },
  };
}

describe('the pulse of a window', () => {
  it('is silent about a page that answers, and about one that is not loaded yet', async () => {
    const { gone, page, pulse, pass } = watched();
    page.isAlive = false;
    await pass(100);
    page.isAlive = true;
    pulse.cameBack();
    await pass(100);
    expect(gone).toEqual([]);
  });

  it('tells once of a process that is gone, told of by the system or not', async () => {
    for (const end of [{ isAlive: false }, { isCrashed: true }]) {
      const { gone, page, pulse, pass } = watched();
      pulse.cameBack();
      Object.assign(page, end);
      await pass(5);
      expect(gone).toEqual(['process gone']);
      Object.assign(page, { isAlive: true, isCrashed: false });
      pulse.cameBack();
      await pass(5);
      expect(gone).toHaveLength(1);
    }
  });

  it('tells of a page that stands still for half a minute, not of one that works for 20 s', async () => {
    const { gone, page, pulse, pass } = watched();
    pulse.cameBack();
    page.answers = false;
    await pass(20);
    expect(gone).toEqual([]);
    await pass(15);
    expect(gone).toEqual(['stood still']);
  });

  it('lets a page load for as long as it takes', async () => {
    const { gone, page, pulse, pass } = watched();
    pulse.cameBack();
    page.answers = false;
    page.isLoading = true;
    await pass(90);
    expect(gone).toEqual([]);
  });
});
