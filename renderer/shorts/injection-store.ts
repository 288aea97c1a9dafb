import type { Bridge } from '../../core/contract/contract.ts';
import { type InjectionState, NO_INJECTION } from '../../core/contract/injection-calls.ts';
import { createStore, type Store, useStore } from '../state/store.ts';
import { useDesk } from '../state/use-desk.ts';

interface Told {
  readonly injection: InjectionState;
}

const stores = new WeakMap<Bridge, Store<Told>>();

/** The one store on a bridge; it listens from its first use on. */
function injectionOf(bridge: Bridge): Store<Told> {
  const known = stores.get(bridge);
  if (known !== undefined) return known;
  const store = createStore<Told>({ injection: NO_INJECTION });
  stores.set(bridge, store);
  bridge.on('injectionChanged', (injection) => store.change({ injection }));
  void bridge.injectionState({}).then((answer) => {
    if (answer.ok && store.get().injection === NO_INJECTION) {
      store.change({ injection: answer.value });
    }
  });
  return store;
}

/** Watches a part of what main tells of current being put in. */
export function useInjection<S>(pick: (state: InjectionState) => S): S {
  return useStore(injectionOf(useDesk().bridge), ({ injection }) => pick(injection));
}
