import { SerialPort } from 'serialport';
import type { PortLine } from '../../core/contract/bench-calls.ts';

/** Lists the serial ports; when the system cannot tell them, an empty list and why. */
export async function listSerialPorts(): Promise<{
  ports: readonly PortLine[];
  why: string | null;
}> {
  try {
    const ports = (await SerialPort.list()).map((port) => ({
      path: port.path,
      about: [port.manufacturer, port.serialNumber].filter(Boolean).join(' '),
    }));
    return { ports, why: null };
  } catch (thrown) {
    const text = thrown instanceof Error ? thrown.message : String(thrown);
    const why = /udevadm/.test(text)
      ? 'This system has no udevadm to list ports with (package udev). Type the path of the port instead.'
      : `The ports could not be listed: ${text}. Type the path of the port instead.`;
    return { ports: [], why };
  }
}
