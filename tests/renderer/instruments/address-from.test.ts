import { describe, expect, it } from 'vitest';
import { instrumentAddress } from '../../../core/contract/bench-calls.ts';
import { addressFrom } from '../../../renderer/instruments/address-from.ts';

const typed = { path: '', baud: '9600', host: '', port: '5025' };

describe('where an instrument is', () => {
  it('is a port, a host or the pretend bench', () => {
    for (const address of [
      addressFrom('pretend', typed),
      addressFrom('serial', { ...typed, path: ' /dev/ttyUSB0 ' }),
      addressFrom('tcp', { ...typed, host: '192.168.0.20' }),
    ]) {
      expect(instrumentAddress.safeParse(address).success).toBe(true);
    }
  });

  it('says what is missing', () => {
    expect(addressFrom('serial', typed)).toMatch(/Which port/);
    expect(addressFrom('tcp', typed)).toMatch(/Which host/);
    expect(addressFrom('tcp', { ...typed, host: 'a', port: '70000' })).toMatch(
      /between 1 and 65535/,
    );
    expect(addressFrom('tcp', { ...typed, host: 'a', port: 'x' })).toMatch(/between/);
  });
});
