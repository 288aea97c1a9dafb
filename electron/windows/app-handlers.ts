import { statSync } from 'node:fs';
import path from 'node:path';
import { app, BrowserWindow, dialog } from 'electron';
import type { appCalls } from '../../core/contract/app-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import { recordFileName } from '../../core/record/record-file-name.ts';
import { shopClock } from '../../core/record/record-time.ts';
import { buildBagTag } from '../../core/tags/bag-tag.ts';
import type { Bench } from '../bench/bench.ts';
import type { Ledger } from '../ledger/ledger-client.ts';
import { exportRecord } from '../record/export-record.ts';
import { exportTag } from '../record/export-tag.ts';
import { APP_ORIGIN } from './app-protocol.ts';

interface AppParts {
  readonly bench: Bench;
  readonly ledger: Ledger;
  readonly out: string;
  window(): BrowserWindow | null;
}

/** The calls about the app itself. */
export function appHandlers(parts: AppParts): Handlers<typeof appCalls> {
  const { handlers } = parts.ledger;

  /** Where a PDF is to go; null = the person changed their mind. */
  async function askWhere(title: string, fileName: string): Promise<string | null> {
    const asked = {
      title,
      defaultPath: path.join(app.getPath('documents'), fileName),
      filters: [{ name: 'PDF', extensions: ['pdf'] }],
    };
    const window = parts.window();
    const chosen = await (window
      ? dialog.showSaveDialog(window, asked)
      : dialog.showSaveDialog(asked));
    return chosen.canceled || !chosen.filePath ? null : chosen.filePath;
  }

  return {
    appFacts: () => ({
      version: app.getVersion(),
      ledgerPath: parts.ledger.path,
      ledgerBytes: statSync(parts.ledger.path).size,
    }),
    ackLive: ({ sequence }) => {
      parts.bench.acknowledge(sequence);
      return null;
    },
    exportTag: async ({ jobId }) => {
      const { job } = await handlers.readJob({ id: jobId });
      const code = await handlers.readTag({ jobId });
      const utcOffsetMin = -new Date(job.createdAt).getTimezoneOffset();
      const tag = buildBagTag(job, code, shopClock(utcOffsetMin));
      const chosen = await askWhere('Print the bag tag', tag.fileName);
      if (chosen === null) return null;
      return exportTag({
        tag,
        path: chosen,
        pageUrl: `${APP_ORIGIN}/tag/index.html`,
        preload: path.join(parts.out, 'record-preload.cjs'),
        createWindow: (options) => new BrowserWindow(options),
      });
    },
    exportRecord: async ({ jobId, paper }) => {
      const printedAt = Date.now();
      const record = await parts.ledger.records.recordOfJob({ jobId, paper, printedAt });
      const { job } = await handlers.readJob({ id: jobId });
      const chosen = await askWhere('Export the job record', recordFileName(job));
      if (chosen === null) return null;
      return exportRecord({
        record,
        paper,
        path: chosen,
        pageUrl: `${APP_ORIGIN}/record/index.html`,
        preload: path.join(parts.out, 'record-preload.cjs'),
        createWindow: (options) => new BrowserWindow(options),
      });
    },
  };
}
