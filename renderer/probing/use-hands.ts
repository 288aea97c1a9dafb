import { useStore } from '../state/store.ts';
import { useDesk } from '../state/use-desk.ts';
import { type HandsState, handsOf } from './hands-store.ts';

/** Watches a part of what the window knows of hands-free measuring and soaks. */
export function useHands<S>(pick: (state: HandsState) => S): S {
  return useStore(handsOf(useDesk().bridge), pick);
}
