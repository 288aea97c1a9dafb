import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { Outcome } from './kill-and-hang.ts';

/*
 * `npm run endurance [-- --only kills,pulls,day,lines,touches] [--json FILE]`: what the test run
 * does in small, in full. Prints a line a part and the whole as JSON; ends with 1 when a part failed.
 */
const { values } = parseArgs({
  options: {
    only: { type: 'string' },
    json: { type: 'string' },
    kills: { type: 'string', default: '100' },
    hangs: { type: 'string', default: '20' },
  },
});

/** What came of one part. */
interface Part {
  readonly part: string;
  readonly about: string;
  readonly passed: boolean;
  readonly tookS: number;
  /** What it printed of itself: its figures, or why it failed. */
  readonly said: readonly string[];
  readonly figures?: Record<string, unknown>;
}

const root = path.resolve(import.meta.dirname, '../..');
const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-endurance-'));
const vitest = path.join(root, 'node_modules/vitest/vitest.mjs');

function run(args: readonly string[], env: Record<string, string> = {}) {
  return new Promise<{ code: number | null; out: string }>((resolve) => {
    const child = spawn(process.execPath, args, {
      cwd: root,
      env: { ...process.env, ...env, NO_COLOR: '1' },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let out = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream.on('data', (piece: Buffer) => {
        out += piece.toString();
        // As it comes, so that what was seen is not lost when the whole is broken off.
        process.stderr.write(piece);
      });
    }
    child.once('close', (code) => resolve({ code, out }));
  });
}

const lines = (out: string) => out.split('\n').filter((line) => line.trim() !== '');

async function tests(files: readonly string[], env: Record<string, string>) {
  const { code, out } = await run([vitest, 'run', ...files], env);
  const said = lines(out).filter(
    (line) => !/✓|RUN|Duration|Start at|stdout|Isolate|isolate/.test(line),
  );
  return { passed: code === 0, said };
}

function figuresOf(outcomes: readonly Outcome[]) {
  const isHang = ({ kind }: Outcome) => kind === 'stopped' || kind === 'blocked';
  const of = (some: readonly Outcome[]) => {
    const powered = some.filter(({ wasOn }) => wasOn);
    const offMs = powered
      .map((one) => one.offMs ?? Number.POSITIVE_INFINITY)
      .sort((a, b) => a - b)
      .map(Math.round);
    const share = (p: number) => offMs[Math.max(0, Math.ceil(p * offMs.length) - 1)] ?? null;
    const lostS = some.flatMap((one) => (one.lostS === null ? [] : [one.lostS]));
    return {
      count: some.length,
      powered: powered.length,
      offMs: { p50: share(0.5), p99: share(0.99), max: share(1) },
      laterThan1s: offMs.filter((ms) => ms > 1000).length,
      mostLostS: lostS.length === 0 ? null : Number(Math.max(...lostS).toFixed(2)),
      damaged: some.filter(({ integrity }) => integrity !== 'ok').length,
    };
  };
  return {
    kills: of(outcomes.filter((one) => !isHang(one))),
    hangs: of(outcomes.filter(isHang)),
  };
}

const PARTS: Readonly<
  Record<string, { about: string; run(): Promise<Omit<Part, 'part' | 'about' | 'tookS'>> }>
> = {
  lines: {
    about: 'a million random bytes, ten thousand cut, delayed, doubled and lost replies a session',
    run: () =>
      tests(
        ['tests/core/scpi/session-fuzz.test.ts', 'tests/core/instruments/supply-fuzz.test.ts'],
        {
          WAKELINE_FUZZ_REPLIES: '10000',
        },
      ),
  },
  touches: {
    about: 'more than 500 simulated touches with slips, chatter, slow rails and changes of range',
    run: () =>
      tests(
        ['tests/core/probing/probing-session.test.ts', 'tests/core/probing/probe-watch.test.ts'],
        {},
      ),
  },
  pulls: {
    about: '100 pulls and re-plugs of the pseudo-terminal during a run',
    run: () => tests(['tests/electron/bench/unplug.test.ts'], { WAKELINE_PULLS: '100' }),
  },
  day: {
    about: '24 simulated hours of two instruments at 20 Hz, a cable pulled every two minutes',
    run: () => tests(['tests/electron/bench/soak.test.ts'], { WAKELINE_SOAK_HOURS: '24' }),
  },
  kills: {
    about: `${values.kills} kills and ${values.hangs} hangs of main, from the supply's own log`,
    async run() {
      const json = path.join(folder, 'kills.json');
      const script = path.join(import.meta.dirname, 'kills.ts');
      const { kills, hangs } = values;
      const { code, out } = await run([script, '--kills', kills, '--hangs', hangs, '--json', json]);
      if (!existsSync(json)) return { passed: false, said: lines(out).slice(-12) };
      const said = lines(out).slice(-2);
      const outcomes = JSON.parse(readFileSync(json, 'utf8')) as readonly Outcome[];
      return { passed: code === 0, said, figures: figuresOf(outcomes) };
    },
  },
};

const parts: Part[] = [];
for (const [part, { about, run: go }] of Object.entries(PARTS)) {
  if (values.only !== undefined && !values.only.split(',').includes(part)) continue;
  const startMs = performance.now();
  const came = await go();
  const tookS = Math.round((performance.now() - startMs) / 1000);
  parts.push({ part, about, ...came, tookS });
  console.log(`${part}: ${about}: ${came.passed ? 'passed' : 'FAILED'} in ${tookS} s`);
  for (const line of came.said) console.log(`  ${line.trim()}`);
}
const told = {
  at: new Date().toISOString(),
  node: process.version,
  processor: `${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}`,
  parts,
};
if (values.json === undefined) console.log(JSON.stringify(told, null, 2));
else writeFileSync(values.json, `${JSON.stringify(told, null, 2)}\n`);
rmSync(folder, { recursive: true, force: true });
process.exit(parts.every(({ passed }) => passed) ? 0 : 1);
