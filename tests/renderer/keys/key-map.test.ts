import { describe, expect, it } from 'vitest';
import { actionFor, KEY_MAP } from '../../../renderer/keys/key-map.ts';

const press = (key: string, more: Partial<Parameters<typeof actionFor>[0]> = {}) =>
  actionFor({ key, isTyping: false, hasModifier: false, lettersAreOn: true, ...more });

describe('keys', () => {
  it('switch the output off from anywhere: typing, letters put off', () => {
    expect(press('F9', { isTyping: true, lettersAreOn: false })).toBe('outputOff');
  });

  it('leave letters to the field that is being typed in', () => {
    expect(press('w', { isTyping: true })).toBeNull();
    expect(press('w')).toBe('wakeRequest');
    expect(press('W')).toBe('wakeRequest');
  });

  it('leave combinations to the system', () => {
    expect(press('w', { hasModifier: true })).toBeNull();
  });

  it('can be put off where they are single letters (WCAG 2.2, 2.1.4)', () => {
    expect(press('d', { lettersAreOn: false })).toBeNull();
    expect(press('F2', { lettersAreOn: false })).toBe('showJobs');
  });

  it('name every key once', () => {
    const keys = Object.values(KEY_MAP).map((entry) => entry.key);
    expect(new Set(keys).size).toBe(keys.length);
  });
});
