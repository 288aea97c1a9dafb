import { statSync } from 'node:fs';
import path from 'node:path';
import { app, BrowserWindow, dialog } from 'electron';
import type { appCalls } from '../../core/contract/app-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import { buildJobRecord } from '../../core/record/job-record.ts';
import { recordFileName } from '../../core/record/record-file-name.ts';
import { shopClock } from '../../core/record/record-time.ts';
import { buildBagTag } from '../../core/tags/bag-tag.ts';
import type { Bench } from '../bench/bench.ts';
import type { Ledger } from '../ledger/ledger-client.ts';
import { exportRecord } from '../record/export-record.ts';
import { exportTag } from '../record/export-tag.ts';
import { APP_ORIGIN } from './app-protocol.ts';

/** Columns of a run's curve on paper: more than a printed line can show. */
const PLOT_COLUMNS = 1200;

interface AppParts {
  readonly bench: Bench;
  readonly ledger: Ledger;
  readonly out: string;
  window(): BrowserWindow | null;
}

/** The calls about the app itself. */
export function appHandlers(parts: AppParts): Handlers<typeof appCalls> {
  const { handlers } = parts.ledger;

  async function recordOf(jobId: string, paper: 'A4' | 'Letter') {
    const whole = await handlers.readJob({ id: jobId });
    const powered = whole.runs.filter((run) => run.kind === 'powered');
    const runs = await Promise.all(
      powered.map(async ({ id }) => {
        const { run, report } = await handlers.readRun({ id });
        const toTick = Math.ceil(run.durationS * 10_000) + 1;
        const window = await handlers.readWindow({
          id,
          fromTick: 0,
          toTick,
          columns: PLOT_COLUMNS,
        });
        return { run, report, window };
      }),
    );
    const { job: rails } = await handlers.railWalk({ jobId, state: null, isPowered: false });
    const printedAt = Date.now();
    const utcOffsetMin = -new Date(printedAt).getTimezoneOffset();
    const partFacts = await handlers.readPartFacts({ jobId: whole.job.id });
    const evidence = await handlers.likelyCauses({ jobId: whole.job.id });
    const pictures = await handlers.listPictures({ jobId: whole.job.id });
    return buildJobRecord({
      whole,
      runs,
      rails,
      partFacts,
      evidence,
      pictures,
      printedAt,
      utcOffsetMin,
      paper,
    });
  }

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
      const record = await recordOf(jobId, paper);
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
