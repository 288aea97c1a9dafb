import { useRef } from 'react';
import type { DeskState } from '../state/desk.ts';
import { share } from '../state/share.ts';
import { useDeskState } from '../state/use-desk.ts';
import { type SheetState, sheetState } from './sheet-state.ts';

/** The sheet's state; the same object for as long as its words stay the same. */
export function useSheetState(): SheetState {
  const before = useRef<SheetState | null>(null);
  return useDeskState((desk) => {
    before.current = share(before.current, stateOf(desk));
    return before.current;
  });
}

function stateOf({ bench, job, trouble, finished, live, trace }: DeskState): SheetState {
  const report = live !== null && live.runId === trace?.runId ? live.report : null;
  return sheetState({
    bench,
    items: job?.items ?? null,
    statedInputV: job?.job.board.statedInputV ?? null,
    newest: report?.stages.at(-1) ?? null,
    finished: finished?.trace == null ? null : { report: finished.report },
    trouble,
  });
}
