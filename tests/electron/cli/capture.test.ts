import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { PretendHost } from '../../../electron/bench/pretend-host.ts';
import { hostOnTcp } from '../../../electron/bench/pretend-host-tcp.ts';
import { capture } from '../../../electron/cli/capture.ts';
import { dialogueSupply } from '../../support/dialogue-supply.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('capture');
let host: PretendHost | null = null;
afterEach(async () => {
  vi.restoreAllMocks();
  await host?.close();
  host = null;
});

/** Runs the verb and gives its exit code and what it said on both outputs. */
async function run(...argv: string[]) {
  const said = { out: '', err: '' };
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    said.out += String(text);
    return true;
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    said.err += String(text);
    return true;
  });
  const code = await capture(argv);
  vi.restoreAllMocks();
  return { code, ...said };
}

describe('capture', () => {
  it('records a supply as CSV with its digits, and sends queries only', async () => {
    const device = dialogueSupply();
    device.state.isOn = true;
    host = await hostOnTcp(device, 0);
    const path = join(folder, 'run.csv');
    const { code, out } = await run(
      '--tcp',
      host.where,
      '--seconds',
      '0.6',
      '--csv',
      path,
      '--json',
    );
    expect(code).toBe(0);
    const rows = readFileSync(path, 'utf8').trimEnd().split('\n');
    expect(rows[0]).toBe('time_s,volts_v,amps_a,regulation,output');
    expect(rows[1]).toBe('0.0000,5.000,0.0500,cv,on');
    const summary = JSON.parse(out);
    expect(summary).toMatchObject({
      instrument: 'BENCHWORKS,TWO-FORTY,000017,1.4',
      dialect: 'plain',
      samples: rows.length - 1,
      lost: 0,
    });
    expect(summary.rateHz).toBeGreaterThan(15);
    for (const message of device.taken) {
      for (const unit of message.split(';')) expect(unit.split(' ')[0]).toMatch(/\?$/);
    }
  });

  it('gives rows on standard output without a file', async () => {
    host = await hostOnTcp(dialogueSupply(), 0);
    const { code, out } = await run('--tcp', host.where, '--seconds', '0.3');
    expect(code).toBe(0);
    expect(out.split('\n')[1]).toMatch(/^0\.0000,0\.002,-0\.0001,off,off$/);
  });

  it('never writes over a file that is there', async () => {
    host = await hostOnTcp(dialogueSupply(), 0);
    const path = join(folder, 'old.csv');
    writeFileSync(path, 'somebody’s recording');
    const { code, err } = await run('--tcp', host.where, '--seconds', '1', '--csv', path);
    expect(code).toBe(2);
    expect(err).toContain('There is a file of this name already');
    expect(readFileSync(path, 'utf8')).toBe('somebody’s recording');
  });

  it.each([
    [[], 'Give one of --port and --tcp'],
    [['--port', 'a', '--tcp', 'b:1', '--seconds', '1'], 'Give one of --port and --tcp'],
    [['--port', 'a'], '--seconds is missing'],
    [['--port', 'a', '--seconds', 'long'], '--seconds takes a number'],
    [['--port', 'a', '--seconds', '-1'], "Option '--seconds'"],
    [['--tcp', 'nowhere', '--seconds', '1'], '--tcp takes HOST:PORT, not "nowhere"'],
    [['--tcp', 'a:99999', '--seconds', '1'], '--tcp takes HOST:PORT'],
    [['--port', 'a', '--baud', '1', '--seconds', '1'], '--baud takes a number'],
    [['--port', 'a', '--seconds', '1', '--loud'], "Unknown option '--loud'"],
  ])('refuses %j with exit 2 and one line', async (argv, why) => {
    const { code, out, err } = await run(...argv);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(err).toContain(why);
  });

  it('says of a port that does not open what to do, with exit 1', async () => {
    const { code, err } = await run('--port', '/dev/no-such-port', '--seconds', '1');
    expect(code).toBe(1);
    expect(err).toContain('There is no such port (/dev/no-such-port). Plug the instrument in');
  });
});
