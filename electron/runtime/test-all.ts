import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { openDisplay } from './display.ts';
import { appFolder, readyApp } from './ready.ts';

/** How one runner ended. */
interface Count {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
  /** Passed, but only at the second try. */
  readonly retried: number;
}

const say = (line: string) => console.log(line);
const notes = mkdtempSync(path.join(tmpdir(), 'wakeline-tests-'));

/** Tests that need a real device file or a real ledger run again inside Electron's own Node. */
const INSIDE_ELECTRON = ['tests/electron/ledger', 'tests/electron/bench', 'tests/migrations'];

/** Tests that keep to the second, as the watcher does: nothing else runs beside them. */
const BY_ITSELF = ['tests/electron/watch'];

function vitest(
  name: string,
  command: string,
  args: readonly string[],
  env: NodeJS.ProcessEnv,
): Count {
  say(`\n== ${name}`);
  const report = path.join(notes, `${name.replaceAll(/\W+/g, '-')}.json`);
  const ran = spawnSync(
    command,
    [
      path.join(appFolder, 'node_modules/vitest/vitest.mjs'),
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${report}`,
      ...args,
    ],
    { cwd: appFolder, stdio: 'inherit', env },
  );
  if (!existsSync(report)) return { passed: 0, failed: 1, skipped: 0, retried: 0 };
  const told = JSON.parse(readFileSync(report, 'utf8')) as {
    numPassedTests: number;
    numFailedTests: number;
    numPendingTests: number;
    success: boolean;
  };
  const failed = told.numFailedTests + (told.numFailedTests === 0 && ran.status !== 0 ? 1 : 0);
  // Nothing in the report says which test was tried again: what was is on screen.
  return { passed: told.numPassedTests, failed, skipped: told.numPendingTests, retried: 0 };
}

function playwright(env: NodeJS.ProcessEnv): Count {
  say('\n== In the real window');
  const report = path.join(notes, 'window.json');
  const ran = spawnSync(
    process.execPath,
    [path.join(appFolder, 'node_modules/@playwright/test/cli.js'), 'test', '--reporter=list,json'],
    { cwd: appFolder, stdio: 'inherit', env: { ...env, PLAYWRIGHT_JSON_OUTPUT_NAME: report } },
  );
  if (!existsSync(report)) return { passed: 0, failed: 1, skipped: 0, retried: 0 };
  const { stats } = JSON.parse(readFileSync(report, 'utf8')) as {
    stats: { expected: number; unexpected: number; flaky: number; skipped: number };
  };
  const failed = stats.unexpected + (stats.unexpected === 0 && ran.status !== 0 ? 1 : 0);
  const { expected, flaky, skipped } = stats;
  return { passed: expected + flaky, failed, skipped, retried: flaky };
}

const app = await readyApp(say);
const display = await openDisplay(say);
const env = { ...process.env, ...display.env };
const inElectron = { ...env, ...app.env, ELECTRON_RUN_AS_NODE: '1' };
const only = process.argv.slice(2);
const counts: Count[] = [];
if (only.length > 0) counts.push(vitest('Under Node', process.execPath, only, env));
else {
  const rest = BY_ITSELF.flatMap((folder) => ['--exclude', `${folder}/**`]);
  counts.push(vitest('Under Node', process.execPath, rest, env));
  counts.push(vitest('Under Node, by itself', process.execPath, [...BY_ITSELF, '--retry=1'], env));
  const there = INSIDE_ELECTRON.filter((folder) => existsSync(path.join(appFolder, folder)));
  counts.push(vitest('Inside Electron', app.electron.path, there, inElectron));
  counts.push(playwright({ ...env, ...app.env, WAKELINE_ELECTRON: app.electron.path }));
}
display.close();
const sum = (of: keyof Count) => counts.reduce((total, count) => total + count[of], 0);
const skipped = sum('skipped') > 0 ? `, ${sum('skipped')} skipped` : '';
if (sum('retried') > 0) say(`\n${sum('retried')} passed only at the second try`);
say(`\n${sum('passed')} passed, ${sum('failed')} failed${skipped}`);
process.exit(sum('failed') === 0 && sum('passed') > 0 ? 0 : 1);
