import path from 'node:path';
import { app, type BrowserWindow, dialog } from 'electron';
import type { Handlers } from '../../core/contract/contract.ts';
import type { CopyEvents, copyCalls } from '../../core/contract/copy-calls.ts';
import { backupName } from '../../core/copies/backup-plan.ts';
import type { Ledger } from '../ledger/ledger-client.ts';

/** The app ends and starts again with the ledger that waits: left time for the answer to arrive. */
const START_AGAIN_MS = 400;

/** The calls about the ledger as a whole: main asks where, the ledger's worker works. */
export function copyHandlers(parts: {
  readonly ledger: Ledger;
  window(): BrowserWindow | null;
  told(state: CopyEvents['copiesChanged']): void;
}): Handlers<typeof copyCalls> {
  const { copies } = parts.ledger;
  const documents = () => app.getPath('documents');

  const askFor = async (options: Electron.OpenDialogOptions): Promise<string | null> => {
    const window = parts.window();
    const chosen = await (window
      ? dialog.showOpenDialog(window, options)
      : dialog.showOpenDialog(options));
    return chosen.canceled ? null : (chosen.filePaths[0] ?? null);
  };
  const folder = (title: string) =>
    askFor({
      title,
      defaultPath: documents(),
      properties: ['openDirectory', 'createDirectory'],
    });
  const tellState = async (): Promise<void> => parts.told(await copies.state(null));
  /** Whatever becomes of the work, the window hears that it is over. */
  const then = async <T>(work: Promise<T>): Promise<T> => {
    try {
      return await work;
    } finally {
      await tellState();
    }
  };

  return {
    readCopyState: () => copies.state(null),

    async chooseBackupFolder() {
      const chosen = await folder('Back the ledger up to this folder');
      return chosen === null ? null : then(copies.chooseFolder({ folder: chosen }));
    },

    changeBackupPlan: (plan) => then(copies.changePlan(plan)),
    backUpNow: () => then(copies.backUp(null)),
    listBackups: () => copies.backups(null),

    async restoreBackup({ name, as }) {
      if (as === 'ledger') {
        const restored = await then(copies.restore({ name, target: null }));
        setTimeout(() => {
          app.relaunch();
          app.quit();
        }, START_AGAIN_MS);
        return restored;
      }
      const asked = {
        title: 'Restore the backup to a new file',
        defaultPath: path.join(documents(), `${name}.sqlite`),
        filters: [{ name: 'Ledger', extensions: ['sqlite'] }],
      };
      const window = parts.window();
      const chosen = await (window
        ? dialog.showSaveDialog(window, asked)
        : dialog.showSaveDialog(asked));
      if (chosen.canceled || !chosen.filePath) return null;
      return then(copies.restore({ name, target: chosen.filePath }));
    },

    async exportLedger() {
      const chosen = await folder('Export the ledger into a new folder in this one');
      if (chosen === null) return null;
      const name = backupName(Date.now()).replace('backup', 'export');
      return then(copies.exportTo({ folder: path.join(chosen, name) }));
    },

    async planMerge({ from }) {
      const source =
        from === 'folder'
          ? await folder('Take in an exported ledger')
          : await askFor({
              title: 'Take in a ledger file',
              defaultPath: documents(),
              properties: ['openFile'],
              filters: [{ name: 'Ledger', extensions: ['sqlite', 'backup'] }],
            });
      return source === null ? null : then(copies.plan({ source }));
    },

    mergeLedger: ({ token }) => then(copies.merge({ token })),
    dropMerge: ({ token }) => copies.drop({ token }),
    cancelCopy: () => copies.cancel(null),
  };
}
