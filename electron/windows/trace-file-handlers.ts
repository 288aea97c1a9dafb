import path from 'node:path';
import { app, type BrowserWindow, dialog } from 'electron';
import type { Handlers } from '../../core/contract/contract.ts';
import type { TraceFormat, traceFileCalls } from '../../core/contract/trace-file-calls.ts';
import type { Run } from '../../core/job/job.ts';
import type { Ledger } from '../ledger/ledger-client.ts';

const FORMAT_WORDS: Readonly<Record<TraceFormat, string>> = {
  csv: 'CSV',
  jsonl: 'JSON Lines',
  parquet: 'Parquet',
};

/** What a trace file may be called. */
const READABLE = ['csv', 'tsv', 'txt', 'log', 'dat'];

/** The calls about trace files: main asks where, the ledger's worker reads and writes. */
export function traceFileHandlers(parts: {
  readonly ledger: Ledger;
  window(): BrowserWindow | null;
}): Handlers<typeof traceFileCalls> {
  const { handlers, files } = parts.ledger;
  const documents = () => app.getPath('documents');

  return {
    async exportRun({ id, format }) {
      const { run } = await handlers.readRun({ id });
      const asked = {
        title: 'Export the trace',
        defaultPath: path.join(documents(), `${traceFileName(run)}.${format}`),
        filters: [{ name: FORMAT_WORDS[format], extensions: [format] }],
      };
      const window = parts.window();
      const chosen = await (window
        ? dialog.showSaveDialog(window, asked)
        : dialog.showSaveDialog(asked));
      if (chosen.canceled || !chosen.filePath) return null;
      return files.writeRun({ id, format, path: chosen.filePath });
    },

    async importTrace({ jobId, feed }) {
      const asked = {
        title: 'Read a trace file',
        defaultPath: documents(),
        properties: ['openFile' as const],
        filters: [
          { name: 'Trace files', extensions: READABLE },
          { name: 'All files', extensions: ['*'] },
        ],
      };
      const window = parts.window();
      const chosen = await (window
        ? dialog.showOpenDialog(window, asked)
        : dialog.showOpenDialog(asked));
      const source = chosen.filePaths[0];
      if (chosen.canceled || source === undefined) return null;
      const utcOffsetMin = -new Date().getTimezoneOffset();
      return files.readTrace({ path: source, jobId, feed, utcOffsetMin });
    },
  };
}

/** `run-20260105-093000`: by the bench's own clock, without what a file name cannot hold. */
function traceFileName(run: Run): string {
  const local = new Date(run.startedAt + run.utcOffsetMin * 60_000).toISOString();
  return `run-${local.slice(0, 10).replaceAll('-', '')}-${local.slice(11, 19).replaceAll(':', '')}`;
}
