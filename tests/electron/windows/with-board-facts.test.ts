import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { withBoardFacts } from '../../../electron/windows/with-board-facts.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';
import { TERN_TABLE } from '../../support/tern-rails.ts';

const ledger = await openLedgerInThread({
  path: path.join(tempFolder('board-facts'), 'ledger.sqlite'),
});
afterAll(() => ledger.close());

const UNKNOWN = { statedInputV: null, statedLimitA: null, runningA: null, runsFlat: null };
const job = (
  boardModel: string | null,
  board: Partial<typeof UNKNOWN | { statedInputV: number }>,
) => ledger.handlers.createJob(jobFields({ boardModel, board: { ...UNKNOWN, ...board } }));

describe('a job on the bench', () => {
  it("takes what it does not say itself from its board's table", async () => {
    await ledger.handlers.saveBoard({ name: 'Tern 14', was: null, table: TERN_TABLE });
    const silent = await withBoardFacts(ledger, await job('tern 14', {}));
    expect(silent.board).toEqual({
      statedInputV: 19,
      statedLimitA: 2.5,
      runningA: 0.9,
      runsFlat: false,
    });
    const own = await withBoardFacts(ledger, await job('Tern 14', { statedInputV: 12 }));
    expect(own.board.statedInputV).toBe(12);
  });

  it('stays as it is where nobody knows the board', async () => {
    for (const name of [null, 'Wren']) {
      const unknown = await job(name, {});
      expect(await withBoardFacts(ledger, unknown)).toBe(unknown);
    }
  });
});
