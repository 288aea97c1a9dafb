import type { CheckedCopy, checkCopy } from './check-copy.ts';
import { copyTrouble } from './copy-trouble.ts';
import type { ExportDone, exportLedger, Tell } from './export-ledger.ts';
import type { CopiedPicture } from './picture-copies.ts';
import type { Restored, restoreBackup } from './restore-backup.ts';
import type { StagedLedger, stageLedger } from './stage-ledger.ts';

type Without<T> = Omit<T, 'tell'>;

interface Copied {
  readonly pictures: readonly CopiedPicture[];
  /** Pictures that are missing or damaged where they come from. */
  readonly lost: number;
}

interface PictureArgs {
  /** A ledger that nobody writes to, which names them. */
  readonly ledger: string;
  readonly from: string;
  readonly to: string;
}

/** Long work on files that nobody else writes to: done in a thread of its own, beside the ledger's. */
export interface AsideTasks {
  'finish-backup': {
    readonly args: Parameters<typeof checkCopy>[0] & Omit<PictureArgs, 'ledger'>;
    readonly result: Copied & { readonly checked: CheckedCopy };
  };
  'copy-pictures': { readonly args: PictureArgs; readonly result: Copied };
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

async function pictures({ ledger, from, to }: PictureArgs, tell: Tell): Promise<Copied> {
  const { openCopy } = await import('./open-copy.ts');
  const { copyPictures, picturesOf } = await import('./picture-copies.ts');
  const sqlite = openCopy(ledger, { readonly: true });
  const names = picturesOf(sqlite);
  sqlite.close();
  const far = (done: number) => tell('copying the pictures', done, names.length);
  try {
    const copied = await copyPictures({ from, to, names, tell: far });
    return { pictures: copied, lost: names.length - copied.length };
  } catch (thrown) {
    throw copyTrouble(thrown, to);
  }
}

/** Does one piece of such work in this thread. Each is loaded when it is asked for. */
export async function doTask<N extends AsideName>(
  name: N,
  args: AsideTasks[N]['args'],
  tell: Tell,
): Promise<AsideTasks[N]['result']> {
  const tasks: {
    readonly [K in AsideName]: (given: AsideTasks[K]['args']) => Promise<AsideTasks[K]['result']>;
  } = {
    async 'finish-backup'({ from, to, ...copy }) {
      tell('reading the copy back', 0, 0);
      const checked = await (await import('./check-copy.ts')).checkCopy(copy);
      return { checked, ...(await pictures({ ledger: copy.file, from, to }, tell)) };
    },
    'copy-pictures': (given) => pictures(given, tell),
    export: async (given) => (await import('./export-ledger.ts')).exportLedger({ ...given, tell }),
    async stage(given) {
      const { stageLedger: stage } = await import('./stage-ledger.ts');
      return stage({ ...given, tell }).catch((thrown) => {
        throw copyTrouble(thrown, given.source);
      });
    },
    restore: async (given) => (await import('./restore-backup.ts')).restoreBackup(given),
  };
  return tasks[name](args);
}
