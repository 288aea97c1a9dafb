// A supply on a pseudo-terminal of its own that goes over a limit again and again and times the OFF:
// from the last byte of the first reply that shows the overload to OUTP OFF read here. Both ways
// through the pseudo-terminal are in it. Arguments: the link, a file for the
// milliseconds, one a line.
import { appendFileSync } from 'node:fs';
import { hostOnPty } from '../../electron/bench/pretend-host-pty.ts';

const [link, logFile] = process.argv.slice(2);
const NORMAL_A = '0.20000';
const OVERLOAD_A = '0.80000';
/** Off, and then on without overload, for so long; the latter moves through the poll's phases. */
const REST_MS = 100;
let amps = NORMAL_A;
let isOn = false;
let isResting = false;
let shownMs = Number.NaN;
let spread = 0;
let errors: string[] = [];
let held = '';

function answer(header: string): string | null {
  switch (header.replace(/^:/, '')) {
    case '*IDN?':
      return 'BENCHWORKS,TRIPPING,1,1';
    case 'SYST:ERR?':
      return errors.shift() ?? '0,"No error"';
    case 'MEAS:VOLT?':
      return isOn ? '12.0000' : '0.0030';
    case 'MEAS:CURR?':
      return isOn ? amps : '0.00020';
    case 'VOLT?':
      return '12.000';
    case 'CURR?':
      return '3.000';
    case 'VOLT? MAX':
      return '30.000';
    case 'CURR? MAX':
      return '5.000';
    case 'OUTP?':
      return isOn ? '1' : '0';
    case 'OUTP ON':
      isOn = true;
      return null;
    case 'OUTP OFF':
      switchedOff();
      return null;
    default:
      if (header !== '') errors = [...errors.slice(-9), '-113,"Undefined header"'];
      return null;
  }
}

function switchedOff(): void {
  const gotMs = performance.now();
  isOn = false;
  if (isResting) return;
  if (!Number.isNaN(shownMs)) appendFileSync(logFile!, `${gotMs - shownMs}\n`);
  shownMs = Number.NaN;
  amps = NORMAL_A;
  isResting = true;
  spread = (spread + 17) % 50;
  // Switched on again at its own front.
  setTimeout(() => {
    isOn = true;
    isResting = false;
    setTimeout(() => {
      amps = OVERLOAD_A;
    }, REST_MS + spread);
  }, REST_MS);
}

const listeners = new Set<(bytes: Uint8Array) => void>();
await hostOnPty(
  {
    receive(bytes) {
      held += Buffer.from(bytes).toString('latin1');
      for (let at = held.indexOf('\n'); at >= 0; at = held.indexOf('\n')) {
        const message = held.slice(0, at).trim();
        held = held.slice(at + 1);
        const answers = message.split(';').flatMap((unit) => answer(unit.trim()) ?? []);
        if (answers.length === 0) continue;
        const reply = Buffer.from(`${answers.join(';')}\r\n`);
        for (const listener of listeners) listener(reply);
        if (Number.isNaN(shownMs) && answers.includes(OVERLOAD_A)) shownMs = performance.now();
      }
    },
    onBytes(listener) {
      listeners.add(listener);
      return () => {
        listeners.delete(listener);
      };
    },
  },
  link!,
);
process.stdout.write('ready\n');
