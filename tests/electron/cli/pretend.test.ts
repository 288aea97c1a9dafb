import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { type PretendProcess, startPretend } from '../../support/pretend-process.ts';
import { hasSocat } from '../../support/pty.ts';

const PYTHON = '/usr/bin/python3';
const SCRIPT = join(import.meta.dirname, '../../support/read-with-pyvisa.py');

function hasPyvisa(): boolean {
  try {
    execFileSync(PYTHON, ['-c', 'import pyvisa, pyvisa_py, serial'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}
const socat = hasSocat();
const pyvisa = socat && hasPyvisa();
if (!socat) console.log('pretend.test: socat is not installed, so pseudo-terminals are skipped');
else if (!pyvisa) {
  console.log(
    'pretend.test: python3-pyvisa, -pyvisa-py or -serial is missing, so they are skipped',
  );
}

let running: PretendProcess | null = null;
afterEach(async () => {
  await running?.stop();
  running = null;
});

async function start(...args: string[]): Promise<PretendProcess> {
  running = await startPretend(...args);
  return running;
}

function pythonReads(path: string, ending: string, queries: string[]) {
  const out = execFileSync(PYTHON, [SCRIPT, path, ending, ...queries], { encoding: 'utf8' });
  return JSON.parse(out) as { visa: string[]; numbers: number[]; serial: string[] };
}

/** Sends lines over TCP and gives what comes back until `answers` lines are there. */
function overTcp(port: number, text: string, answers: number): Promise<string> {
  return new Promise((done, failed) => {
    let heard = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(text));
    socket.on('error', failed);
    socket.on('data', (piece) => {
      heard += piece.toString();
      if (heard.split('\n').length > answers) socket.destroy();
    });
    socket.on('close', () => done(heard));
  });
}
const portIn = (ready: string, what: string) =>
  Number(new RegExp(`${what} on 127\\.0\\.0\\.1:(\\d+)`).exec(ready)?.[1]);

describe('pretend', () => {
  // Clients: PyVISA with its pure-Python backend and pySerial, as Debian packages them.
  it.skipIf(!pyvisa)('is read by PyVISA and pySerial over a pseudo-terminal', async () => {
    const { folder, hands } = await start(
      '--serial',
      'FOLDER/supply',
      '--meter-serial',
      'FOLDER/meter',
      '--board',
      'tern-no-enable',
    );
    const queries = ['*IDN?', 'MEAS:VOLT?;CURR?', 'SYST:ERR?'];
    const supply = pythonReads(join(folder, 'supply'), '\\n', queries);
    expect(supply.visa[0]!.split(',')).toHaveLength(4);
    expect(supply.visa[1]).toMatch(/^-?\d\.\d{3};-?\d\.\d{3}$/);
    expect(supply.visa[2]).toBe('0,"No error"');
    expect(supply.numbers).toHaveLength(2);
    expect(supply.serial[0]).toBe(`${supply.visa[0]}\n`);
    expect(supply.serial[2]).toBe('0,"No error"\n');
    await hands({ do: 'probe', point: 'MAIN_8V6' });
    const meter = pythonReads(join(folder, 'meter'), '\\r\\n', ['*IDN?', 'MEAS:RES?', 'SYST:ERR?']);
    expect(meter.visa[0]).toContain('METER');
    expect(meter.numbers[0]).toBeCloseTo(8200, -2);
    expect(await hands({ do: 'log' })).toEqual([]);
  });

  it.skipIf(!socat)(
    'leaves its link when a client goes, and takes it away at its end',
    async () => {
      const { folder, stop } = await start('--serial', 'FOLDER/supply');
      const link = join(folder, 'supply');
      const ask = () =>
        execFileSync('socat', ['-t', '1', '-', `${link},raw,echo=0`], {
          input: '*IDN?\n',
          encoding: 'utf8',
        });
      expect(ask()).toContain('SUPPLY');
      expect(ask()).toContain('SUPPLY');
      expect(await stop()).toBe(0);
      running = null;
      expect(existsSync(link)).toBe(false);
    },
  );

  it.skipIf(!socat)(
    'takes the place of a link left by a killed process, and of nothing else',
    async () => {
      const folder = mkdtempSync(join(tmpdir(), 'wakeline-left-'));
      const link = join(folder, 'supply');
      symlinkSync('/dev/pts/9999', link);
      const { ready, stop } = await start('--serial', link);
      expect(ready).toContain(`supply on ${link}`);
      await stop();
      running = null;
      writeFileSync(link, 'notes');
      await expect(startPretend('--serial', link)).rejects.toThrow('is no link is already there');
      expect(readFileSync(link, 'utf8')).toBe('notes');
      rmSync(folder, { recursive: true });
    },
  );

  it.skipIf(!socat)('ends with 1 when its pseudo-terminal is pulled', async () => {
    const { child } = await start('--serial', 'FOLDER/supply');
    const ended = new Promise((done) => child.once('exit', done));
    const socats = execFileSync('ps', ['-o', 'pid=', '--ppid', String(child.pid)], {
      encoding: 'utf8',
    });
    process.kill(Number(socats), 'SIGKILL');
    expect(await ended).toBe(1);
    running = null;
  });

  it('answers each client of a port by itself', async () => {
    const { ready } = await start('--tcp', '0', '--meter-tcp', '0', '--seed', '4');
    const port = portIn(ready, 'supply');
    const [one, two, meter] = await Promise.all([
      overTcp(port, '*IDN?\n*OPC?\n', 2),
      overTcp(port, 'VOLT?\n', 1),
      overTcp(portIn(ready, 'meter'), 'READ?\n', 1),
    ]);
    expect(one).toMatch(/SUPPLY.*\n1\n$/);
    expect(two).toBe('0.000\n');
    expect(meter).toMatch(/^[+-]\d\.\d{8}E[+-]\d\d\r\n$/);
  });

  it('does by hand what it is told, and shows what was sent to it', async () => {
    const { ready, hands } = await start('--tcp', '0');
    const port = portIn(ready, 'supply');
    expect(await hands({ do: 'put-board', board: 'tern-main-short' })).toEqual({
      board: 'tern-main-short',
      probeAt: null,
      clippedAt: null,
      partsReplaced: [],
    });
    expect(await hands({ do: 'replace-part', part: 'C112' })).toMatchObject({
      partsReplaced: ['C112'],
    });
    await overTcp(port, 'VOLT 19;:OUTP ON;*OPC?\n', 1);
    await overTcp(port, '\nOUTP OFF\n*OPC?\n', 1);
    const log = (await hands({ do: 'log' })) as { command: string; atS: number }[];
    expect(log.map((entry) => entry.command)).toEqual(['VOLT 19', ':OUTP ON', 'OUTP OFF']);
    expect(log[2]!.atS).toBeGreaterThanOrEqual(log[1]!.atS);
    expect(await hands({ do: 'truth' })).toMatchObject({ limited: false });
    expect(await hands({ do: 'put-board', board: null })).toMatchObject({ board: null });
  });

  it('refuses hands that ask for something else, with what to send', async () => {
    const { hands } = await start('--tcp', '0');
    for (const request of [{ do: 'fly' }, 5, { do: 'put-board', board: 'nope' }]) {
      expect(await hands(request)).toMatchObject({ trouble: { code: 'bad-input' } });
    }
  });

  it.each([
    [[], 'Neither --serial nor --tcp'],
    [['--tcp', 'five'], '--tcp must be a whole number'],
    [['--tcp', '0', '--board', 'nope'], 'tern-healthy'],
    [['--tcp', '0', '--fly'], 'Usage: pretend'],
  ])('ends with 2 and says what was wrong for %j', async (args, words) => {
    await expect(startPretend(...args)).rejects.toThrow(`pretend ended with 2`);
    await expect(startPretend(...args)).rejects.toThrow(words);
  });

  it('ends with 1 when a port is taken or a link cannot be made', async () => {
    const { ready } = await start('--tcp', '0');
    await expect(startPretend('--tcp', String(portIn(ready, 'supply')))).rejects.toThrow(
      'pretend ended with 1',
    );
    if (!socat) return;
    await expect(startPretend('--serial', '/nowhere/at/all')).rejects.toThrow('ended with 1');
  });
});
