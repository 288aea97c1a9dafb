import type { CheckedCopy } from './check-copy.ts';
import { checkCopy } from './check-copy.ts';
import { copyTrouble } from './copy-trouble.ts';
import { type ExportDone, exportLedger, type Tell } from './export-ledger.ts';
import { openCopy } from './open-copy.ts';
import { type CopiedPicture, copyPictures, picturesOf } from './picture-copies.ts';
import { type Restored, restoreBackup } from './restore-backup.ts';
import { type StagedLedger, stageLedger } from './stage-ledger.ts';

type Without<T> = Omit<T, 'tell'>;

/** Long work on files that nobody else writes to: done in a thread of its own, beside the ledger's. */
export interface AsideTasks {
  'check-copy': {
    readonly args: Parameters<typeof checkCopy>[0];
    readonly result: CheckedCopy;
  };
  'copy-pictures': {
    readonly args: { readonly ledger: string; readonly from: string; readonly to: string };
    readonly result: { readonly pictures: readonly CopiedPicture[]; readonly lost: number };
  };
  export: {
    readonly args: Without<Parameters<typeof exportLedger>[0]>;
    readonly result: ExportDone;
  };
  stage: {
    readonly args: Without<Parameters<typeof stageLedger>[0]>;
    readonly result: StagedLedger;
  };
  restore: { readonly args: Parameters<typeof restoreBackup>[0]; readonly result: Restored };
}

export type AsideName = keyof AsideTasks;

/** Does one piece of such work in this thread. */
export async function doTask<N extends AsideName>(
  name: N,
  args: AsideTasks[N]['args'],
  tell: Tell,
): Promise<AsideTasks[N]['result']> {
  const tasks: {
    readonly [K in AsideName]: (given: AsideTasks[K]['args']) => Promise<AsideTasks[K]['result']>;
  } = {
    'check-copy': checkCopy,
    async 'copy-pictures'({ ledger, from, to }) {
      const sqlite = openCopy(ledger, { readonly: true });
      const names = picturesOf(sqlite);
      sqlite.close();
      const far = (done: number) => tell('copying the pictures', done, names.length);
      const pictures = await copyPictures({ from, to, names, tell: far }).catch((thrown) => {
        throw copyTrouble(thrown, to);
      });
      return { pictures, lost: names.length - pictures.length };
    },
    export: (given) => exportLedger({ ...given, tell }),
    stage: (given) =>
      stageLedger({ ...given, tell }).catch((thrown) => {
        throw copyTrouble(thrown, given.source);
      }),
    restore: restoreBackup,
  };
  return tasks[name](args);
}
