import { existsSync } from 'node:fs';
import path from 'node:path';

const packaged = path.resolve(import.meta.dirname, '../../node_modules/node/bin/node');

/** Node 24, which runs .ts files: for processes beside a test that may itself run in Electron. */
export const nodePath = existsSync(packaged) ? packaged : process.execPath;
