import { describe, expect, it } from 'vitest';
import { listSerialPorts } from '../../../electron/bench/serial-ports.ts';

describe('the list of serial ports', () => {
  it('is a list, or empty with the reason and what to do instead', async () => {
    const { ports, why } = await listSerialPorts();
    for (const { path } of ports) expect(path).not.toBe('');
    if (why !== null) {
      expect(ports).toEqual([]);
      expect(why).toContain('Type the path of the port instead');
    }
  });

  it('says that udevadm is missing where nothing lists ports', async () => {
    const before = process.env.PATH;
    process.env.PATH = '/nowhere';
    const { ports, why } = await listSerialPorts();
    process.env.PATH = before;
    if (process.platform !== 'linux') return;
    expect(ports).toEqual([]);
    expect(why).toContain('no udevadm');
  });
});
