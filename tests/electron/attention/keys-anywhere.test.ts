import { describe, expect, it } from 'vitest';
import { createKeysAnywhere } from '../../../electron/attention/keys-anywhere.ts';

function keys(o: { taken?: string } = {}) {
  const held = new Map<string, () => void>();
  const did: string[] = [];
  const now = { isWanted: false, isInFront: true };
  const anywhere = createKeysAnywhere({
    system: {
      register: (key, pressed) => {
        if (key === o.taken) return false;
        held.set(key, pressed);
        return true;
      },
      unregister: (key) => void held.delete(key),
    },
    isWanted: () => now.isWanted,
    isInFront: () => now.isInFront,
    keys: [
      ['F8', () => did.push('pedal')],
      ['F9', () => did.push('off')],
    ],
  });
  const set = (part: Partial<typeof now>) => {
    Object.assign(now, part);
    anywhere.look();
  };
  return { held, did, set, anywhere };
}

describe('keys that work behind another window', () => {
  it('are taken from the system only while wanted and nothing of ours is in front', () => {
    const { held, did, set } = keys();
    set({ isInFront: false });
    expect([...held.keys()]).toEqual([]);
    set({ isWanted: true });
    expect([...held.keys()]).toEqual(['F8', 'F9']);
    held.get('F8')?.();
    expect(did).toEqual(['pedal']);
    set({ isInFront: true });
    expect([...held.keys()]).toEqual([]);
  });

  it('live with a key that another program has, and let all go at the end', () => {
    const { held, set, anywhere } = keys({ taken: 'F8' });
    set({ isWanted: true, isInFront: false });
    expect([...held.keys()]).toEqual(['F9']);
    anywhere.close();
    expect([...held.keys()]).toEqual([]);
  });
});
