import path from 'node:path';
import { buildApp } from './build.ts';
import { type FoundElectron, findElectron } from './find-electron.ts';
import { sqliteBindingFor } from './sqlite-binding.ts';

/** An app that can be started: which Electron, with which arguments and environment. */
export interface ReadyApp {
  readonly electron: FoundElectron;
  /** Arguments up to and including the app's folder. */
  readonly args: readonly string[];
  readonly env: Record<string, string>;
}

export const appFolder = path.resolve(import.meta.dirname, '../..');

/** Finds Electron, its SQLite and a fresh build; what `npm start`, tests and the demo share. */
export async function readyApp(say: (line: string) => void): Promise<ReadyApp> {
  const electron = await findElectron(say);
  const binding = sqliteBindingFor(electron, say);
  await buildApp(say);
  return {
    electron,
    args: [...electron.args, appFolder],
    env: binding === null ? {} : { WAKELINE_SQLITE_BINDING: binding },
  };
}
