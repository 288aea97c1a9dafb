import { createContext, useContext, useMemo } from 'react';
import { WakelineError } from '../../core/errors.ts';
import { type Actions, createActions } from './actions.ts';
import type { Desk, DeskState } from './desk.ts';
import { useStore } from './store.ts';

export const DeskContext = createContext<Desk | null>(null);

export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (desk === null) {
    throw new WakelineError({
      code: 'internal',
      what: 'A view was drawn outside the window',
      where: 'DeskContext',
      todo: 'Report this with the byte log.',
    });
  }
  return desk;
}

/** Watches a part of what the window knows. */
export function useDeskState<S>(pick: (state: DeskState) => S): S {
  return useStore(useDesk().store, pick);
}

export function useActions(): Actions {
  const desk = useDesk();
  return useMemo(() => createActions(desk), [desk]);
}
