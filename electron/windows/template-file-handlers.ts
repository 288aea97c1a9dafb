import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { app, type BrowserWindow, dialog } from 'electron';
import { readTemplateFile, writeTemplateFile } from '../../core/checklist/template-file.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { templateFileCalls } from '../../core/contract/template-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Ledger } from '../ledger/ledger-client.ts';

const FILTERS = [{ name: 'Checklist', extensions: ['json'] }];

/** The calls about checklist files: main asks where, reads and writes. */
export function templateFileHandlers(parts: {
  readonly ledger: Ledger;
  window(): BrowserWindow | null;
}): Handlers<typeof templateFileCalls> {
  const documents = () => app.getPath('documents');
  return {
    async exportTemplate({ key }) {
      const [newest] = await parts.ledger.handlers.templateHistory({ key });
      const asked = {
        title: 'Write the checklist to a file',
        defaultPath: path.join(documents(), `checklist-${key}.json`),
        filters: FILTERS,
      };
      const window = parts.window();
      const chosen = await (window
        ? dialog.showSaveDialog(window, asked)
        : dialog.showSaveDialog(asked));
      if (chosen.canceled || !chosen.filePath || newest === undefined) return null;
      try {
        await writeFile(chosen.filePath, writeTemplateFile(newest), 'utf8');
      } catch (cause) {
        throw new WakelineError(
          {
            code: 'file-not-written',
            what: `The checklist could not be written: ${reasonOf(cause)}`,
            where: chosen.filePath,
            todo: 'Choose another folder. The ledger keeps the checklist.',
          },
          { cause },
        );
      }
      return chosen.filePath;
    },

    async openTemplateFile() {
      const asked = {
        title: 'Read a checklist file',
        defaultPath: documents(),
        properties: ['openFile' as const],
        filters: FILTERS,
      };
      const window = parts.window();
      const chosen = await (window
        ? dialog.showOpenDialog(window, asked)
        : dialog.showOpenDialog(asked));
      const source = chosen.filePaths[0];
      if (chosen.canceled || source === undefined) return null;
      const text = await readFile(source, 'utf8').catch((cause: unknown) => {
        throw new WakelineError(
          {
            code: 'bad-input',
            what: `The file could not be read: ${reasonOf(cause)}`,
            where: source,
            todo: 'Choose another file. Nothing was changed.',
          },
          { cause },
        );
      });
      return readTemplateFile(text, path.basename(source));
    },
  };
}

const reasonOf = (thrown: unknown): string =>
  thrown instanceof Error ? thrown.message : String(thrown);
