import { spawn } from 'node:child_process';
import { openDisplay } from './display.ts';
import { readyApp } from './ready.ts';

const say = (line: string) => console.error(line);
const app = await readyApp(say);
const display = await openDisplay(say);
const child = spawn(app.electron.path, [...app.args, ...process.argv.slice(2)], {
  stdio: 'inherit',
  env: { ...process.env, ...app.env, ...display.env },
});
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal));
child.on('exit', (code) => {
  display.close();
  process.exit(code ?? 1);
});
